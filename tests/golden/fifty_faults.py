#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""fifty_faults.py VERDICTS RESULTS: what `screen --format json` printed about the book of fifty faults is what
verdicts.csv says of every sample: its verdict, the place of the fault it names, and, where it is judged, its figures.
Prints what differs; the exit status is 0 when nothing does."""
import csv
import json
import sys

FIGURES = ("minutes", "flow_l_min", "volume_l")


def differences(expected, sample):
    """What is not as expected of one sample, as texts."""
    if expected["sample"] != sample["sample"]:
        yield f"is {sample['sample']}"
        return
    if expected["verdict"] != sample["verdict"]:
        yield f"is {sample['verdict']}, not {expected['verdict']}"
    named = ";".join(at for finding in sample["findings"] for at in finding["at"])
    if expected["named fault"] != named:
        yield f"names {named or 'no fault'}, not {expected['named fault'] or 'none'}"
    if sample["findings"] and [finding["rule"] for finding in sample["findings"]] != ["book/faulty-records"]:
        yield "is held to a rule although a record of it is faulty"
    for figure in FIGURES if expected["verdict"] == "valid" else ():
        wanted = float(expected[figure]) if expected[figure] else None
        # The figures are few and short: what a pocket calculator gives, to nine digits.
        same = sample[figure] == wanted or (wanted and sample[figure] and abs(sample[figure] / wanted - 1) < 1e-9)
        if not same:
            yield f"has {figure} {sample[figure]}, not {wanted}"


def main():
    with open(sys.argv[1], encoding="utf-8", newline="") as file:
        expected = list(csv.DictReader(file))
    with open(sys.argv[2], encoding="utf-8") as file:
        samples = json.load(file)["samples"]
    failures = 0
    if len(expected) != len(samples):
        print(f"FAILED: {len(samples)} samples, not {len(expected)}")
        failures += 1
    for wanted, sample in zip(expected, samples):
        for difference in differences(wanted, sample):
            print(f"FAILED: {wanted['sample']} {difference}")
            failures += 1
    return 1 if failures else 0


sys.exit(main())
