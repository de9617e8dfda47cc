#!/usr/bin/env bash
# Drives the real window on a display of its own: opens a walk-in freezer, takes kit A's valve
# core, widens its hole to 4.2 mm with mouse and keys, saves, and lets the terminal solve the
# file: the rate must have risen. Then a change that is not saved must survive a kill.
#
#   tests/window/t1.sh [PROGRAM] [SCREENSHOT.png]
#
# Needs Xvfb and xdotool; imagemagick for the screenshot.
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${1:-target/debug/narrows}
shot=${2:-}
work=$(mktemp -d)
started=()
finish() {
    for pid in "${started[@]}"; do kill "$pid" 2>/dev/null || true; done
    rm -rf "$work"
}
trap finish EXIT
fail() {
    echo "t1: $1" >&2
    if command -v import >/dev/null; then import -window root "${TMPDIR:-/tmp}/narrows-t1-failed.png" || true; fi
    exit 1
}

Xvfb -displayfd 3 -screen 0 1366x768x24 3>"$work/display" 2>/dev/null &
started+=($!)
for _ in $(seq 100); do [ -s "$work/display" ] && break; sleep 0.1; done
[ -s "$work/display" ] || fail "Xvfb did not start"
export DISPLAY=":$(cat "$work/display")"
# What the window keeps goes here, not into the person's own folder.
export XDG_DATA_HOME="$work/data"

rate() {
    "$program" solve "$1" --json | tr ',{' '\n\n' | sed -n 's/^ *"rate_kg_s": *//p' | head -1
}

open_window() {
    "$program" "$1" &
    pid=$!
    started+=("$pid")
    for _ in $(seq 150); do
        window=$(xdotool search --onlyvisible --pid "$pid" 2>/dev/null | tail -1) && [ -n "$window" ] && break
        sleep 0.1
    done
    [ -n "${window:-}" ] || fail "the window did not open"
    xdotool windowmove "$window" 0 0 windowsize "$window" 1366 768 windowfocus "$window"
    sleep 2
}

# Takes the valve core in hand and types over its bore; the column stands where the look puts it.
type_bore() {
    xdotool mousemove 240 110 click 1
    sleep 0.7
    xdotool mousemove 262 212 click 1
    sleep 0.5
    xdotool key ctrl+a
    xdotool type --delay 40 "$1"
    sleep 0.3
    xdotool key Return
    sleep 1
}

cp presets/scenarios/bakery-freezer.ron "$work/job.ron"
before=$(rate "$work/job.ron")
open_window "$work/job.ron"
type_bore "4.2 mm"
[ -n "$shot" ] && import -window root "$shot"
xdotool key ctrl+s
sleep 1
after=$(rate "$work/job.ron")
awk -v a="$before" -v b="$after" 'BEGIN { exit !(b > 1.05 * a) }' ||
    fail "the rate went from $before to $after kg/s; expected at least 5 % more"
echo "T1: $before to $after kg/s with the core's hole widened to 4.2 mm"

ticks() { awk '{ print $14 + $15 }' "/proc/$pid/stat"; }
idle=$(ticks)
sleep 3
echo "idle: $(($(ticks) - idle)) clock ticks of work in 3 s"

type_bore "3.3 mm"
sleep 6
kill -9 "$pid"
wait "$pid" 2>/dev/null || true
copy=$(ls "$XDG_DATA_HOME"/narrows/recovery-*.ron 2>/dev/null || true)
[ -n "$copy" ] || fail "no recovery copy after a kill"
grep -q '"3.3 mm"' "$copy" || fail "the recovery copy lacks the last change"
grep -q '"3.3 mm"' "$work/job.ron" && fail "the file was changed without being saved"
echo "kill: the last change is in the recovery copy, the file is as saved"
