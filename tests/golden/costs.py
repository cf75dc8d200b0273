# SPDX-License-Identifier: MIT
"""Costs stay level: what ten times as much of something odd costs, beside ten times the cost.

    costs.py PROGRAM [CASE ...]
    costs.py PROGRAM --write CASE SIZE FOLDER

Each case is a book with much of one odd thing: it is made small and ten times as large, and the command must take no more
than twice ten times the processor time (nothing that takes under a fifth of a second is held to that), and must not bury
the terminal. Sources of the sizes: what was found to be slow or to bury the results in a review of the first version.
"""
import os
import resource
import subprocess
import sys
import tempfile
import time

SETTINGS = 'title = "Costs"\ntime_zone = "UTC"\n[rules]\npacks = ["common-practice", "record-keeping"]\n'
INSTRUMENTS = "instrument,kind,principle\nP1,pump,\nV1,calibrator,volumetric\n"
CERTIFICATES = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC1,V1,2026-01-05,2,2,2\n"
SAMPLES = "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
READINGS_HEAD = "taken,stage,sample,calibrator,reading [L/min]\n"
READINGS = READINGS_HEAD + "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.990\n"


def stamp(minutes):
    return time.strftime("%Y-%m-%dT%H:%M", time.gmtime(1767225600 + 60 * minutes))


def many_headings(n):
    return {"samples.csv": "sample,pump,started,stopped," + ",".join(f"col{i}" for i in range(n)) + "\n" +
                           "S1,P1,2026-09-21T08:00,2026-09-21T16:00," + "," * (n - 1) + "\n"}


def unknown_pumps(n):
    rows = "".join(f"S{i},PMUP-{i},2026-09-21T08:00,2026-09-21T16:00\n" for i in range(n))
    known = "".join(f"PUMP-{i},pump,\n" for i in range(n))
    return {"samples.csv": "sample,pump,started,stopped\n" + rows, "instruments.csv": INSTRUMENTS + known}


def unknown_samples(n):
    known = "".join(f"SAMPLE-{i},P1,{stamp(20 * i)},{stamp(20 * i + 10)}\n" for i in range(n))
    rows = "".join(f"{stamp(i)},pre,SMAPLE-{i},V1,2\n" for i in range(n))
    return {"samples.csv": "sample,pump,started,stopped\n" + known, "readings.csv": READINGS_HEAD + rows}


def faulty_rows(n):
    rows = "".join(f"2026-09-21T07:3{i % 10},pre,S1,V1,2.O{i}\n" for i in range(n))
    return {"readings.csv": READINGS_HEAD + rows}


def sets_of_one_sample(n):
    rows = "".join(f"{stamp(40 * i)},field,S1,V1,2.0{i % 10}\n" for i in range(n))
    return {"readings.csv": READINGS + rows}


def circle_of_standards(n):
    instruments = "".join(f"K{i},calibrator,volumetric\n" for i in range(n))
    certificates = "".join(f"D{i},K{i},2026-01-05,,K{(i + 1) % n},2,2,2\n" for i in range(n))
    samples = "".join(f"T{i},P1,{stamp(900 * i + 400000)},{stamp(900 * i + 400480)}\n" for i in range(n))
    readings = "".join(f"{stamp(900 * i + 399990)},pre,T{i},K{i},2\n{stamp(900 * i + 400490)},post,T{i},K{i},2\n"
                       for i in range(n))
    return {"instruments.csv": INSTRUMENTS + instruments,
            "certificates.csv": "certificate,instrument,calibrated,issuer,standard,nominal [L/min],reference [L/min],as left [L/min]\n"
                                + certificates,
            "samples.csv": SAMPLES + samples, "readings.csv": READINGS + readings}


def circle_looked_back(n):
    """As it is, with one certificate more of K7: what leaned on the one before it is looked for."""
    book = circle_of_standards(n)
    heading, *rows = book["certificates.csv"].splitlines()
    lines = [heading + ",as found [L/min]", *(row + "," for row in rows), "E7,K7,2029-01-05,,K8,2,2,2,2.05"]
    book["certificates.csv"] = "\n".join(lines) + "\n"
    return book


def chain_of_standards(n):
    book = circle_of_standards(n)
    book["certificates.csv"] = book["certificates.csv"].replace(f"D{n - 1},K{n - 1},2026-01-05,,K0,", f"D{n - 1},K{n - 1},2026-01-05,,,")
    return book


def unknown_services(n):
    rows = "".join(f"2026-09-01,PMUP-{i},battery\n" for i in range(n))
    known = "".join(f"PUMP-{i},pump,\n" for i in range(n))
    return {"service.csv": "serviced,instrument,what\n" + rows, "instruments.csv": INSTRUMENTS + known}


# What there is much of, how many (and ten times as many), and the command.
CASES = {
    "headings": (many_headings, 10_000, ["check"]),
    "unknown-pumps": (unknown_pumps, 500, ["screen"]),
    "unknown-samples": (unknown_samples, 500, ["screen"]),
    "unknown-services": (unknown_services, 500, ["check"]),
    "faulty-rows": (faulty_rows, 100_000, ["screen"]),
    "faulty-rows-checked": (faulty_rows, 100_000, ["check"]),
    "sets": (sets_of_one_sample, 10_000, ["screen"]),
    "sets-explained": (sets_of_one_sample, 10_000, ["explain", "S1"]),
    "circle": (circle_of_standards, 500, ["screen"]),
    "circle-looked-back": (circle_looked_back, 500, ["lookback", "K7", "--certificate", "E7"]),
    "chain": (chain_of_standards, 500, ["screen"]),
}
LEVEL_S = 0.2  # below this, starting the program weighs more than the work
MOST_TOLD = 1000  # lines that a person may be asked to look through


def write(folder, files):
    book = {"book.toml": SETTINGS, "instruments.csv": INSTRUMENTS, "certificates.csv": CERTIFICATES,
            "samples.csv": SAMPLES, "readings.csv": READINGS, **files}
    for name, text in book.items():
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(text)


def run(program, make, size, command):
    """Processor seconds, and lines told."""
    with tempfile.TemporaryDirectory() as folder:
        write(folder, make(size))
        told, printed = os.path.join(folder, "told"), os.path.join(folder, "printed")
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        with open(told, "wb") as err, open(printed, "wb") as out:
            done = subprocess.run([program, command[0], folder, *command[1:], "--threads", "1"],
                                  stdout=out, stderr=err, check=False)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        if done.returncode not in (0, 1, 2) or (command[0] != "check" and os.path.getsize(printed) == 0):
            return None, 0  # died, or refused what was to be measured
        with open(told, "rb") as err:
            lines = sum(1 for _ in err)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, lines


def main():
    program, wanted = sys.argv[1], sys.argv[2:] or list(CASES)
    if wanted[0:1] == ["--write"]:
        return write(wanted[3], CASES[wanted[1]][0](int(wanted[2])))
    failed = False
    for name in wanted:
        make, size, command = CASES[name]
        small, _ = run(program, make, size, command)
        large, lines = run(program, make, 10 * size, command)
        sound = small is not None and large is not None
        level = sound and large <= 20 * max(small, LEVEL_S)
        quiet = command[0] == "check" or lines <= MOST_TOLD  # who checks a book wants all, and has them in a file
        failed |= not (level and quiet)
        took = f"{small:.2f} s, ten times as many {large:.2f} s" if sound else "died or refused"
        print(f"{'ok' if level and quiet else 'FAILED'} {name}: {size} {took}, {lines} lines told", flush=True)
    sys.exit(failed)


if __name__ == "__main__":
    main()
