#!/usr/bin/env bash
# The walk-in freezer by mouse: kit A's valve core is widened to 4.2 mm, the gauge set is taken
# out, the end opened to 4.2 mm, a part dragged to another place and brought back; the terminal solves
# the saved file. Then a change that is not saved must survive a kill.
#
#   tests/window/t1.sh [PROGRAM]
source "$(dirname "$0")/lib.sh"
begin t1 "${1:-}"

job=$work/job.ron
cp presets/scenarios/bakery-freezer.ron "$job"
before=$(value "$job" A rate_kg_s)
open_window "$job"
shot 1-as-opened

# Takes a part with one size in hand and types over it in the row beneath.
type_bore() {
    in_hand "$1" "$2"
    click $(($(row_left "$row_top") + 75)) "$row"
    type_over "$3"
}

# Eight columns: system, five parts, machine, cylinder.
type_bore 1 8 "4.2 mm"
save "$job"
holds "$job" 'ValveCore(from:"core-depressed",bore:"4.2mm"'
widened=$(value "$job" A rate_kg_s)
between "$widened" "$(awk -v v="$before" 'BEGIN { print 1.05 * v }')" 1 "the rate with the core's hole at 4.2 mm"
shot 2-core-widened

# "Out" is the first word after the size; the column goes with the part.
in_hand 3 8
click $(($(row_left "$row_top") + 138)) "$row"
type_bore 4 7 "4.2 mm"
shot 3-gauge-set-out-end-opened
save "$job"
same "$(parts "$job" A)" "ValveCore Hose Hose SelfSealingEnd" "kit A"
opened=$(value "$job" A rate_kg_s)
# 1.3 to 1.6 lb/min: nothing narrower than 3.8 mm is left.
between "$opened" 0.00983 0.01210 "the rate of the opened kit in kg/s"
echo "t1: $before to $widened to $opened kg/s: core widened; gauge set out and end opened"

# A part is dragged to another place, and brought back by key.
point "$(column 1 7)" $((header + views + 40))
xdotool mousedown 1
settle
for column in 2 3 4; do point "$(column "$column" 7)" $((header + views + 40)); done
xdotool mouseup 1
settle
save "$job"
same "$(parts "$job" A)" "Hose Hose SelfSealingEnd ValveCore" "kit A with its core dragged to the end"
keys ctrl+z
save "$job"
same "$(parts "$job" A)" "ValveCore Hose Hose SelfSealingEnd" "kit A after Undo"

quiet
idle=$(ticks)
sleep 3
echo "t1: idle: $(($(ticks) - idle)) clock ticks of work in 3 s"

type_bore 1 7 "3.3 mm"
# Written three seconds after the change.
copy=$XDG_DATA_HOME/narrows/recovery-$pid.ron
until_so has "$copy" 'bore:"3.3mm"' || fail "no recovery copy of the last change"
kill -9 "$pid"
wait "$pid" 2>/dev/null || true
holds "$copy" 'bore:"3.3mm"'
lacks "$job" 'bore:"3.3mm"'
open_window "$job"
shot 4-after-the-kill
echo "t1: kill: the last change is in the recovery copy, the file is as saved"
