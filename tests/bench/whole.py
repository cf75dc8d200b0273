# SPDX-License-Identifier: MIT
"""Measures whole runs of driftwarden beside a plain alternative, on the same book, in turn.

    whole.py PROGRAM MAKE_BOOK FOLDER SAMPLES [ROUNDS]

Makes books of invented records under FOLDER (kept for the next time), runs `driftwarden screen BOOK --format csv --out FILE`
and plain.awk on them, compares every verdict and figure (1e-6 relative), and prints a table in Markdown. It reports and
gates nothing: only results that disagree end with status 1.
"""
import concurrent.futures
import csv
import filecmp
import os
import pathlib
import statistics
import subprocess
import sys
import time

here = pathlib.Path(__file__).resolve().parent


def measured(command, output, env=None):
    """Runs a command to its end; seconds of wall clock and of processors, and the peak of its memory in MB."""
    with open(output, "wb") as out:
        started = time.monotonic()
        process = subprocess.Popen(command, stdout=out, stderr=subprocess.DEVNULL, env=env)
        _, status, used = os.wait4(process.pid, 0)
        wall = time.monotonic() - started
    status = os.waitstatus_to_exitcode(status)
    if status not in (0, 1):
        sys.exit(f"{command[0]} ended with status {status}")
    return {"wall": wall, "cpu": used.ru_utime + used.ru_stime, "peak": used.ru_maxrss * 1024 / 1e6}


def book(make_book, folder, samples, readings_a_set=5, shuffled=False):
    path = folder / f"book-{samples}-{readings_a_set}{'-shuffled' if shuffled else ''}"
    if not (path / "done").exists():
        subprocess.run([make_book, path, str(samples), str(readings_a_set)] + ["shuffled"] * shuffled, check=True)
        (path / "done").touch()
    return path


def size(path):
    return sum(f.stat().st_size for f in path.glob("*.csv"))


def screen(program, path, output, threads=None, form="csv"):
    command = [program, "screen", str(path), "--format", form, "--out", str(output)]
    return measured(command + (["--threads", str(threads)] if threads else []), os.devnull)


def plain(path, output):
    files = [str(path / f"{name}.csv") for name in ("instruments", "certificates", "samples", "readings")]
    return measured(["mawk", "-f", str(here / "plain.awk"), *files], output, dict(os.environ, LC_ALL="C"))


# driftwarden's column for each that plain.awk prints.
COLUMNS = ("sample", "verdict", "minutes", "pre_n", "pre_l_min", "pre_sd_l_min", "post_n", "post_l_min", "post_sd_l_min",
           "drift_percent", "flow_l_min", "volume_l", "volume_reference_l")


def agree(ours, theirs):
    """How many rows are the same in every verdict and figure; the first that is not ends the run."""
    rows = 0
    with open(ours, newline="") as a, open(theirs, newline="") as b:
        for left, right in zip(csv.DictReader(a), csv.reader(b), strict=True):
            for name, text in zip(COLUMNS, right, strict=True):
                if name in ("sample", "verdict") or not text or not left[name]:
                    same = left[name] == text
                else:
                    same = abs(float(left[name]) - float(text)) <= 1e-6 * abs(float(text)) + 1e-9
                if not same:
                    sys.exit(f"sample {right[0]}: {name} is {left[name]!r}, plain.awk says {text!r}")
            rows += 1
    return rows


def in_a_process_of_its_own(work, *given):
    """A process counts among its peak what its parent held when it began: this one has to stay small."""
    with concurrent.futures.ProcessPoolExecutor(max_workers=1) as pool:
        return pool.submit(work, *given).result()


def medians(runs):
    return {key: statistics.median(run[key] for run in runs) for key in runs[0]}


def row(name, m, bytes_read, base):
    print(f"| {name} | {m['wall']:.2f} | {m['cpu']:.2f} | {bytes_read / m['wall'] / 1e6:.0f} | {m['peak']:.0f} "
          f"| {m['wall'] / base['wall']:.1f} |", flush=True)


def table(program, path, folder, rounds, title):
    ways = {
        "driftwarden": lambda: screen(program, path, folder / "ours.csv"),
        "driftwarden, 1 thread": lambda: screen(program, path, folder / "ours-1.csv", threads=1),
        "driftwarden, JSON": lambda: screen(program, path, folder / "ours.json", form="json"),
        "plain.awk (mawk)": lambda: plain(path, folder / "plain.csv"),
    }
    runs = {name: [] for name in ways}
    for _ in range(rounds):
        for name, run in ways.items():
            runs[name].append(run())
    rows = in_a_process_of_its_own(agree, folder / "ours.csv", folder / "plain.csv")
    if not filecmp.cmp(folder / "ours.csv", folder / "ours-1.csv", shallow=False):
        sys.exit("one thread writes other bytes than all of them")
    print(f"\n{title}: {size(path) / 1e6:.0f} MB; {rows:,} rows agree in every verdict and figure; the bytes are the same "
          f"with one thread and with {os.cpu_count()}.\n")
    print("| program | wall s | processors s | MB/s | peak MB | wall, to driftwarden |\n|---|---|---|---|---|---|")
    base = medians(runs["driftwarden"])
    for name in ways:
        row(name, medians(runs[name]), size(path), base)


def linearity(program, make_book, folder, samples, rounds):
    print("\n| samples | wall s | µs a sample |\n|---|---|---|")
    for n in (samples // 100, samples // 10, samples):
        path = book(make_book, folder, n)
        m = medians([screen(program, path, folder / "ours.csv") for _ in range(rounds)])
        print(f"| {n:,} | {m['wall']:.3f} | {m['wall'] / n * 1e6:.2f} |", flush=True)


def memory(program, make_book, folder, samples):
    """Bytes a sample and a reading, from the peaks of three books: the program itself falls out."""
    def peak(n, readings_a_set):
        return screen(program, book(make_book, folder, n, readings_a_set), folder / "ours.csv")["peak"] * 1e6
    half = samples // 2
    few, many, large = peak(half, 5), peak(half, 10), peak(samples, 5)
    reading = (many - few) / (10 * half)
    sample = (large - few) / half - 10 * reading
    print(f"\nMemory grows by about {reading:.0f} bytes a reading and {sample:.0f} bytes a sample.")


def empty_book(program, folder, rounds):
    path = folder / "empty"
    if not path.exists():
        subprocess.run([program, "new", path], check=True, stdout=subprocess.DEVNULL)
    m = medians([screen(program, path, folder / "empty.csv") for _ in range(5 * rounds)])
    print(f"Start-up, on the book that `driftwarden new` writes: {m['wall'] * 1e3:.1f} ms.")


def main():
    program, make_book, folder, samples = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3]), int(sys.argv[4])
    rounds = int(sys.argv[5]) if len(sys.argv) > 5 else 3
    folder.mkdir(parents=True, exist_ok=True)
    in_order = book(make_book, folder, samples)
    table(program, in_order, folder, rounds, f"{samples:,} samples in the order of time")
    shuffled = book(make_book, folder, samples, shuffled=True)
    table(program, shuffled, folder, 1, f"The same number, readings in random order")
    linearity(program, make_book, folder, samples, rounds)
    memory(program, make_book, folder, samples)
    empty_book(program, folder, rounds)


main()
