# SPDX-License-Identifier: MIT
"""mass_page.py PAGE [--write]: works the figures of docs/mass.md out and holds the page to them.

Share of a lognormal aerosol behind a lognormal curve in closed form, with SciPy's normal distribution; that of the
convention by its integral. Nothing of the program takes part, but for the mean flow of the sample in the example. A
table follows a line `<!-- mass: PERCENT -->`, the deviation of the flow.
"""
import math
import pathlib
import re
import sys

from scipy.integrate import quad
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


def respirable(mmad, gsd):
    """ISO 7708 and EN 481."""
    def of_size(z):
        d = mmad * gsd ** z
        return math.exp(-z * z / 2) * (1 + math.exp(-0.06 * d)) / 2 * ndtr(math.log(4.25 / d) / math.log(1.5))
    return quad(of_size, -9, 9, epsabs=1e-12)[0] / math.sqrt(2 * math.pi)


def example(page):
    """What the page tells of its sample, by the flow that `explain` prints there: 5 µm, 2 behind an exponent of 0.75."""
    measured, nominal = map(float, re.search(r"\(([\d.]+) / ([\d.]+)\)\^-0.75", page).groups())
    flow = measured / nominal
    cut = CUT * flow ** -0.75
    shares = share(CUT, 5, 2), share(cut, 5, 2)
    agreed = respirable(5, 2)

    def percent(ratio, decimals=2):
        return f"{100 * ratio:+.{decimals}f} %"

    actual, nominally = shares[1] / shares[0] - 1, shares[1] / shares[0] * flow - 1
    yield f"at a flow {100 * (1 - flow):.1f} % too low"
    yield f"= {cut:.3f} µm; cut.shift = {cut:.3f} / 4.000 - 1 = {percent(cut / CUT - 1)}"
    yield f"{100 * shares[0]:.2f} % at the nominal flow, {100 * shares[1]:.2f} % at this one"
    yield f"mass.shift.actual = F / F_nominal - 1 = {percent(actual)}"
    yield f"mass.shift.nominal = F x Q / (F_nominal x Q_nominal) - 1 = {percent(nominally)}"
    yield f"which takes {100 * agreed:.2f} % of it, the concentration is off {percent(shares[0] / agreed - 1)} at"
    yield (f"at this one {percent(shares[1] / agreed - 1)} by the actual volume and "
           f"{percent(shares[1] / agreed * flow - 1)} by the nominal volume")
    yield f"mass.bias = {percent(shares[1] / agreed - 1)}: the volume is formed with the mean flow"
    yield f"would be wrong by {percent(actual, 1)} with the actual volume and by {percent(nominally, 1)} with the nominal volume"
    yield f"by the one that was measured {100 * actual:.0f} % too high"
    yield f"{100 * share(CUT, 0.5, 2):.1f} % of the fume above, {100 * share(CUT, 1, 2):.1f} % of the dust of 1 µm"


def ratio(exponent, flow, mmad, gsd):
    """Of the error by the nominal volume and that by the actual one, in size."""
    change = share(CUT * flow ** -exponent, mmad, gsd) / share(CUT, mmad, gsd)
    return abs((change * flow - 1) / (change - 1))


def claims(page):
    """What the page reads from its tables."""
    dusts = [(mmad, gsd, flow) for mmad, gsd in ((5, 2), (10, 2.5)) for flow in (0.95, 1.1)]
    if "less than half of that by the actual volume" in page:
        yield "less than half", all(ratio(n, flow, *dust) < 0.5 for n in (0.5, 0.75, 1) for *dust, flow in dusts)
    if "with an exponent of 0.75 a fifth or less" in page:
        yield "a fifth or less", all(ratio(0.75, flow, *dust) <= 0.2 for *dust, flow in dusts)


def prose_faults(page):
    page = " ".join(page.split())
    made = list(claims(page))
    faults = [f"'{text}' does not stand there" for text in example(page) if text not in page]
    faults += [f"'{claim}' does not hold" for claim, holds in made if not holds]
    return faults if len(made) == 2 else faults + ["what is read from the tables is worded otherwise: mend claims()"]


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
    for fault in prose_faults("\n".join(lines)):
        faults += 1
        print(f"{page}: {fault}")
    print(f"{rows} rows, {faults} faults in them and in the words around them")
    return 0 if rows >= 12 and not faults else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], "--write" in sys.argv))
