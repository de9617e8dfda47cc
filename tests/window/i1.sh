#!/usr/bin/env bash
# A class is asked which part costs the most: it votes, sees the answer piece by piece, then why;
# first in the window itself with the built-in lesson, then with a kit of one's own in a second
# window, beside which the core is taken out and put back and the hose stretched. The terminal
# solves the saved file: the small hole costs more than 20 ft of hose.
#
#   tests/window/i1.sh [PROGRAM]
source "$(dirname "$0")/lib.sh"
begin i1 "${1:-}"

job=$work/job.ron
cp presets/scenarios/reference-kits.ron "$job"
before=$(value "$job" A rate_kg_s)
original=$(cksum <"$job")
open_window "$job"

whole() { import -window root rgb:- | cksum; }
differs() { [ "$1" != "$2" ] || fail "$3"; }

command_by_search "lesson which part"
keys 2 2 2 1 5
settle
shot 1-ask
ask=$(whole)
keys space
sleep 2
one=$(whole)
differs "$ask" "$one" "Space showed nothing"
keys b
sleep 1
dark=$(import -window root -resize 1x1 -format '%[fx:int(255*mean)]' info:)
between "$dark" 0 2 "how bright a blank screen is, of 255,"
keys b
keys space
sleep 2
shot 2-show
differs "$one" "$(whole)" "the second piece did not show"
# Four steps of why; the last one stretches the hose before the class's eyes.
for _ in 1 2 3 4; do keys space; sleep 1.5; done
shot 3-why
keys r
settle
[ "$(whole)" != "$one" ] || fail "R did not start the lesson again"
[ "$(cksum <"$job")" = "$original" ] || fail "the lesson changed the file"

kill "$pid"
wait "$pid" 2>/dev/null || true
open_window "$job"

# One's own kit in a window for the class, edited in the ordinary one.
command_by_search "projector second window"
class=$(seen --name "for the class") || fail "there is no second window"
xdotool windowactivate --sync "$class"
keys 1 1 2
for _ in $(seq 7); do keys space; sleep 0.6; done
[ -z "${SHOTS:-}" ] || import -window "$class" "$SHOTS/i1-4-class-window.png"
xdotool windowactivate --sync "$window"
settle
shot 5-beside-it
command_by_search "take part out core"
save "$job"
same "$(parts "$job" A)" "Hose GaugeSet Hose SelfSealingEnd" "kit A"
out=$(value "$job" A rate_kg_s)
[ -z "${SHOTS:-}" ] || import -window "$class" "$SHOTS/i1-6-class-core-out.png"
keys ctrl+z
command_by_search "length part hose 2"
type_over "25 ft"
save "$job"
holds "$job" 'length:"25ft"'
same "$(parts "$job" A)" "ValveCore Hose GaugeSet Hose SelfSealingEnd" "kit A"
long=$(value "$job" A rate_kg_s)
awk -v b="$before" -v o="$out" -v l="$long" 'BEGIN { exit !(o > b && l < b && o - b > b - l) }' ||
    fail "rates $before, core out $out, long hose $long kg/s; expected the core to count for more"
xdotool windowactivate --sync "$class"
keys Escape
sleep 1
! xdotool search --onlyvisible --name "for the class" >/dev/null 2>&1 || fail "the class's window stays"
echo "i1: $before kg/s, core out $out, hose 25 ft $long"
