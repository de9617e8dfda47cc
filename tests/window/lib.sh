# Shared by the scripts beside it, which drive the real window on a display of their own.
#
# A script sources this file, calls `begin NAME [PROGRAM]`, then `open_window FILE`, then does with
# mouse and keys what a person would do, saves, and asks the terminal what the saved file says.
# With SHOTS=FOLDER in the environment the pictures taken on the way are kept there.
#
# Needs Xvfb, xdotool, openbox and imagemagick.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
started=()

# begin NAME [PROGRAM [SIZE]]: a display of this size with a window manager, a folder for this run.
begin() {
    name=$1
    program=${2:-target/debug/narrows}
    size=${3:-1366x768}
    [ -x "$program" ] || { echo "$name: no program at $program; expected one built by cargo build" >&2; exit 1; }
    work=$(mktemp -d)
    trap finish EXIT
    Xvfb -displayfd 3 -screen 0 "${size}x24" 3>"$work/display" 2>/dev/null &
    started+=($!)
    # The number is whole once its line is.
    local number=
    for _ in $(seq 100); do read -r number <"$work/display" && break; sleep 0.1; done
    [ -n "$number" ] || fail "Xvfb did not start"
    DISPLAY=":$number"
    export DISPLAY
    # No frames: the window has the whole screen, as it asks for.
    echo '<openbox_config><applications><application name="*"><decor>no</decor></application></applications>
        </openbox_config>' >"$work/frames.xml"
    # A display that another one just left refuses its first caller now and then.
    for _ in $(seq 5); do
        openbox --config-file "$work/frames.xml" 2>/dev/null &
        started+=($!)
        for _ in $(seq 30); do xdotool get_num_desktops >/dev/null 2>&1 && break 2; sleep 0.1; done
    done
    xdotool get_num_desktops >/dev/null 2>&1 || fail "openbox did not start"
    # What the window keeps goes here, not into the person's own folder.
    export XDG_DATA_HOME="$work/data" LIBGL_ALWAYS_SOFTWARE=1
}

finish() {
    for pid in "${started[@]}"; do kill "$pid" 2>/dev/null || true; done
    rm -rf "$work"
}

fail() {
    echo "$name: $1" >&2
    import -window root "${TMPDIR:-/tmp}/narrows-$name-failed.png" 2>/dev/null || true
    exit 1
}

# seen SEARCH...: the window that xdotool finds by these words, waited for up to 20 s.
seen() {
    local found
    for _ in $(seq 200); do
        found=$(xdotool search --onlyvisible "$@" 2>/dev/null | tail -1) && [ -n "$found" ] && { echo "$found"; return 0; }
        sleep 0.1
    done
    return 1
}

# open_window FILE: starts the program and waits until its window fills the screen and stands still.
open_window() {
    "$program" "$1" &
    pid=$!
    started+=("$pid")
    window=$(seen --pid "$pid") || fail "the window did not open"
    xdotool windowactivate --sync "$window"
    sleep 1
    settle
    local shape
    shape=$(xdotool getwindowgeometry "$window" | sed -n 's/.*Geometry: //p')
    [ "$shape" = "$size" ] || fail "the window is $shape; expected the whole screen, $size"
}

# settle: waits until two pictures half a second apart are the same, at most 20 s.
settle() {
    local before now
    before=$(picture)
    for _ in $(seq 40); do
        sleep 0.5
        now=$(picture)
        [ "$now" = "$before" ] && return
        before=$now
    done
}
# The chain of the parts and the stairs under it; the strip beside them counts its draws.
picture() { import -window root -crop "$((${size%x*} - 260))x$((${size#*x} - 330))+0+80" rgb:- | cksum; }

# quiet: waits until the program has worked less than a tenth of the time for a second, at most 60 s.
quiet() {
    local before
    for _ in $(seq 60); do
        before=$(ticks)
        sleep 1
        [ $(($(ticks) - before)) -lt 10 ] && return
    done
}
ticks() { awk '{ print $14 + $15 }' "/proc/$pid/stat"; }

