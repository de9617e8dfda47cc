#!/usr/bin/env bash
# Where to put the machine, by keys and mouse: from 5 ft off the system on 100 ft of cord to the receptacle
# itself; looking changes nothing, one click moves hose and cord, one undo brings both back. The ranges come
# from circuit arithmetic for this case: 120 V panel, 50 ft of 14 AWG (2.525 ohm a 1,000 ft, ASTM B258 and
# NEC chapter 9, from memory), a 12 A motor that starts on 60 A at a power factor of 0.65.
#
#   tests/window/p1.sh [PROGRAM]
source "$(dirname "$0")/lib.sh"
begin p1 "${1:-}"

job=$work/job.ron
cp presets/scenarios/long-cord.ron "$job"
near=$(value "$job" A rate_kg_s)
original=$(cksum <"$job")
open_window "$job"
command_by_search "Where to put the machine"
quiet
shot 1-today

# The picture lies over the row at the foot; the machine stands where it is clicked.
foot=$((${size#*x} - clock))
click $(((${size%x*} - strip) / 4)) $((foot - 40))
keys Home
shot 2-nearest
keys End
shot 3-receptacle
[ "$(cksum <"$job")" = "$original" ] || fail "looking changed the file"
# The next thing that takes keys is the command beside the picture.
keys Tab Return
save "$job"
holds "$job" 'length:"105ft"'
lacks "$job" 'cords:[('
between "$(value "$job" A running_v)" 116 118 "volts running, plugged straight in"
between "$(value "$job" A starting_v)" 107 111 "volts starting, plugged straight in"
far=$(value "$job" A rate_kg_s)
awk -v n="$near" -v f="$far" 'BEGIN { exit !(f < n) }' || fail "rate $far kg/s on 105 ft of hose; expected less than $near"
volts="$(value "$job" A running_v) V running, $(value "$job" A starting_v) V starting"
shot 4-put-there
keys ctrl+z
save "$job"
holds "$job" 'length:"100ft"'
lacks "$job" 'length:"105ft"'
same "$(value "$job" A rate_kg_s)" "$near" "rate after one undo"
echo "p1: $near kg/s at 5 ft; at 105 ft $far kg/s, $volts"
