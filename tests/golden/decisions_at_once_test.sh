#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# decisions_at_once_test.sh PROGRAM: two hundred people decide at once, on a file whose last line has no end. Two hundred
# whole rows are added, and what stood there keeps its bytes.
set -euo pipefail
program=$1
people=200
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
book=$scratch/book
mkdir "$book"
cat >"$book/book.toml" <<'TOML'
title = "Quarry (invented)"
time_zone = "UTC"
[rules]
packs = ["own.toml"]
TOML
cat >"$book/own.toml" <<'TOML'
pack = "own"
title = "Own"
edition = "1"
[[rule]]
id = "drift"
of = "sample"
measure = "drift"
within = "2 %"
otherwise = "void"
reason = "A reason."
source = "A source"
standing = "house"
[[rule.example]]
given = { drift = "2 %" }
gives = "valid"
[[rule.example]]
given = { drift = "3 %" }
gives = "void"
TOML
printf 'instrument,kind,principle\nP1,pump,\nV1,calibrator,volumetric\n' >"$book/instruments.csv"
printf 'sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n' >"$book/samples.csv"
printf 'taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.900\n' >"$book/readings.csv"
printf 'decided,by,subject,rule,ruling,reason\n2026-09-22T08:00,nobody,S1,own/drift,uphold,first' >"$book/decisions.csv"
cp "$book/decisions.csv" "$scratch/before"

# The clock may stand before the samples; then the decisions are written all the same.
pids=()
for ((i = 1; i <= people; ++i)); do
  "$program" decide "$book" S1 own/drift overrule --by "person $i" --reason "reason $i, with \"quotes\"" --threads 1 \
    >>"$scratch/out" 2>>"$scratch/err" &
  pids+=($!)
done
failures=0
for pid in "${pids[@]}"; do wait "$pid" || failures=$((failures + 1)); done
if [ "$failures" -gt 0 ]; then
  printf 'FAILED: %d of %d calls were refused\n' "$failures" "$people"
  head -n 5 "$scratch/err"
fi

/usr/bin/python3 - "$scratch/before" "$book/decisions.csv" "$people" <<'PYTHON' || failures=$((failures + 1))
import csv
import sys

before, after, people = sys.argv[1], sys.argv[2], int(sys.argv[3])
first = open(before, "rb").read()
bytes_now = open(after, "rb").read()
assert bytes_now.startswith(first + b"\n"), "what stood there has changed"
rows = list(csv.reader(open(after, encoding="utf-8", newline=""), strict=True))
assert rows[0] == ["decided", "by", "subject", "rule", "ruling", "reason"]
assert rows[1][5] == "first"
assert all(len(row) == 6 for row in rows), "a row is not whole"
found = sorted((row[1], row[5]) for row in rows[2:])
wanted = sorted((f"person {i}", f'reason {i}, with "quotes"') for i in range(1, people + 1))
assert found == wanted, f"{len(found)} rows, and not those {people}"
assert bytes_now.endswith(b"\n")
PYTHON
# Each row was given a line of its own.
lines=$(grep -c '^decisions.csv:' "$scratch/out")
places=$(sed -n 's/^decisions.csv:\([0-9]*\): .*/\1/p' "$scratch/out" | sort -un | wc -l)
if [ "$lines" -ne "$people" ] || [ "$places" -ne "$people" ]; then
  printf 'FAILED: %d answers name %d lines\n' "$lines" "$places"
  failures=$((failures + 1))
fi
printf '%d decisions at once, %d failures\n' "$people" "$failures"
exit $((failures > 0))
