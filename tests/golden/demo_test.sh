#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The demo book: every figure agrees with the independent arithmetic (demo/independent.csv, made from the written values
# by tests/support/demo_arithmetic.py) to 1e-9 relative, and every verdict and rule with what was planted.
set -euo pipefail
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
status=0
"$program" screen docs/demo --as-of 2026-11-16 --format csv --out "$scratch/verdicts.csv" 2>"$scratch/remarks" || status=$?
[ "$status" -eq 1 ] || { printf 'screen answered %s, not 1\n' "$status" >&2; exit 1; }
LC_ALL=C.UTF-8 /usr/bin/python3 - "$scratch/verdicts.csv" <<'PYTHON'
import csv
import sys

verdicts = {row["sample"]: row for row in csv.DictReader(open(sys.argv[1], encoding="utf-8"))}
compared = faults = 0
for row in csv.DictReader(open("tests/golden/demo/independent.csv", encoding="utf-8")):
    ours = verdicts[row.pop("sample")]
    for name, expected in row.items():
        compared += 1
        same = ours[name] == expected == "" or (
            "" not in (ours[name], expected)
            and abs(float(ours[name]) - float(expected)) <= 1e-9 * max(abs(float(expected)), 1e-3))
        if not same:
            faults += 1
            print(f"{ours['sample']} {name}: {ours[name]!r}, independently {expected!r}")
for row in csv.DictReader(open("docs/demo/planted.csv", encoding="utf-8")):
    ours = verdicts[row["sample"]]
    planted = {name.split("/")[-1] for name in row["rule ids"].split(";") if name}
    compared += 1
    if ours["verdict"] != row["expected verdict"] or set(filter(None, ours["findings"].split(";"))) != planted:
        faults += 1
        print(f"{row['sample']}: {ours['verdict']} {ours['findings']}, planted {row['expected verdict']} {row['rule ids']}")
print(f"{compared} compared, {faults} differ")
sys.exit(faults > 0 or compared < 1000)
PYTHON