# keys KEY...: one after another, as xdotool names them.
keys() {
    for key in "$@"; do xdotool key "$key"; sleep 0.15; done
}

# words TEXT: typed letter by letter.
words() { xdotool type --delay 30 "$1"; sleep 0.3; }

# click X Y: with the left button.
click() { xdotool mousemove "$1" "$2"; sleep 0.15; xdotool click 1; sleep 0.4; }

# command_by_search WORDS: finds a command by words and does it; the row that says it must be the first one.
command_by_search() {
    keys ctrl+k
    sleep 0.3
    words "$1"
    keys Return
    settle
}

# type_over TEXT: what the field with the focus holds gives way to this.
type_over() {
    keys ctrl+a
    words "$1"
    keys Return
    settle
}

# Places on the Bench at 1366 × 768, from the measures of src/ui/style/measures.rs: header 40,
# row of views 34, chain 124, strip 252 at the right, margins 50 and 52, a target of 28.
header=40 views=34 chain=124 strip=252 left=50 right=52 target=28 power=190 clock=104

# column I COUNT: the middle of a column, as src/ui/diagram/columns.rs shares the width.
column() {
    local width=$(((${size%x*} - strip - left - right) / $2))
    [ "$width" -gt 160 ] && width=160
    echo $((left + width * $1 + width / 2))
}

# The row under a part in hand: sizes of 134 each, then words for 400, then 56 for each word to hold.
row=$((header + views + chain + target / 2))

# row_start COLUMN COUNT SIZES HOLDS: it begins with its part, or further left if it would not fit.
row_start() {
    local width=$(((${size%x*} - strip - left - right) / $2)) long=$((480 + 134 * $3 + 56 * $4))
    local at=$((left + width * $1)) last=$((left + width * $2 - long))
    echo $((at < last ? at : last))
}

# in_hand COLUMN COUNT: clicks a part of the chain.
in_hand() { click "$(column "$1" "$2")" $((header + views + chain / 2)); }

# save FILE: by key; waits until the file on the disk is another one.
save() {
    local before
    before=$(cksum <"$1")
    keys ctrl+s
    for _ in $(seq 50); do
        [ "$(cksum <"$1")" != "$before" ] && return
        sleep 0.1
    done
    fail "the file did not change on saving"
}

# value FILE KIT NAME: the first number of this name in what the terminal says of this kit.
value() {
    "$program" solve "$1" --json | awk -v kit="$2" -v name="$3" '
        $0 ~ "^      \"name\": \"" kit "\"" { here = 1 }
        here && $1 == "\"" name "\":" { sub(",", "", $2); print $2; exit }'
}

# parts FILE KIT: the kinds of its parts in their order, as the terminal solves them.
parts() {
    "$program" solve "$1" --json | awk -v kit="$2" '
        $0 ~ "^      \"name\": \"" { here = $0 ~ "\"" kit "\"" }
        here && $1 == "\"kind\":" { gsub(/[",]/, "", $2); printf "%s%s", gap, $2; gap = " " }'
}

# same GOT EXPECTED WHAT
same() { [ "$1" = "$2" ] || fail "$3: $1; expected $2"; }

# between VALUE LOW HIGH WHAT
between() {
    awk -v v="$1" -v a="$2" -v b="$3" 'BEGIN { exit !(v >= a && v <= b) }' ||
        fail "$4 is $1; expected $2 to $3"
}

# holds FILE TEXT: the saved file has this text, whatever its blanks and lines.
holds() { has "$1" "$2" || fail "the saved file has no $2"; }
lacks() { ! has "$1" "$2" || fail "the saved file has $2"; }
has() { tr -d ' \n' <"$1" | grep -qF -- "$(tr -d ' ' <<<"$2")"; }

# shot NAME: a picture of the whole screen, if pictures are wished for.
shot() {
    [ -z "${SHOTS:-}" ] || { mkdir -p "$SHOTS"; import -window root "$SHOTS/$name-$1.png"; }
}
