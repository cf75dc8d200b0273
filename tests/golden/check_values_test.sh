#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The figures that everything else hangs on, through `screen --format json`. A local time that happened twice is refused
# with the way to write it.
set -euo pipefail
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
status=0
"$program" screen tests/golden/check-values --as-of 2026-11-25 --format json >"$scratch/screen.json" || status=$?
[ "$status" -eq 1 ] || { printf 'screen answered %s, not 1\n' "$status" >&2; exit 1; }
LC_ALL=C.UTF-8 /usr/bin/python3 - "$scratch/screen.json" <<'PYTHON'
import json
import sys

samples = {sample["sample"]: sample for sample in json.load(open(sys.argv[1], encoding="utf-8"))["samples"]}
checks = [
    # common practice: a limit of 5 %, rules/common-practice.toml; which side of it 1.900 and 1.8999 lie is arithmetic
    ("2.000 -> 1.900 L/min is exactly -5 %, and stands", samples["on-the-limit"]["verdict"], "valid", 0),
    ("", samples["on-the-limit"]["drift_percent"], -5, 1e-9),
    ("1.8999 L/min is beyond", samples["beyond-it"]["verdict"], "void", 0),
    ("", samples["beyond-it"]["drift_percent"], -5.005, 1e-9),
    ("400 min at 2.0 L/min", samples["steady"]["volume_l"], 800, 1e-9),
    # own input: the forms of 40 CFR 50 Appendix J, section 11.1, 2015 edition, and of NMAM 4th edition, chapter D,
    # section 7.a, step 7; computed with Python 3.11 by tests/support/computed_corrections.py
    ("2.000 L/min at 84.5 kPa, 10 °C", samples["steady"]["volume_reference_l"] / samples["steady"]["minutes"], 1.7563, 5e-5),
    ("2.00 on a scale of 20 °C, 101.325 kPa, at 5 °C, 84.5 kPa", samples["cold-rotameter"]["pre"]["mean_l_min"], 2.1333, 5e-5),
    # derived: eight hours by the clock, and the hour that the clocks go back
    ("22:00 to 06:00 over the night the clocks go back", samples["cold-rotameter"]["minutes"], 540, 0),
]
faults = 0
for what, got, expected, tolerance in checks:
    good = got == expected if isinstance(expected, str) else abs(got - expected) <= tolerance
    if not good:
        faults += 1
        print(f"{what}: {got}, expected {expected}")
print(f"{len(checks)} checked, {faults} wrong")
sys.exit(faults > 0)
PYTHON
cp -r tests/golden/check-values "$scratch/book"
sed -i 's/2026-11-01T06:00/2026-11-01T01:30/' "$scratch/book/samples.csv"
status=0
"$program" check "$scratch/book" >"$scratch/out" 2>"$scratch/faults" || status=$?
[ "$status" -eq 2 ] || { printf 'check answered %s to an ambiguous time, not 2\n' "$status" >&2; exit 1; }
grep -q '^samples.csv:5:41: error: .*2026-11-01T01:30-06:00.*2026-11-01T01:30-07:00' "$scratch/faults" ||
  { cat "$scratch/faults" >&2; exit 1; }
