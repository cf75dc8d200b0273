# SPDX-License-Identifier: MIT
"""mass_page.py PAGE [--write]: works the tables of docs/mass.md out and holds the page to them.

Share of a lognormal aerosol behind a lognormal curve in closed form, with SciPy's normal distribution; nothing of the
program takes part. A table follows a line `<!-- mass: PERCENT -->`, the deviation of the flow.
"""
import math
import pathlib
import re
import sys

from scipy.special import ndtr

CUT, SPREAD = 4.0, 1.25  # µm
EXPONENTS = (0, 0.5, 0.75, 1.0, -0.5)
DUST = re.compile(r"([\d.]+) µm, ([\d.]+)$")


def share(cut, mmad, gsd):
    return ndtr(math.log(cut / mmad) / math.hypot(math.log(SPREAD), math.log(gsd)))


def errors(exponent, flow, mmad, gsd):
    change = share(CUT * flow ** -exponent, mmad, gsd) / share(CUT, mmad, gsd)
    return " / ".join(f"{100 * (change * volume - 1) + 0.0:+.1f}".replace("+0.0", "0.0").replace("-0.0", "0.0")
                      for volume in (1, flow))


def main(page, write):
    lines, flow, rows, faults = pathlib.Path(page).read_text("utf-8").splitlines(), None, 0, 0
    for number, line in enumerate(lines):
        begins = re.match(r"<!-- mass: (-?\d+) -->", line)
        if begins:
            flow = 1 + int(begins[1]) / 100
        dust = DUST.search(line.split("|")[1].strip()) if flow and line.startswith("|") else None
        if not dust:
            continue
        cells = [line.split("|")[1].strip(), *(errors(n, flow, *map(float, dust.groups())) for n in EXPONENTS)]
        expected, rows = "| " + " | ".join(cells) + " |", rows + 1
        if line != expected and not write:
            faults += 1
            print(f"{page}:{number + 1}: {line}\n  worked out: {expected}")
        lines[number] = expected
    if write:
        pathlib.Path(page).write_text("\n".join(lines) + "\n", "utf-8")
    print(f"{rows} rows, {faults} not as worked out")
    return 0 if rows >= 12 and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], "--write" in sys.argv))
