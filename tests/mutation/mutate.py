# SPDX-License-Identifier: MIT
"""Which faults in a source would the unit tests see?

    mutate.py BUILD SOURCE... [--floors statistics,assessment] [--jobs 2] [--list]

Plants one small fault after another in a source (a limit taken one step too far, a plus for a minus, a figure a little
off, a condition turned round or without one of its parts, a statement left out) and runs the unit tests of its floor,
and of the floors named. All faults of a source are compiled at once, each behind a switch, so that a fault costs a run
of the tests that come by it and no compilation. BUILD is a build folder of the preset dev or one like it (with the
tests built). Where to plant is read from clang's syntax tree (Debian: clang). Faults that survive are printed with
their place, except those that survivors.txt beside this script names: those that change nothing that anybody could see
("equivalent") don't count, those that are left ("left") do. Its exit status is 1 below 95 % of what counts, or where a
fault survives that nobody named, or one is named that is seen or no longer there.
"""
import argparse
import os
import sys
import tempfile

from running import Floor
from survivors import read_survivors

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))


class Tally:
    def __init__(self):
        self.planted = self.seen = self.equivalent = self.left = self.new = 0

    def add(self, other):
        for name in vars(self):
            setattr(self, name, getattr(self, name) + getattr(other, name))

    def rate(self):
        return 100 * self.seen / max(self.planted - self.equivalent, 1)

    def line(self, name):
        return (f"{name}: {self.planted} faults, {self.seen} seen, {self.equivalent} equivalent, {self.left} left, "
                f"{self.new} new; {self.rate():.1f} % of those that change something are seen")


def of_source(name, results, known):
    """Prints the faults of a source that survive unnamed, and names that no longer hold."""
    tally, survived = Tally(), set()
    for fault, was_seen in results:
        tally.planted += 1
        tally.seen += was_seen
        if was_seen:
            continue
        place = (name, fault.line, fault.words)
        survived.add(place)
        if place in known:
            setattr(tally, known[place], getattr(tally, known[place]) + 1)
        else:
            tally.new += 1
            print(f"survived: {name}:{fault.line_number}:{fault.column}\n  {fault.line}\n    {fault.words}", flush=True)
    for place in known:
        if place[0] == name and place not in survived:
            tally.new += 1
            print(f"named, but seen or gone: {name}\n  {place[1]}\n    {place[2]}", flush=True)
    print(tally.line(name), flush=True)
    return tally


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build")
    parser.add_argument("sources", nargs="+")
    parser.add_argument("--floors", default="", help="further floors whose tests are run, parted by commas")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--again", action="store_true", help="run only what was not seen the last time")
    parser.add_argument("--longest", type=int, default=10 ** 6, help="run no test that takes more milliseconds than that")
    parser.add_argument("--list", action="store_true", help="only say what would be planted")
    arguments = parser.parse_args()
    known, total, floors = read_survivors(os.path.join(HERE, "survivors.txt")), Tally(), {}
    for path in map(os.path.abspath, arguments.sources):
        floors.setdefault(os.path.basename(os.path.dirname(path)), []).append(path)
    for name, paths in floors.items():
        with tempfile.TemporaryDirectory() as scratch:
            others = [f for f in arguments.floors.split(",") if f and f != name]
            floor = Floor(os.path.abspath(arguments.build), paths, [name, *others], scratch)
            if arguments.list:
                print_places(floor)
                continue
            for source, results in floor.results(arguments.jobs, arguments.again, arguments.longest):
                total.add(of_source(source.name, results, known))
    print(total.line("all"))
    return 0 if total.new == 0 and total.rate() >= 95 else 1


def print_places(floor):
    for source in floor.sources:
        for fault in source.faults.values():
            print(f"{source.name}:{fault.line_number}:{fault.column}: {fault.words}")


if __name__ == "__main__":
    sys.exit(main())
