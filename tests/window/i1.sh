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
# differs PICTURE WHAT: the screen shows another picture before long, or this went wrong.
differs() { until_so is_not "$1" || fail "$2"; settle; }
is_not() { [ "$(whole)" != "$1" ]; }
is_dark() { [ "$(import -window root -resize 1x1 -format '%[fx:int(255*mean)]' info:)" -le 2 ]; }

command_by_search "lesson which part"
keys 2 2 2 1 5
shot 1-ask
ask=$(whole)
keys space
differs "$ask" "Space showed nothing"
one=$(whole)
keys b
until_so is_dark || fail "B did not blank the screen"
keys b space
shot 2-show
differs "$one" "the second piece did not show"
# Four steps of why; the last one stretches the hose before the class's eyes.
keys space space space space
shot 3-why
why=$(whole)
keys r
differs "$why" "R did not start the lesson again"
[ "$(cksum <"$job")" = "$original" ] || fail "the lesson changed the file"

kill "$pid"
wait "$pid" 2>/dev/null || true
open_window "$job"

# One's own kit in a window for the class, edited in the ordinary one.
command_by_search "projector second window"
class=$(seen --name "for the class") || fail "there is no second window"
to_front "$class"
keys 1 1 2 space space space space space space space
[ -z "${SHOTS:-}" ] || import -window "$class" "$SHOTS/i1-4-class-window.png"
to_front "$window"
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
to_front "$class"
keys Escape
is_gone() { ! xdotool search --onlyvisible --name "for the class"; }
until_so is_gone || fail "the class's window stays"
echo "i1: $before kg/s, core out $out, hose 25 ft $long"
