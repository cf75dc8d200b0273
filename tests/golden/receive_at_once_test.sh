#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# receive_at_once_test.sh PROGRAM [RUNS]: many runs of receive on one book at once, and runs that are killed: every row is
# whole and there once, or not there at all. 200 takes minutes under sanitizers.
set -euo pipefail
program=$1
runs=${2:-60}
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
fail() { printf 'FAILED: %s\n' "$1"; failures=$((failures + 1)); }

mkdir "$scratch/book" "$scratch/came"
cd "$scratch/book"
printf 'title = "Quarry"\ntime_zone = "UTC"\n' >book.toml
printf 'instrument,kind,principle\nP1,pump,\nV1,calibrator,volumetric\n' >instruments.csv
printf 'certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC1,V1,2026-01-05,2,2,2\n' >certificates.csv
printf 'sample,pump,started,stopped\n' >samples.csv
printf 'taken,stage,sample,calibrator,reading [L/min]\n' >readings.csv
cd "$scratch/came"
# came NUMBER: a sample of its own, with two readings.
came() {
  printf 'sample,pump,started,stopped,form\nS%s,P1,2026-09-21T08:00,2026-09-21T16:00,F%s\n' "$1" "$1" >"s$1.csv"
  printf 'taken,stage,sample,calibrator,reading [L/min],form\n2026-09-21T07:30,pre,S%s,V1,2.000,F%s\n2026-09-21T16:10,post,S%s,V1,1.950,F%s\n' \
    "$1" "$1" "$1" "$1" >"r$1.csv"
}
for ((i = 0; i < runs; i++)); do came "$i"; done

# All at once, and the first twenty twice, so that one of two that bring the same has to pass it over.
for ((i = 0; i < runs; i++)); do
  for copy in $([ "$i" -lt 20 ] && echo 1 2 || echo 1); do
    "$program" receive "$scratch/book" "s$i.csv" "r$i.csv" --by "run $i" --threads 1 >"$scratch/said.$i.$copy" 2>&1 &
  done
done
wait
rows() { "$program" check "$scratch/book" 2>&1 | tail -1; }
[[ $(rows) == "Quarry: 2 instruments, 1 certificate, $((2 * runs)) receipts, $runs samples and blanks, $((2 * runs)) readings,"*"0 faults, 0 remarks" ]] || fail "after all runs: $(rows)"
[ "$(tail -n +2 "$scratch/book/received.csv" | wc -l)" -eq $((2 * runs)) ] || fail "receipts"
[ "$(tail -n +2 "$scratch/book/received.csv" | cut -d, -f5 | sort | uniq -c | awk '$1 != 2' | wc -l)" -eq 0 ] || fail "a receipt stands twice"
[ "$(ls "$scratch/book/readings" | wc -l)" -eq "$runs" ] || fail "files of readings"

# Killed at any moment: the book is as it was before, or as it is after.
for ((i = 0; i < 40; i++)); do
  number=$((runs + i))
  came "$number"
  before=$("$program" check "$scratch/book" 2>/dev/null | tail -1)
  "$program" receive "$scratch/book" "s$number.csv" "r$number.csv" --by me --threads 1 >"$scratch/said" 2>&1 &
  pid=$!
  sleep "0.0$((RANDOM % 10))$((RANDOM % 10))"
  kill -KILL "$pid" 2>/dev/null || true
  wait "$pid" 2>/dev/null || true
  after=$("$program" check "$scratch/book" 2>/dev/null | tail -1)
  samples=${after#*receipts, }; samples=${samples%% *}
  readings=${after#*blanks, }; readings=${readings%% *}
  [ "$readings" -eq $((2 * samples)) ] || fail "killed: $after"
  [[ $after == *" 0 faults"* ]] || fail "killed, with faults: $after"
  "$program" receive "$scratch/book" "s$number.csv" "r$number.csv" --by me >"$scratch/said" 2>&1 ||
    grep -q 'received before' "$scratch/said" || { cat "$scratch/said"; fail "after a killed run: $before"; }
done
# Half a file beside the one that it was to be is told, and no part of the book.
rm -f "$scratch"/book/*.unfinished-* "$scratch"/book/*/*.unfinished-*
[[ $(rows) == *"$((runs + 40)) samples and blanks, $((2 * (runs + 40))) readings,"*"0 faults, 0 remarks" ]] || fail "in the end: $(rows)"
[ "$failures" -eq 0 ] && printf 'rows are whole, and each there once\n'
exit "$failures"
