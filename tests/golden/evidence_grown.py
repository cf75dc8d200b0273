# SPDX-License-Identifier: MIT
"""evidence_grown.py PROGRAM BOOK TIMES: makes packages while decisions are added to the book, whole rows all the time.

Every package is made, is sound, and holds rows that were whole, or the remark that says otherwise; the exit status is 0
when all are so.
"""
import pathlib
import shutil
import subprocess
import sys
import tempfile
import threading


def add_rows(file, is_over):
    row = file.read_bytes().splitlines(keepends=True)[-1]
    while not is_over.wait(0.001):
        with file.open("ab", buffering=0) as out:
            out.write(row)


def amiss(program, book, bag):
    made = subprocess.run([program, "evidence", book, "--batch", "TF46B", "--as-of", "2026-11-16", "--out", bag], check=False,
                          capture_output=True)
    if made.returncode not in (0, 1):
        return f"status {made.returncode}: {made.stderr.decode()[-400:]}"
    checked = subprocess.run([program, "verify", bag], check=False, capture_output=True)
    if checked.returncode != 0:
        return checked.stdout.decode()[-400:]
    packed = next(pathlib.Path(bag).rglob("decisions.csv")).read_bytes()
    whole = (pathlib.Path(book) / "decisions.csv").read_bytes()
    is_of_rows = whole.startswith(packed) and packed.endswith(b"\n")
    return "" if is_of_rows else f"the package holds a row that is not whole: {packed[-100:]}"


def main(program, book, times):
    faults = []
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name)
        for number in range(int(times)):
            folder = scratch / f"book-{number}"
            shutil.copytree(book, folder)
            before = (folder / "decisions.csv").stat().st_size
            is_over = threading.Event()
            writer = threading.Thread(target=add_rows, args=(folder / "decisions.csv", is_over))
            writer.start()
            bag = scratch / f"bag-{number}"
            faults += filter(None, [amiss(program, folder, bag)])
            is_over.set()
            writer.join()
            if (folder / "decisions.csv").stat().st_size == before:
                faults.append("no row was added meanwhile: this has shown nothing")
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
