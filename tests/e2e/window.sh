# Sourced by the tests in the real window: the program on a display of its own (Xvfb, no window
# manager), xdotool as scanner, keyboard and button, its trace to wait for, its log to ask.
# Needs: program (path), work (folder), here (this folder).

display=
bench=
trace=$work/trace
# What the D-Bus library keeps for SDL is not ours to free.
export LSAN_OPTIONS=print_suppressions=0:suppressions=$here/lsan.supp
seen=0 # lines of the trace already waited for

die() {
    echo "${BASH_SOURCE[1]##*/}:${BASH_LINENO[0]}: $*" >&2
    tail -n 5 "$trace" >&2 || true
    sql "SELECT note FROM log ORDER BY seq DESC LIMIT 1" >&2 || true
    [ -z "$bench" ] || import -window root "$work/failed.png" 2>/dev/null || true
    [ ! -e "$work/failed.png" ] || cp "$work/failed.png" "${TMPDIR:-/tmp}/kerfside-e2e-failed.png"
    exit 1
}

open_display() { # open_display WIDTHxHEIGHT
    Xvfb -displayfd 3 -screen 0 "$1x24" -nolisten tcp 3>"$work/display" 2>/dev/null &
    display=$!
    for _ in $(seq 100); do
        [ ! -s "$work/display" ] || break
        sleep 0.05
    done
    DISPLAY=:$(cat "$work/display")
    export DISPLAY
}

close_all() {
    [ -z "$bench" ] || kill -9 "$bench" 2>/dev/null || true
    [ -z "$display" ] || kill "$display" 2>/dev/null || true
    wait 2>/dev/null || true
}

start_bench() { # start_bench [options]
    : >"$trace"
    seen=0
    "$program" bench --db "$work/kerfside.db" --trace "$@" >"$trace" 2>"$work/complaints" &
    bench=$!
    wait_line ready
}

kill_bench() {
    kill -9 "$bench"
    wait "$bench" 2>/dev/null || true
    bench=
}

stop_bench() {
    kill -TERM "$bench"
    wait "$bench" || die "SIGTERM: status $?: $(cat "$work/complaints")"
    bench=
}

# Waits for a line that has not been waited for yet.
wait_line() {
    local i line
    for i in $(seq 200); do
        line=$(tail -n +$((seen + 1)) "$trace" | grep -n -m 1 -x -- "$1" | cut -d: -f1 || true)
        if [ -n "$line" ]; then
            seen=$((seen + line))
            return
        fi
        kill -0 "$bench" 2>/dev/null || die "the bench has ended: $(cat "$work/complaints")"
        sleep 0.025
    done
    die "waited for \"$1\""
}

expect() {
    wait_line "state $1"
}

# Waits until nothing has been drawn for a moment, and passes over what was.
settle() {
    local before
    for _ in $(seq 20); do
        before=$(wc -l <"$trace")
        sleep 0.25
        seen=$(wc -l <"$trace")
        [ "$before" -ne "$seen" ] || return 0
    done
    die "never quiet"
}

# Nothing is drawn for a moment.
quiet() {
    local before=$seen
    sleep 0.4
    seen=$(wc -l <"$trace")
    same "lines drawn while all is quiet" "$seen" "$before"
}

scan() {
    xdotool type --delay 2 --args 1 "$1" key --delay 2 Return
}

typed() { # a person: 90 ms a key
    xdotool type --delay 90 -- "$1"
    settle
}

# The button: the key code of F13, since plain X keymaps have no such symbol. It has a dead time.
press() {
    sleep 0.45
    xdotool key --delay 60 191
}

hold() {
    sleep 0.45
    xdotool keydown 191
    sleep 2.2
    xdotool keyup 191
}

touch_at() { # touch_at X Y
    sleep 0.45
    xdotool mousemove "$1" "$2" mousedown 1
    sleep 0.1
    xdotool mouseup 1
}

# The scanner's own device is a FIFO of struct input_event (linux/input.h).
plug_in() {
    mkfifo "$work/scanner"
    exec 9>"$work/scanner" # waits until it is read
}

plug_out() {
    rm "$work/scanner"
    exec 9>&-
}

device_scan() {
    python3 - "$1" >&9 <<'END'
import struct, sys
rows = {16: "qwertyuiop", 30: "asdfghjkl", 44: "zxcvbnm", 2: "1234567890-"}
keys = {c: first + i for first, row in rows.items() for i, c in enumerate(row)}
for code in [keys[c] for c in sys.argv[1].lower()] + [28]:
    for value in (1, 0):
        sys.stdout.buffer.write(struct.pack("qqHHi", 0, 0, 1, code, value))
        sys.stdout.buffer.write(struct.pack("qqHHi", 0, 0, 0, 0, 0))
END
}

key() { # key NAME [key NAME]...
    xdotool key --delay 20 "$@"
}

sql() {
    sqlite3 -readonly "$work/kerfside.db" "$1"
}

same() { # same WHAT FOUND EXPECTED
    [ "$2" == "$3" ] || die "$1: found $2, expected $3"
}

log_of() { # the kinds of a club's entries, in order: log_of 2041 1
    sql "SELECT group_concat(kind, ' ') FROM (SELECT kind FROM log WHERE build = '$1' AND club = '$2' ORDER BY seq)"
}

shot() {
    import -window root "$work/$1.png"
}
