# SPDX-License-Identifier: MIT
"""ended_early.py PROGRAM BOOK TIMES: ends every command that writes at random instants, and gives it too little room.

After each, what it writes is as it was before or whole, and nothing lies beside it or among the temporary files. Prints
a line for what is amiss; the exit status is 0 when nothing is.
"""
import os
import pathlib
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

AS_OF = ["--as-of", "2026-11-16", "--threads", "1"]
OLD = b"what was there before\n"


def commands(program, book):
    """Name, words, and whether it replaces a file (else it makes a folder)."""
    out = "{out}"
    return [
        ("screen", [program, "screen", book, *AS_OF, "--format", "csv", "--out", out], True),
        ("review", [program, "review", book, *AS_OF, "--out", out], True),
        ("lookback", [program, "lookback", book, "ROT-2", *AS_OF, "--out", out], True),
        ("custody", [program, "custody", book, "--batch", "TF46B", *AS_OF, "--out", out], True),
        ("kit", [program, "kit", book, "--kit", "K-2", *AS_OF, "--out", out], True),
        ("sheet", [program, "sheet", book, "--batch", "TF46B", *AS_OF, "--out", out], True),
        ("form", [program, "form", book, "--batch", "TF46B", *AS_OF, "--out", out], True),
        ("letter", [program, "letter", book, "--batch", "TF46B", *AS_OF, "--out", out], True),
        ("split", [program, "split", book, "--parts", "3", "--out", out], False),
        ("evidence", [program, "evidence", book, "--batch", "TF46B", *AS_OF, "--out", out], False),
        ("new", [program, "new", out], False),
    ]


def contents(path):
    """All that lies there, by name; None where nothing does."""
    if path.is_dir():
        return {str(file.relative_to(path)): file.read_bytes() for file in sorted(path.rglob("*")) if file.is_file()}
    return path.read_bytes() if path.exists() else None


class Place:
    """A fresh folder to write into, with temporary files beside it."""

    def __init__(self, scratch, words, replaces):
        self.folder, self.temporary = scratch / "place", scratch / "temporary"
        for folder in (self.folder, self.temporary):
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
        self.out = self.folder / "out"
        if replaces:
            self.out.write_bytes(OLD)
        self.before = contents(self.out)
        self.words = [word.replace("{out}", str(self.out)) for word in words]
        self.environment = {**os.environ, "TMPDIR": str(self.temporary)}

    def amiss(self, whole):
        litter = [path.name for path in [*self.folder.iterdir(), *self.temporary.iterdir()] if path != self.out]
        if litter:
            return f"left {litter}"
        return "" if contents(self.out) in (self.before, whole) else "neither the old nor the whole new"


def run(place, **more):
    return subprocess.run(place.words, check=False, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, env=place.environment, **more)


def ended(name, words, replaces, scratch, times):
    begun = time.monotonic()
    place = Place(scratch, words, replaces)
    if run(place).returncode not in (0, 1):
        return [f"{name}: does not run"], None
    lasts, whole = time.monotonic() - begun, contents(place.out)
    faults, hit = [], 0
    for number in range(times):
        place = Place(scratch, words, replaces)
        process = subprocess.Popen(place.words, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL, env=place.environment)
        time.sleep(random.uniform(0, 1.1 * lasts))
        process.send_signal(random.choice([signal.SIGTERM, signal.SIGINT, signal.SIGHUP]))
        hit += process.wait() < 0
        said = place.amiss(whole)
        if said:
            faults.append(f"{name}, ended for the {number + 1}. time: {said}")
    print(f"{name}: {hit} of {times} ended early, {len(faults)} faults")
    return faults, whole


def small_files(most_bytes):
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))


def without_room(name, words, replaces, scratch, whole):
    faults = []
    for most_bytes in (0, 100):
        place = Place(scratch, words, replaces)
        done = run(place, preexec_fn=small_files(most_bytes))
        said = place.amiss(whole) or ("" if contents(place.out) == place.before else "is there, and was too large")
        if done.returncode != 2 or b"File too large" not in done.stdout or said:
            faults.append(f"{name}, files of {most_bytes} bytes: status {done.returncode}, {said}, {done.stdout[-300:]!r}")
    return faults


def into_a_full_device(program, book):
    with open("/dev/full", "wb") as full:
        done = subprocess.run([program, "screen", book, *AS_OF], check=False, stdin=subprocess.DEVNULL, stdout=full,
                              stderr=subprocess.PIPE)
    if done.returncode == 2 and b"standard output: error: the results could not be written: No space left" in done.stderr:
        return []
    return [f"a full standard output: status {done.returncode}, {done.stderr[-300:]!r}"]


def main(program, book, times):
    random.seed(20261116)
    faults = into_a_full_device(program, book)
    with tempfile.TemporaryDirectory() as name:
        for command in commands(program, book):
            found, whole = ended(*command, pathlib.Path(name), int(times))
            faults += found + without_room(*command, pathlib.Path(name), whole)
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
