#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The figures of the unit tests that no document prints, worked out in another language and without the program.

    /usr/bin/python3 computed_values.py TESTS

Every value that computed_aerosols.py, computed_corrections.py, computed_statistics.py and computed_records.py work out
for a room has to stand in that room's test, to the digits written there; a text, letter by letter. The comment beside
such a figure names the script that works it out; check_values.py lists them all.
"""
import pathlib
import re
import sys

import computed_aerosols
import computed_corrections
import computed_records
import computed_statistics

MODULES = (computed_aerosols, computed_corrections, computed_records, computed_statistics)
NUMBER = re.compile(r"(?<![\w.])\d[\d']*\.?\d*(?:[eE][+-]?\d+)?")


def literals(text):
    """(value, half a unit of the last digit written) of every number of a source text."""
    for number in set(NUMBER.findall(text)):
        digits, _, exponent = number.replace("'", "").lower().partition("e")
        decimals = len(digits.partition(".")[2]) - int(exponent or 0)
        if sum(digit.isdigit() for digit in digits.lstrip("0.")) >= 2:
            yield float(number.replace("'", "")), 0.5 * 10.0 ** -decimals


def stands_in(value, written):
    return any(abs(abs(value) - figure) <= half + 1e-10 * abs(value) for figure, half in written)


def main(tests):
    worked = faults = 0
    for module in MODULES:
        for room, values in module.ROOMS.items():
            text = (tests / f"{room}_test.cpp").read_text("utf-8")
            written = list(literals(text))
            for value in values():
                worked += 1
                if value not in text if isinstance(value, str) else not stands_in(value, written):
                    faults += 1
                    value = value if isinstance(value, str) else f"{value:.12g}"
                    print(f"{module.__name__} works out {value} for {room}_test.cpp, where it does not stand")
    print(f"{worked} figures worked out, {faults} not as written")
    return 0 if worked and not faults else 1


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
