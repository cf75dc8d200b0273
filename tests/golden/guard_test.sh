#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# guard_test.sh PROGRAM: with a guard band of one expanded uncertainty the demo book's samples near a limit turn from
# valid to qualified, the explanation says why, and the probability told is the tail of Student's t distribution. What is
# still met keeps the promise of the heading.
set -euo pipefail
program=$1
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
cd "$root"
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

cp -r docs/demo "$scratch/guarded"
printf '\n[decision]\nguard = 1.0\n' >>"$scratch/guarded/book.toml"
# screen BOOK NAME: its JSON; a book with void samples may end with 1.
screen() {
  local status=0
  "$program" screen "$1" --as-of 2026-11-16 --format json >"$scratch/$2.json" 2>"$scratch/remarks" || status=$?
  [ "$status" -le 1 ] || { cat "$scratch/remarks"; printf 'FAILED: screening %s ended with %d\n' "$2" "$status"; exit 1; }
}
screen docs/demo simple
screen "$scratch/guarded" guarded

/usr/bin/python3 - "$scratch" >"$scratch/turned" <<'END'
import json, math, sys
from scipy.stats import norm, t

def read(name):
    book = json.load(open(f"{sys.argv[1]}/{name}.json", encoding="utf-8"))
    return book, {sample["sample"]: sample for sample in book["samples"]}

simple, before = read("simple")
guarded, after = read("guarded")
faults = []

def tail(distance, dof):  # of Student's t distribution, by SciPy
    return norm.sf(distance) if dof is None else t.sf(distance, math.floor(dof))

def inside(finding):
    return finding["rule"].endswith("/drift")

# A drift within 5 %: qualified under the guard if its distance from 5 % is less than U, else as before.
near = set()
for name, sample in before.items():
    budget = sample["budget"]
    if not budget or budget["figures"]["drift"]["u"] is None:
        continue
    u, expanded = budget["figures"]["drift"]["u"], budget["figures"]["drift"]["expanded"]
    drift = sample["drift_percent"] / 100
    distance = 0.05 - abs(drift)
    found = [f for f in after[name]["findings"] if inside(f)]
    if -1e-9 <= distance < expanded * (1 - 1e-9):
        near.add(name)
        if [f["outcome"] for f in found] != ["qualified"]:
            faults.append(f"{name}: drift {drift} is {distance} from its limit, U {expanded}, but {found}")
    for finding in found + [f for f in sample["near_misses"] if inside(f)]:
        dof = budget["figures"]["drift"]["dof"]
        expected = tail((0.05 - drift) / u, dof) + tail((0.05 + drift) / u, dof)
        if not math.isclose(finding["probability_beyond"], expected, rel_tol=1e-6, abs_tol=1e-12):
            faults.append(f"{name}: probability {finding['probability_beyond']}, the tail is {expected}")
# The heading promises 5.0 % for a limit with two ends, 2.5 % for one; what is beyond that is told as no near miss.
text = guarded["decision_rule"]["text"]
if "at most 2.5 %" not in text or "at most 5.0 %" not in text or "no other knowledge" not in text:
    faults.append(f"the heading promises otherwise: {text}")
for name, sample in after.items():
    faults += [f"{name}: accepted beyond the promise: {miss}" for miss in sample["near_misses"]
               if miss["probability_beyond"] > 0.05 * (1 + 1e-9)]
if not {"pre.rsd of a sample", "drift.mean of a pump"} <= set(guarded["decision_rule"]["unguarded"]):
    faults.append(f"unguarded are only {guarded['decision_rule']['unguarded']}")
if len(near) < 2:
    faults.append(f"too few samples near the limit to try it on: {near}")
turned = {name for name in before if before[name]["verdict"] == "valid" and after[name]["verdict"] == "qualified"}
if not near <= {n for n in after if after[n]["verdict"] != "valid"}:
    faults.append(f"near the limit but still valid: {near}")
for name in before:  # a guard never makes anything better, and never voids
    if before[name]["verdict"] != after[name]["verdict"] and name not in turned:
        faults.append(f"{name}: {before[name]['verdict']} became {after[name]['verdict']}")
if guarded["decision_rule"]["guard"] != 1 or simple["decision_rule"]["guard"] != 0:
    faults.append("the rule in force is not told")
for fault in faults:
    print("FAILED:", fault, file=sys.stderr)
print("\n".join(sorted(turned & near)))
sys.exit(1 if faults or not turned & near else 0)
END

while read -r sample; do
  "$program" explain "$scratch/guarded" "$sample" --as-of 2026-11-16 >"$scratch/working" 2>/dev/null || [ $? -le 1 ]
  tr -s ' \n' '  ' <"$scratch/working" >"$scratch/line"
  for words in 'narrowed by a guard band of 1.00 U' 'than the guard band of 1.00 U allows' 'beyond it with a'; do
    grep -qF "$words" "$scratch/line" || { printf "FAILED: the working of %s doesn't say '%s'\n" "$sample" "$words"; exit 1; }
  done
done <"$scratch/turned"
printf '%d samples turned from valid to qualified\n' "$(wc -l <"$scratch/turned")"
