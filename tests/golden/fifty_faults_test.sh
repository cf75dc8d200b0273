#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# fifty_faults_test.sh PROGRAM: a book with a fault of nearly every kind is read to its end. Every fault is told once, at
# its file, line and column, word for word as in expected.txt; the exit status is 2; each sample that a fault touches is
# undecided and names the fault, and each that none touches is judged, with its figures.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
book=tests/golden/fifty-faults
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0

fail() {
  printf 'FAILED: %s\n' "$*"
  failures=$((failures + 1))
}

# expect_faults NAME COMMAND...: what is told on standard error, and the status.
expect_faults() {
  local name=$1 status=0
  shift
  "$program" "$@" >"$scratch/$name" 2>"$scratch/$name.told" </dev/null || status=$?
  [ "$status" -eq 2 ] || fail "$* ended with status $status, not 2"
  diff "$book/expected.txt" "$scratch/$name.told" >"$scratch/diff" && return
  fail "$* tells otherwise:"
  head -n 20 "$scratch/diff"
}

expect_faults check check "$book"
expect_faults alone screen "$book" --as-of 2026-06-01 --format json --threads 1
expect_faults together screen "$book" --as-of 2026-06-01 --format json --threads 3
cmp -s "$scratch/alone" "$scratch/together" || fail 'one thread and three judge otherwise'

faults=$(grep -cE '^[^:]+(:[0-9]+){0,2}: error: ' "$book/expected.txt")
[ "$faults" -ge 50 ] || fail "only $faults faults"
twice=$(sort "$book/expected.txt" | uniq -d)
[ -z "$twice" ] || fail "told twice: $twice"
grep -q "; $faults faults," "$scratch/check" || fail "check counts otherwise: $(cat "$scratch/check")"

/usr/bin/python3 tests/golden/fifty_faults.py "$book/verdicts.csv" "$scratch/alone" || failures=$((failures + 1))
printf '%d faults told, %d failures\n' "$faults" "$failures"
exit $((failures > 0))
