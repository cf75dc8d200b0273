#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The table of run rules in docs/history.md: by chance, one point in how many is a signal, of independent normal points.
# Worked out here from the normal and binomial distributions (Python's math module); of two-of-three and four-of-five the
# newest point is itself beyond the line, as the page decides.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
LC_ALL=C.UTF-8 /usr/bin/python3 - <<'PYTHON'
import math
import re
import sys

beyond = lambda z: math.erfc(z / math.sqrt(2)) / 2


def some_of(k, n, z):
    """The newest point beyond z on one side, and at least k - 1 of the n - 1 before it."""
    p = beyond(z)
    others = sum(math.comb(n - 1, i) * p**i * (1 - p) ** (n - 1 - i) for i in range(k - 1, n))
    return 2 * p * others


def up_and_down(n):
    """Permutations of n that go up and down in turn (Euler's zigzag numbers)."""
    row = [1]
    for _ in range(n - 1):
        row = row[::-1]
        sums = [0]
        for value in row:
            sums.append(sums[-1] + value)
        row = sums
    return sum(row)


within_one = 1 - 2 * beyond(1)
chances = {
    "beyond-limits": 2 * beyond(3),
    "two-of-three": some_of(2, 3, 2),
    "four-of-five": some_of(4, 5, 1),
    "run-of-8": 2 * 0.5**8,
    "trend-of-6": 2 / math.factorial(6),
    "alternating-of-14": 2 * up_and_down(14) / math.factorial(14),
    "inside-of-15": within_one**15,
    "mixture-of-8": (1 - within_one) ** 8 - 2 * beyond(1) ** 8,
}
page = open("docs/history.md", encoding="utf-8").read()
faults = 0
for name, chance in chances.items():
    row = re.search(r"^\| `%s`.*\| (\d+)[^|]*\|$" % name, page, re.M)
    printed = int(row.group(1)) if row else 0
    if abs(printed - 1 / chance) > max(1, 0.005 * printed):  # whole points; four digits are rounded to two
        print(f"FAILED: {name}: the page says one point in {printed}, the distribution one in {1 / chance:.1f}")
        faults += 1
print(f"{len(chances)} rules compared, {faults} differ")
sys.exit(faults > 0)
PYTHON
