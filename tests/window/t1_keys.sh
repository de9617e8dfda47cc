#!/usr/bin/env bash
# The walk-in freezer without a mouse: another refrigerant and back, kit A copied, core and gauge
# set out, a ball valve for the end, a size typed by way of Tab, method liquid then vapour; the
# terminal solves the saved file.
#
#   tests/window/t1_keys.sh [PROGRAM]
source "$(dirname "$0")/lib.sh"
begin t1_keys "${1:-}"

job=$work/job.ron
cp presets/scenarios/bakery-freezer.ron "$job"
before=$(value "$job" A rate_kg_s)
# A pointer that stands on nothing cannot help.
xdotool mousemove 1365 400
open_window "$job"

command_by_search "refrigerant R-407C"
save "$job"
holds "$job" 'refrigerant:"R-407C"'
command_by_search "refrigerant R-404A"
command_by_search "copy kit"
command_by_search "take part out core"
command_by_search "take part out gauge"
command_by_search "take part out end"
command_by_search "add ball valve quarter"
shot 1-kit-copied-and-opened
save "$job"
same "$(parts "$job" D)" "Hose Hose BallValve" "the copied kit"
same "$(parts "$job" A)" "ValveCore Hose GaugeSet Hose SelfSealingEnd" "kit A"
opened=$(value "$job" D rate_kg_s)
between "$opened" 0.00983 0.01210 "the rate of the opened kit in kg/s, 1.3 to 1.6 lb/min"
echo "t1_keys: kit A $before kg/s, opened $opened kg/s"

# From the first size of a part to the next one by Tab, an arrow for a step.
command_by_search "bore part 1 hose"
keys Tab
type_over "10 ft"
save "$job"
holds "$job" 'length:"10ft"'
shot 2-a-longer-hose

# Which whole job takes how long, as the terminal follows it.
seconds() {
    "$program" job "$1" --json | awk -v kit="$2" '
        $0 ~ "^      \"total_s\":" { sub(",", "", $2); total = $2 }
        $0 ~ "^      \"name\": \"" kit "\"" { print total }'
}
vapour=$(seconds "$job" D)
command_by_search "method liquid then"
save "$job"
holds "$job" 'method:liquid_then_vapour'
both=$(seconds "$job" D)
between "$both" 60 "$vapour" "the time of the job in s, liquid first"
command_by_search "job clock"
shot 3-liquid-then-vapour
echo "t1_keys: the job takes $vapour s by vapour, $both s by liquid, then vapour"
