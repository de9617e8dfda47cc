# Shared by the scripts beside it, which drive the real window on a display of their own.
#
# A script sources this file, calls `begin NAME [PROGRAM]`, then `open_window FILE`, then does with
# mouse and keys what a person would do, saves, and asks the terminal what the saved file says.
# Nothing is done for a time: after each key and click the script waits until the program has done what
# it was told (`settle`), and what it looks for it waits for (`until_so`), however busy the machine is.
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
    server=$!
    started+=("$server")
    # The number is whole once its line is.
    local number=
    has_number() { read -r number <"$work/display"; }
    until_so has_number || fail "Xvfb did not start"
    DISPLAY=":$number"
    export DISPLAY
    # No frames: the window has the whole screen, as it asks for.
    echo '<openbox_config><applications><application name="*"><decor>no</decor></application></applications>
        </openbox_config>' >"$work/frames.xml"
    openbox --config-file "$work/frames.xml" 2>/dev/null &
    started+=($!)
    until_so xdotool get_num_desktops || fail "openbox did not start"
    # What the window keeps goes here, not into the person's own folder.
    export XDG_DATA_HOME="$work/data" LIBGL_ALWAYS_SOFTWARE=1
}

# The display goes last, and only when all are gone may another script take its number.
finish() {
    local at
    for ((at = ${#started[@]} - 1; at >= 0; at--)); do
        kill "${started[at]}" 2>/dev/null || true
        wait "${started[at]}" 2>/dev/null || true
    done
    rm -rf "$work"
}

# until_so COMMAND...: tries it again until it succeeds, for 60 s.
until_so() {
    local end=$((SECONDS + 60))
    until "$@" >/dev/null 2>&1; do
        [ "$SECONDS" -lt "$end" ] || return 1
        sleep 0.1
    done
}

fail() {
    echo "$name: $1" >&2
    import -window root "${TMPDIR:-/tmp}/narrows-$name-failed.png" 2>/dev/null || true
    exit 1
}

# seen SEARCH...: the window that xdotool finds by these words, waited for.
seen() {
    until_so xdotool search --onlyvisible "$@" || return 1
    xdotool search --onlyvisible "$@" 2>/dev/null | tail -1
}

# open_window FILE: starts the program and waits until its window fills the screen and has the keys.
open_window() {
    "$program" "$1" &
    pid=$!
    started+=("$pid")
    window=$(seen --pid "$pid") || fail "the window did not open"
    to_front "$window"
    until_so fills_the_screen || fail "the window is $(shape); expected the whole screen, $size"
    settle
}
shape() { xdotool getwindowgeometry "$window" | sed -n 's/.*Geometry: //p'; }
fills_the_screen() { [ "$(shape)" = "$size" ]; }

# to_front WINDOW: until the keys go there.
to_front() {
    xdotool windowactivate "$1" 2>/dev/null || true
    until_so has_keys "$1" || fail "window $1 does not get the keys"
    settle
}
has_keys() { [ "$(xdotool getactivewindow)" = "$1" ] || { xdotool windowactivate "$1"; false; }; }

# settle: waits until the program has done all it was told, at most 60 s. It has when it, its display and
# its solver have slept through three looks in a row: whoever is told something wakes at once. The thread
# that draws ranges may go on.
settle() {
    local still=0 end=$((SECONDS + 60))
    while [ "$still" -lt 3 ] && [ "$SECONDS" -lt "$end" ]; do
        sleep 0.02
        if busy "$pid" || busy "$server"; then still=0; else still=$((still + 1)); fi
    done
}
# busy PROCESS: a thread of it runs, or waits for a processor or the disk.
busy() {
    local line
    for task in "/proc/$1/task/"*/stat; do
        read -r line <"$task" || continue
        [[ $line == *"(studies)"* ]] && continue
        [[ ${line##*) } == [RD]* ]] && return 0
    done 2>/dev/null
    return 1
}

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

# keys KEY...: one after another, as xdotool names them; each is done before the next one comes.
keys() {
    for key in "$@"; do xdotool key "$key"; settle; done
}

# words TEXT: typed letter by letter.
words() { xdotool type --delay 30 "$1"; settle; }

# point X Y: the pointer goes there; click X Y: and its left button is pressed.
point() { xdotool mousemove "$1" "$2"; settle; }
click() { point "$1" "$2"; xdotool click 1; settle; }

# command_by_search WORDS: finds a command by words and does it; the row that says it must be the first one.
command_by_search() {
    keys ctrl+k
    words "$1"
    keys Return
}

# type_over TEXT: what the field with the focus holds gives way to this.
type_over() {
    keys ctrl+a
    words "$1"
    keys Return
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

# row_left TOP: where the box of words begins whose upper edge is drawn at this height; waited for.
row_left() {
    until_so edge "$1" || fail "no row of words at height $1"
    edge "$1"
}
# The first run of 60 pixels as dark as ink.
edge() {
    import -window root -crop "$((${size%x*} - strip))x1+0+$1" +repage -depth 8 gray:- | od -An -v -tu1 -w1 |
        awk '$1 < 60 { if (++run == 60 && !found) { print NR - 60; found = 1 } next } { run = 0 }
            END { exit !found }'
}

# The row under a part in hand.
row_top=$((header + views + chain)) row=$((header + views + chain + target / 2))

# in_hand COLUMN COUNT: clicks a part of the chain.
in_hand() { click "$(column "$1" "$2")" $((header + views + chain / 2)); }

# save FILE: by key; waits until the file on the disk is another one.
save() {
    local before
    before=$(cksum <"$1")
    keys ctrl+s
    until_so is_another "$1" "$before" || fail "the file did not change on saving"
}
is_another() { [ "$(cksum <"$1")" != "$2" ]; }

# value FILE KIT NAME: the first number of this name in what the terminal says of this kit. All of it is
# read: a program whose reader has gone fails, now and then.
value() {
    "$program" solve "$1" --json | awk -v kit="$2" -v name="$3" '
        $0 ~ "^      \"name\": \"" kit "\"" { here = 1 }
        here && !found && $1 == "\"" name "\":" { sub(",", "", $2); print $2; found = 1 }'
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
