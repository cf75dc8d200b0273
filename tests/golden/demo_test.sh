#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The demo book: every figure agrees with the independent arithmetic (demo/independent.csv, made from the written values
# by tests/support/demo_arithmetic.py) to 1e-9 relative, and every verdict and rule with what was planted;
# what the model of the cyclone says of TF44A-6 is worked out anew.
set -euo pipefail
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
status=0
"$program" screen docs/demo --as-of 2026-11-16 --format csv --out "$scratch/verdicts.csv" 2>"$scratch/remarks" || status=$?
[ "$status" -eq 1 ] || { printf 'screen answered %s, not 1\n' "$status" >&2; exit 1; }
"$program" screen docs/demo --as-of 2026-11-16 --sample TF44A-6 --format json --out "$scratch/cyclone.json" 2>"$scratch/remarks" || [ $? -eq 1 ]
LC_ALL=C.UTF-8 /usr/bin/python3 - "$scratch/verdicts.csv" "$scratch/cyclone.json" <<'PYTHON'
import csv
import json
import math
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
phi = lambda z: (1 + math.erf(z / math.sqrt(2))) / 2
through = lambda cut: phi(math.log(cut / 5) / math.hypot(math.log(1.25), math.log(2)))  # of the dust that the book states
ours = json.load(open(sys.argv[2], encoding="utf-8"))["samples"][0]
flow = (ours["pre_l_min"] + ours["post_l_min"]) / 2 / 2.0
change = through(4 * flow ** -0.75) / through(4)
for name, expected in (("shift_actual_percent", 100 * (change - 1)), ("shift_nominal_percent", 100 * (change * flow - 1))):
    compared += 1
    if max(abs(end - expected) for end in ours["mass"][name]) > 1e-9:
        faults += 1
        print(f"{ours['sample']} {name}: {ours['mass'][name]}, independently {expected}")
if not ours["mass"]["shift_actual_percent"][0] > 5 > 1 > abs(ours["mass"]["shift_nominal_percent"][0]):
    faults += 1
    print("nominal and actual volume agree, and were meant not to")
print(f"{compared} compared, {faults} differ")
sys.exit(faults > 0 or compared < 1000)
PYTHON
