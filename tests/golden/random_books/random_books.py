# SPDX-License-Identifier: MIT
"""random_books.py PROGRAM FIRST COUNT: makes COUNT random books from seed FIRST on and holds every figure and verdict of
the program against the oracle, and some of them to what must hold of any book. The same seed gives the same book. A book
that differs is kept and named, so that it can be looked at."""
import datetime
import pathlib
import random
import shutil
import sys
import tempfile

import promises
from compare import compare
from coverage import Coverage
from oracle import Oracle
from planned_book import Plan
from program import Program
from written_book import Writer

RULES = pathlib.Path(__file__).resolve().parents[3] / "rules"
# Every how many books a promise is tried: what is slow, less often.
PROMISES = ((promises.same_bytes_with_any_threads, 5), (promises.same_samples_under_any_filter, 5),
            (promises.same_bytes_from_parts, 5), (promises.own_rules_do_what_their_examples_say, 5),
            (promises.every_file_in_the_package, 20))


def made(seed, folder):
    """Writes the book of a seed; gives the oracle's working of it."""
    chance = random.Random(seed)
    plan = Plan(chance)
    as_of = (plan.first_day + datetime.timedelta(days=chance.choice((1, 2, 3, 20)))).isoformat()
    plan.plan_results(random.Random(f"results {seed}"))
    plan.spoil(random.Random(f"unreadable {seed}"))
    writer = Writer(chance, plan, folder)
    oracle = Oracle(folder, RULES, as_of)
    if chance.random() < 0.5:
        plan.decide(oracle.findings())
        writer.write_table("decisions", plan.decisions)
        oracle = Oracle(folder, RULES, as_of)
    return oracle


def differences(path, seed, folder, coverage):
    """Of one book: what differs, and how many figures were compared."""
    oracle = made(seed, folder / "book")
    program = Program(path, oracle.as_of.isoformat(), oracle.has_faults)
    screened = program.screened(folder / "book")
    found = compare(screened, oracle)
    coverage.note(oracle)
    for promise, every in PROMISES:
        if seed % every == 0 and not (oracle.has_faults and promise is promises.same_bytes_from_parts):  # it isn't split
            broken = promise(program, folder / "book", folder, screened)
            found += [f"{promise.__name__}: {line}" for line in broken]
    return found


def tried(path, seed, folder, coverage):
    try:
        return differences(path, seed, folder, coverage)
    except RuntimeError as refused:
        return [str(refused)]


def main():
    path, first, count = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    scratch = pathlib.Path(tempfile.mkdtemp(prefix="random-books-"))
    figures = bad = 0
    coverage = Coverage()
    for seed in range(first, first + count):
        found = tried(path, seed, scratch / f"{seed}", coverage)
        figures += getattr(found, "figures", 0)
        if not found:
            shutil.rmtree(scratch / f"{seed}")
            continue
        bad += 1
        print(f"FAILED: seed {seed}: {len(found)} differences, book kept in {scratch / f'{seed}' / 'book'}")
        print("\n".join("  " + line[:400] for line in found[:12]))
    print(f"{count} random books, {figures} figures compared, {bad} books differ")
    if not bad:
        shutil.rmtree(scratch)
    missed = coverage.never_seen() if count >= 40 else []
    if missed:
        print(f"FAILED: no book came across {missed}")
    sys.exit(bad > 0 or bool(missed))


if __name__ == "__main__":
    main()
