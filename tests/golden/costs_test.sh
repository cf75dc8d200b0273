#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Costs stay level whatever a book holds much of, a million faults bury nobody's terminal, and who runs out of memory is
# told so in one line, in whichever thread it happens.
set -euo pipefail
# The build under sanitizers is neither as fast nor as small; the release program is the same source.
program=${DRIFTWARDEN_OTHER_BUILD:-$1}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
fail() {
  printf 'failed: %s\n' "$*" >&2
  exit 1
}
/usr/bin/python3 tests/golden/costs.py "$program"

# A book that needs some hundred megabytes, under one limit after another.
/usr/bin/python3 tests/golden/costs.py "$program" --write faulty-rows 400000 "$scratch"
died=0
for megabytes in 40 80 120 160 240 320; do
  for threads in 1 4; do
    status=0
    (ulimit -v $((megabytes * 1024)) && exec "$program" check "$scratch" --threads $threads) \
      >"$scratch/out" 2>"$scratch/err" || status=$?
    [ "$status" = 2 ] || fail "with $megabytes MB and $threads threads the status is $status: $(tail -1 "$scratch/err")"
    grep -q 'not enough memory\|Cannot allocate\|Resource temporarily' "$scratch/err" || continue
    died=$((died + 1))
    [ "$(wc -l <"$scratch/err")" = 1 ] || fail "with $megabytes MB and $threads threads out of memory takes $(wc -l <"$scratch/err") lines to say: $(cat "$scratch/err")"
  done
done
[ "$died" -gt 0 ] || fail 'no limit was low enough to run out of memory'
echo "Out of memory was met $died times, and told in one line with status 2 each time."
