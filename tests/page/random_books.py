#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""random_books.py FOLDER COUNT: writes random books, those of the first seeds of tests/golden/random_books, into FOLDER/SEED, and
beside each, in FOLDER/SEED.day, the day that it is judged as of."""
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "golden" / "random_books"))
from random_books import made  # noqa: E402

folder, count = pathlib.Path(sys.argv[1]), int(sys.argv[2])
for seed in range(1, count + 1):
    oracle = made(seed, folder / str(seed))
    (folder / f"{seed}.day").write_text(oracle.as_of.isoformat(), "utf-8")
