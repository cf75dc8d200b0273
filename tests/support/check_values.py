#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Lists every check value of the tests with its kind and its source.

    python3 check_values.py TESTS [--faults]

A check value is a row of an expected.csv or expected_history.csv, or a number with three or more decimals in a unit
test (also in tests/golden/check_values_test.sh). Beside the number stands a comment "kind: source": on its line, in
the nearest comment above it within the same test, above the test, or, for a whole file, in a comment at the left edge
with an empty line below it. With --faults only those are printed that lack one, and the exit status is 1 if any does.
"""
import csv
import pathlib
import re
import sys

KINDS = {
    "printed": "input and answer are printed in the source",
    "printed input": "the input is printed in the source, the answer worked out elsewhere: tool and script are named",
    "own input": "the input is ours, the answer worked out elsewhere: tool and script are named",
    "derived": "follows from the input by the arithmetic that is given",
    "echo": "what was put in, read back",
    "second hand": "read in a copy or a quotation, which is named",
    "common practice": "a fact of the trade, of no one document",
    "memory": "remembered, and not seen in the source",
    "input": "given to the room under test; no answer",
    "regression, no check": "what the program printed when it was last looked at",
}
SAID = re.compile(r"(?:^|[.;)] )(" + "|".join(sorted(KINDS, key=len, reverse=True)) + r"): (\S.*)", re.IGNORECASE)
NUMBER = re.compile(r"(?<![\w.])\d[\d']*\.\d{3,}(?:[eE][+-]?\d+)?")
PRIVATE_KEY = re.compile(r"\bE\d{1,2}\b")
SOURCES = ("*/*_test.cpp", "*/*.hpp", "golden/check_values_test.sh")


def rows(tests):
    """(place, value, kind, source) of every row of the reference books."""
    for path in sorted((tests / "reference").rglob("expected*.csv")):
        for line, row in enumerate(csv.DictReader(open(path, encoding="utf-8", newline="")), 2):
            value = f"{row['sample']} {row['field']} {row['expected']}".strip()
            yield f"{path.relative_to(tests)}:{line}", value, row["kind"] or "", row["source"] or ""


def comment_of(line, mark):
    """The text of a line's comment, and whether the line is nothing else; strings are looked past."""
    code = re.sub(r'"(?:\\.|[^"\\])*"', lambda text: "_" * len(text[0]), line)
    at = code.find(mark)
    return (None, code) if at < 0 else (line[at + len(mark):].strip(), code[:at])


class Comments:
    """What the comments above a place say, nearest first."""

    def __init__(self):
        self.of_file = self.of_item = self.nearest = None
        self.block = []

    def add(self, text, at_left):
        self.block.append(text)
        self.at_left = at_left

    def end_block(self, line):
        if not self.block:
            return
        said = SAID.search(" ".join(self.block))
        if said and self.at_left and line.strip() == "":
            self.of_file = said
        elif said and self.at_left:
            self.of_item = self.nearest = said
        elif said:
            self.nearest = said
        self.block = []

    def end_item(self):
        self.of_item = self.nearest = None


def literals(tests):
    """(place, number, kind, source) of every number with three decimals in the unit tests."""
    for pattern in SOURCES:
        for path in sorted(tests.glob(pattern)):
            mark = "#" if path.suffix == ".sh" else "//"
            above = Comments()
            for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
                text, code = comment_of(line, mark)
                if text is not None and not code.strip():
                    above.add(text, not line.startswith(" "))
                    continue
                above.end_block(line)
                said = SAID.search(text) if text else None
                said = said or above.nearest or above.of_item or above.of_file
                for value in NUMBER.findall(code):
                    yield (f"{path.relative_to(tests)}:{number}", value, said[1].lower() if said else "",
                           said[2] if said else "")
                if line.startswith("}") or (line.startswith("TEST") and line.endswith("}")):
                    above.end_item()


def fault_of(value):
    place, _, kind, source = value
    if kind not in KINDS:
        return f"{place}: kind is '{kind}', not one of: {', '.join(KINDS)}"
    if not source.strip():
        return f"{place}: no source"
    if PRIVATE_KEY.search(source):
        return f"{place}: '{PRIVATE_KEY.search(source)[0]}' is a key that nobody outside can look up"
    return None


def main(tests, only_faults):
    values = [*rows(tests), *literals(tests)]
    faults = [fault for fault in map(fault_of, values) if fault]
    if not only_faults:
        writer = csv.writer(sys.stdout, lineterminator="\n")
        writer.writerow(["place", "value", "kind", "source"])
        writer.writerows(values)
    print("\n".join(faults), end="\n" if faults else "", file=sys.stdout if only_faults else sys.stderr)
    counts = {kind: sum(value[2] == kind for value in values) for kind in KINDS}
    summary = ", ".join(f"{count} {kind}" for kind, count in counts.items() if count)
    print(f"{len(values)} check values, {len(faults)} without kind or source: {summary}", file=sys.stderr)
    return 1 if faults or not values else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]), "--faults" in sys.argv[2:]))
