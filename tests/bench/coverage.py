# SPDX-License-Identifier: MIT
"""How often y ± U holds the volume that was really drawn, for pumps that behave in five ways.

    /usr/bin/python3 coverage.py PROGRAM [PUMPS [SCATTER]]     a table in Markdown; PUMPS of each kind (1000), SCATTER in % (0.2)
    /usr/bin/python3 coverage.py PROGRAM PUMPS SCATTER --least  and status 1 where a promise of docs/uncertainty.md fails

Books of invented pumps are written, the program screens them, and its volume and U are held against the mean of the flow
that was simulated. Steady pumps keep their flow; the others change it over each use by a random amount, normal with a
standard deviation of 2 % at the end: in a line, in one step at any moment, or by walking at random in 480 steps. The
fifth sags by such an amount, half a sine wave, and recovers by the end. Readings scatter by SCATTER, normal; the
certificate and the times are nearly exact, so that nothing else is in U. Every pump has its last use judged, after ten
earlier ones like it or after none. Seeds are fixed: the same table every time.
"""
import csv
import datetime
import math
import pathlib
import random
import subprocess
import sys
import tempfile

END_SD = 0.02
STEPS = 480
SET = 2.0  # L/min
KINDS = ("steady", "in a line", "in a step", "at random", "sags and recovers")
COUNTS = (2, 3, 5)  # readings of a set
HISTORIES = (0, 10)  # earlier uses
FIRST_DAY = datetime.date(2026, 1, 5)


def course(kind, chance):
    """Relative change of the flow at each minute of a use, and at its end."""
    end = chance.gauss(0, END_SD)
    if kind == "steady":
        return [0.0] * (STEPS + 1)
    if kind == "in a line":
        return [end * i / STEPS for i in range(STEPS + 1)]
    if kind == "in a step":
        at = chance.random() * STEPS
        return [end if i > at else 0.0 for i in range(STEPS + 1)]
    if kind == "at random":
        at, path = 0.0, [0.0]
        for _ in range(STEPS):
            at += chance.gauss(0, END_SD / math.sqrt(STEPS))
            path.append(at)
        return path
    return [-abs(end) * math.sin(math.pi * i / STEPS) for i in range(STEPS + 1)]


def mean_of(path):
    return (math.fsum(path) - (path[0] + path[-1]) / 2) / (len(path) - 1)


class Book:
    """A book under way; `line` has the flow follow a field set in the middle of each sample."""

    def __init__(self, folder, line, scatter):
        self.folder, self.line, self.scatter = pathlib.Path(folder), line, scatter
        self.pumps, self.samples, self.readings, self.truth = [], [], [], {}

    def use(self, pump, kind, count, day, chance):
        sample = f"{pump}-{day:02}"
        path = course(kind, chance)
        date = FIRST_DAY + datetime.timedelta(days=day)
        self.samples.append((sample, pump, f"{date}T08:00", f"{date}T16:00"))
        looks = [("pre", "07:4", 0), ("post", "16:1", -1)]
        if self.line:
            looks.insert(1, ("field", "12:0", STEPS // 2))
        for stage, clock, minute in looks:
            for i in range(count):
                flow = SET * (1 + path[minute]) * (1 + chance.gauss(0, self.scatter))
                self.readings.append((f"{date}T{clock}{i}", stage, sample, "V", f"{flow:.7f}"))
        return sample, SET * (1 + mean_of(path)) * STEPS

    def pump(self, kind, count, history, number):
        name = f"P{len(self.pumps)}"
        self.pumps.append(name)
        chance = random.Random(f"{kind} {count} {history} {number} {self.line} {self.scatter}")
        for day in range(history):
            self.use(name, kind, count, day, chance)
        sample, volume = self.use(name, kind, count, history, chance)
        self.truth[sample] = (kind, count, history, volume)

    def write(self):
        practice = '[practice]\nfield_sets = "line"\nreason = "simulated"\n' if self.line else ""
        (self.folder / "book.toml").write_text(
            'title = "Simulated"\ntime_zone = "UTC"\n[uncertainty]\ntime = "0 min"\n[rules]\npacks = []\n' + practice)
        self.table("instruments", "instrument,kind,principle", [("V", "calibrator", "volumetric")]
                   + [(pump, "pump", "") for pump in self.pumps])
        self.table("certificates", "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],"
                   "expanded uncertainty [%],coverage factor", [("C", "V", "2025-12-01", 2, 2, 2, 0.0001, 2)])
        self.table("samples", "sample,pump,started,stopped", self.samples)
        self.table("readings", "taken,stage,sample,calibrator,reading [L/min]", self.readings)

    def table(self, name, heading, rows):
        with open(self.folder / f"{name}.csv", "w", encoding="utf-8", newline="") as file:
            file.write(heading + "\n")
            csv.writer(file, lineterminator="\n").writerows(rows)


def shares(program, line, pumps, scatter):
    """Of each kind, count and history: the share of volumes within U, and the mean of U in %."""
    with tempfile.TemporaryDirectory() as folder:
        book = Book(folder, line, scatter)
        for kind in KINDS:
            for count in COUNTS:
                for history in HISTORIES:
                    for number in range(pumps):
                        book.pump(kind, count, history, number)
        book.write()
        done = subprocess.run([program, "screen", folder, "--as-of", "2026-12-31", "--format", "csv"],
                              capture_output=True, text=True, check=False)
        if done.returncode > 1:
            sys.exit(done.stderr[-2000:])
    found = {}
    for row in csv.DictReader(done.stdout.splitlines()):
        if row["sample"] not in book.truth:
            continue
        kind, count, history, volume = book.truth[row["sample"]]
        held, sum_of_u = found.get((kind, count, history), (0, 0.0))
        expanded = float(row["volume_expanded_uncertainty_l"])
        held += abs(float(row["volume_l"]) - volume) <= expanded
        found[kind, count, history] = held, sum_of_u + 100 * expanded / volume
    return {key: (held / pumps, sum_of_u / pumps) for key, (held, sum_of_u) in found.items()}


def print_table(found):
    columns = [(count, history) for history in HISTORIES for count in COUNTS]
    heads = [f"{'none' if history == 0 else 'ten'}, n = {count}" for count, history in columns]
    print("| pump | " + " | ".join(heads) + " |\n|---|" + "---|" * len(columns))
    for kind in KINDS:
        cells = [found[kind, count, history] for count, history in columns]
        print(f"| {kind} | " + " | ".join(f"{100 * held:.0f} % ({u:.1f} %)" for held, u in cells) + " |")


def main():
    least = "--least" in sys.argv
    words = [word for word in sys.argv[1:] if word != "--least"]
    program, pumps = words[0], int(words[1]) if len(words) > 1 else 1000
    scatter = float(words[2]) / 100 if len(words) > 2 else 0.002
    broken = []
    for line in (False, True):
        found = shares(program, line, pumps, scatter)
        print(f"\n{'with a field set in the middle, field_sets = line' if line else 'pre and post set only'}\n")
        print_table(found)
        promised = KINDS if line else KINDS[:-1]
        broken += [f"{key}: {held:.3f}" for key, (held, _) in found.items() if key[0] in promised and held < 0.90]
    if least and broken:
        sys.exit("FAILED: less than 90 % held: " + "; ".join(broken))


if __name__ == "__main__":
    main()
