#!/usr/bin/env bash
# Every query of sim/regression/RESULTS.md, put to a file of results with SQLite's own command line
# (Debian package sqlite3): each must run, and tell something.
#
#   results_queries.sh PROGRAM SOURCE_FOLDER
set -euo pipefail
program=$1
page=$2/sim/regression/RESULTS.md

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
"$program" regress "$2/tests/suites/few.toml" --quiet --results new.results || [ $? -eq 1 ]
cp new.results old.results
# So that the two differ.
sqlite3 old.results 'UPDATE starts SET passed = 1, outcome = "running"'

awk '/^```sql/ { query++; inside = 1; next } /^```/ { inside = 0 }
     inside { print > ("query" query ".sql") }' "$page"
queries=0
for query in query*.sql; do
    queries=$((queries + 1))
    rows=$(sqlite3 -bail new.results <"$query")
    echo "$rows" | head -n 3
    if [ -z "$rows" ]; then
        echo "this query tells nothing:" >&2
        cat "$query" >&2
        exit 1
    fi
done
test "$queries" -ge 5
test "$(sqlite3 new.results 'PRAGMA integrity_check')" = ok
