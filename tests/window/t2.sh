#!/usr/bin/env bash
# The long cord to the roof by mouse: 16 AWG, 100 ft becomes 12 AWG, 50 ft. The volts at the motor
# are read from the saved file by the terminal. The ranges come from circuit arithmetic for this
# case: 120 V panel, 50 ft of 14 AWG, a 12 A motor that starts on 60 A.
#
#   tests/window/t2.sh [PROGRAM]
source "$(dirname "$0")/lib.sh"
begin t2 "${1:-}"

job=$work/job.ron
cp presets/scenarios/long-cord.ron "$job"
between "$(value "$job" A running_v)" 105 108 "volts running on 100 ft of 16 AWG"
between "$(value "$job" A starting_v)" 78 90 "volts starting on 100 ft of 16 AWG"
before="$(value "$job" A running_v) V running, $(value "$job" A starting_v) V starting"
open_window "$job"
shot 1-as-opened

# Panel, circuit, receptacle and cord share what lies left of the machine, column 6 of 8; the wire's
# symbol stands at the foot of the picture, with the row for the wire in hand under it.
foot=$((${size#*x} - clock))
machine=$((left + (${size%x*} - strip - left - right) / 8 * 6))
cord=$((left + (machine - left) * 3 / 4))
click $((cord + 40)) $((foot - 30))
row=$((foot - target / 2))
start=$(row_left $((foot - target)))
click $((start + 80)) "$row"
type_over "12 AWG"
shot 2-thicker
save "$job"
holds "$job" 'gauge:"12AWG"'
click $((start + 80 + 142)) "$row"
type_over "50 ft"
shot 3-thicker-and-shorter
save "$job"
holds "$job" 'gauge:"12AWG",length:"50ft"'
between "$(value "$job" A running_v)" 114 116 "volts running on 50 ft of 12 AWG"
between "$(value "$job" A starting_v)" 101 106 "volts starting on 50 ft of 12 AWG"
echo "t2: $before; then $(value "$job" A running_v) V running, $(value "$job" A starting_v) V starting"
