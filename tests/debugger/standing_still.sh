#!/usr/bin/env bash
# A start that is stopped, looked into and stepped through in a debugger ends byte for byte as one
# that nobody disturbed. What is looked at is what the trace says of that tick.
#
# usage: standing_still.sh PROGRAM SCENARIO
set -euo pipefail
program=$1
scenario=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

fail() {
    echo "$1" >&2
    [ -f "$folder/gdb.log" ] && cat "$folder/gdb.log" >&2
    exit 1
}

"$program" start "$scenario" --quiet --json "$folder/alone.json" --trace "$folder/alone.csv" \
    --watch sequence.state,line.phase >/dev/null

# Field $1 of the trace's row of tick $2, as a whole number.
traced() {
    awk -F, -v name="$1" -v row="$(($2 + 2))" '
        NR == 1 { for (k = 1; k <= NF; ++k) { if ($k == name) { column = k } } }
        NR == row { print $column; exit }' "$folder/alone.csv"
}

# A leak sanitizer cannot work beside a debugger.
# debug TICK GDB-OPTION...: pauses at the tick, and compares all that the start has written.
debug() {
    local pause=$1
    shift
    rm -f "$folder"/debugged.*
    gdb -nx -batch -ex 'set debuginfod enabled off' -ex 'set pagination off' \
        -ex 'set environment ASAN_OPTIONS detect_leaks=0' "$@" \
        --args "$program" start "$scenario" --quiet --json "$folder/debugged.json" \
        --trace "$folder/debugged.csv" --watch sequence.state,line.phase --pause-at-tick "$pause" \
        >"$folder/gdb.log" 2>&1 || fail "the debugger failed"
    grep -q 'exited normally' "$folder/gdb.log" || fail "the debugged start did not end well"
    cmp "$folder/alone.json" "$folder/debugged.json" || fail "another result under the debugger"
    cmp "$folder/alone.csv" "$folder/debugged.csv" || fail "another trace under the debugger"
}

# The pause, then the controller's step of that very tick, a few lines of it, and on.
debug 3000 -ex run -ex 'break firmware::Controller::step' -ex continue \
    -ex 'printf "state %d phase %lu\n", (int)this->sequence_.state_, (unsigned long)this->line_tracker_.phase_.count_' \
    -ex next -ex next -ex next -ex delete -ex continue
grep -q 'SIGTRAP' "$folder/gdb.log" || fail "no pause at the tick"
expected="state $(traced sequence.state 3000) phase $(traced line.phase 3000)"
grep -q "^$expected\$" "$folder/gdb.log" || fail "the debugger shows something else than $expected"
case "$expected" in "state 3 phase "[1-9]*) ;; *) fail "the trace itself says $expected" ;; esac

# A condition on the controller's own variables finds a tick by itself.
debug 0 -ex run \
    -ex 'break firmware::Controller::step if sequence_.state_ == firmware::State::handing_over' \
    -ex continue -ex 'printf "phase %lu\n", (unsigned long)this->line_tracker_.phase_.count_' \
    -ex delete -ex continue
first=$(awk -F, 'NR == 1 { for (k = 1; k <= NF; ++k) { if ($k == "sequence.state") { s = k } } }
                 NR > 1 && $s == 4 { print NR - 2; exit }' "$folder/alone.csv")
grep -q "^phase $(traced line.phase "$first")\$" "$folder/gdb.log" || fail "stopped at another tick"
