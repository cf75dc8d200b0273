#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""lookback_recomputed.py LOOKBACK.json: the look-back of ROT-2 in the demo book, worked out a second time.

The samples have to be those that docs/demo/planted.csv names, and their flow, drift and volumes before and under both
suppositions those of tests/support/demo_arithmetic.py to 1e-9, which shares nothing with the program.
"""
import csv
import json
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "support"))
import demo_arithmetic  # noqa: E402

BOOK = "docs/demo"
FOUND = "ROT-2/2026-11-11"
FIGURES = ("flow_l_min", "drift_percent", "volume_l", "volume_reference_l")

lookback = json.load(open(sys.argv[1], encoding="utf-8"))
planted = [row["sample"] for row in csv.DictReader(open(f"{BOOK}/planted.csv", encoding="utf-8"))
           if row["lookback"] == FOUND]
named = [sample["sample"] for sample in lookback["samples"]]
faults = 0
if sorted(named) != sorted(planted) or lookback["certificate"] != FOUND or lookback["instrument"] != "ROT-2":
    faults += 1
    print(f"looked back on {named}, planted {planted}")
if lookback["window"] != {"from": "2026-09-08", "to": "2026-11-11"}:
    faults += 1
    print(f"window {lookback['window']}")

suppositions = {"before": None, **demo_arithmetic.supposed_errors(BOOK, FOUND, "ROT-2/2026-09-08")}
compared = 0
for block, supposed in suppositions.items():
    expected = {row["sample"]: row for row in demo_arithmetic.assess(BOOK, supposed)}
    for sample in lookback["samples"]:
        for figure in FIGURES:
            compared += 1
            ours, theirs = sample[block][figure], expected[sample["sample"]][figure]
            if abs(ours - theirs) > 1e-9 * max(abs(theirs), 1e-3):
                faults += 1
                print(f"{sample['sample']} {block} {figure}: {ours!r}, independently {theirs!r}")
# Every volume has its U; of the sudden error that of the certificate is the same part of the volume, but what the
# calibrator may have moved is supposed and no longer in doubt.
screened = {sample["sample"]: sample for sample in json.load(open(sys.argv[2], encoding="utf-8"))["samples"]}
for sample in lookback["samples"]:
    before, sudden = (sample[block]["volume_expanded_uncertainty_l"] for block in ("before", "sudden"))
    if before != screened[sample["sample"]]["volume_expanded_uncertainty_l"] or not 0 < sudden < before * 1.001:
        faults += 1
        print(f"{sample['sample']}: U is {before} and {sudden}")
if not 1.9 < lookback["as_found_expanded_uncertainty_percent"] < 2.1:
    faults += 1
    print("the error as found has no U of about 2 %")
for sample in lookback["samples"]:
    changes = {sample[block]["verdict"] for block in suppositions} != {sample["before"]["verdict"]}
    if sample["changes"] != changes:
        faults += 1
        print(f"{sample['sample']}: changes is {sample['changes']}")
print(f"{compared} compared, {faults} differ")
sys.exit(faults > 0 or compared < 200)
