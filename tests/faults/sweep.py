# SPDX-License-Identifier: MIT
"""What happens when one call of the system fails, or the run is ended there, at each call in turn?

    sweep.py PROGRAM SHIM [--sample N] [--stride N [--first N]] [--commands screen,decide] [--kinds write,fsync]
             [--minutes M]

Every command that writes is run again and again; each time one more call of a kind (open, read, write, fsync, rename,
mmap, close, mkdir, unlink, start of a program, allocate) fails, or brings SIGKILL or SIGTERM. Afterwards what it writes is as it was before,
or whole and new; a run that failed says why and ends with status 2; one that did not has written and said the same as
one without a fault; nothing is left lying about (but by SIGKILL: the unfinished file, under its own kind of name, and
then the same command, run again, ends well). A line is printed for what is amiss, and one for each kind of call. All of
it takes hours; --sample N takes N calls of each kind only, always the same ones, and is a test. --stride N takes every
N-th allocation, from the one named by --first on (other calls are few). `long_sweep.sh` runs all of it in turns.
"""
import argparse
import csv
import errno
import json
import os
import pathlib
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
SOUND = HERE.parent / "fuzz" / "corpus" / "folder" / "sound"
AS_OF = ["--as-of", "2026-11-16"]
OLD = b"what was there before\n"
KINDS = ["open", "read", "write", "fsync", "rename", "mmap", "close", "mkdir", "unlink", "start", "allocate"]
ERRORS = {"write": errno.ENOSPC, "mkdir": errno.ENOSPC, "open": errno.EACCES, "mmap": errno.ENOMEM, "start": errno.EAGAIN, "allocate": errno.ENOMEM}
PARTS = "parts"

# What comes from elsewhere, to be received.
CAME = {
    "samples.csv": "sample,batch,pump,started,stopped,temperature [°C],pressure [kPa]\nS3,B2,P1,2026-09-23T08:00,2026-09-23T16:00,20,85\n",
    "readings.csv": "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
                    "2026-09-23T07:30,pre,S3,VOL-1,2.000,20,85\n2026-09-23T16:10,post,S3,VOL-1,1.980,20,85\n",
}

# Name, words, what is written ({out}), and what was there before: a file, nothing, an empty folder, the book's decisions
# (there, or not yet), or the book itself, into which rows are received. Of "files" each is whole or not there by itself:
# figures are written also where no picture can be drawn.
COMMANDS = [
    ("new", ["new", "{out}"], "nothing"),
    ("new-inside", ["new", "{out}"], "folder"),
    ("screen", ["screen", "{book}", *AS_OF, "--format", "csv", "--out", "{out}"], "file"),
    ("screen-json", ["screen", "{book}", *AS_OF, "--format", "json", "--threads", "3", "--out", "{out}"], "file"),
    ("check", ["check", "{book}"], "nothing"),
    ("custody", ["custody", "{book}", "--batch", "B1", *AS_OF, "--format", "csv", "--out", "{out}"], "file"),
    ("lookback", ["lookback", "{book}", "VOL-1", "--certificate", "C1", *AS_OF, "--format", "html", "--out", "{out}"], "file"),
    ("decide", ["decide", "{book}", "S1", "own/drift", "overrule", "--by", "site hygienist", "--reason", "As planned."], "decisions"),
    ("decide-first", ["decide", "{book}", "S1", "own/drift", "overrule", "--by", "site hygienist", "--reason", "As planned."],
     "no decisions"),
    ("receive", ["receive", "{book}", "came/samples.csv", "came/readings.csv", *AS_OF, "--by", "instrument keeper"], "book"),
    ("compare", ["compare", "{book}", *AS_OF, "--rules", "common-practice", "--format", "csv", "--out", "{out}"], "file"),
    ("split", ["split", "{book}", "--parts", "2", "--out", "{out}"], "nothing"),
    ("join", ["join", "{parts}/order", "{parts}/1.csv", "{parts}/2.csv", "--out", "{out}"], "file"),
    ("history", ["history", "{book}", *AS_OF, "--out", "{out}"], "files"),
    ("review", ["review", "{book}", *AS_OF, "--out", "{out}"], "file"),
    ("evidence", ["evidence", "{book}", *AS_OF, "--out", "{out}"], "nothing"),
]


def write_book(folder):
    """The sound book of the fuzzers, unfolded; its readings are in a folder."""
    file = None
    for line in SOUND.read_text(encoding="utf-8").splitlines(keepends=True):
        if line.startswith("=== "):
            path = folder / line[4:].strip()
            path.parent.mkdir(parents=True, exist_ok=True)
            file = path.open("w", encoding="utf-8")
        else:
            file.write(line)
    file.close()
    (folder / "readings").mkdir()
    (folder / "readings.csv").rename(folder / "readings" / "W39.csv")


def contents(path):
    """All that lies there, by name; None where nothing does."""
    if path.is_dir():
        return {str(file.relative_to(path)): file.read_bytes() for file in sorted(path.rglob("*")) if file.is_file()}
    return path.read_bytes() if path.exists() else None


class Command:
    """One command in a folder of its own, made anew for each run."""

    def __init__(self, program, scratch, name, words, before):
        self.program, self.scratch, self.name, self.words, self.before_is = program, scratch, name, words, before
        self.place = scratch / "place"

    def prepare(self):
        shutil.rmtree(self.place, ignore_errors=True)
        for folder in ("book", "temporary", "out", "came"):
            (self.place / folder).mkdir(parents=True)
        write_book(self.place / "book")
        for name, text in CAME.items():
            (self.place / "came" / name).write_text(text, encoding="utf-8")
        is_of_the_book = self.before_is in ("decisions", "no decisions")
        self.out = self.place / "book" / "decisions.csv" if is_of_the_book else self.place / "out" / "out"
        if self.before_is == "book":
            self.out = self.place / "book"
        if self.before_is == "no decisions":
            self.out.unlink()
        if self.before_is == "folder":
            self.out.mkdir()
        if self.before_is == "file":
            self.out.write_bytes(OLD)
        return contents(self.place / "book"), contents(self.out)

    def run(self, **settings):
        words = [w.format(book="book", out="out/out", parts=self.scratch / PARTS) for w in self.words]
        environment = {**os.environ, "TMPDIR": str(self.place / "temporary"), **settings}
        return subprocess.run([self.program, *words], cwd=self.place, env=environment, stdin=subprocess.DEVNULL,
                              capture_output=True, check=False, timeout=120)

    def litter(self):
        lying = [p for folder in ("out", "temporary") for p in (self.place / folder).iterdir()]
        lying += [p for p in (self.place / "book").iterdir() if p.name not in self.names]
        return [p.name for p in lying if p != self.out]


def without_moment(text):
    """What a decision or a page says of its own moment or place differs from run to run."""
    return re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?([+-]\d\d:\d\d|Z)?", b"MOMENT", text) if isinstance(text, bytes) else text


RECEIVING_NOTE = ".driftwarden-receiving"  # may stay behind a run that was ended: it harms nothing


def comparable(held):
    if isinstance(held, dict):
        return {name: without_moment(text) if name == "received.csv" else text for name, text in held.items()
                if name != RECEIVING_NOTE}
    return without_moment(held)


def is_whole(text):
    """Whether a result that lacks what could not be read is one all the same: a book with faults is judged with them."""
    if isinstance(text, dict):
        return True
    if text.startswith(b"{"):
        return json.loads(text) is not None
    if text.startswith(b"<"):
        return text.rstrip().endswith(b"</html>")
    rows = list(csv.reader(text.decode().splitlines()))
    return text.endswith(b"\n") and all(len(row) == len(rows[0]) for row in rows)


def is_unfinished(name):
    """Whether a name says of itself that it was not finished: what only a run that was killed may leave."""
    return ".unfinished-" in name or name.startswith(".driftwarden-")


def received_nothing(before, after, whole):
    """Whether a book is as before but for whole files that received.csv does not name, and that the note does."""
    more = {name: text for name, text in after.items() if name not in before and not is_unfinished(name)}
    noted = after.get(RECEIVING_NOTE, b"").decode().splitlines()
    files = {name for name in more if isinstance(more[name], bytes)}
    return files <= set(noted) and all(text == whole.get(name) for name, text in more.items()) and all(
        after.get(name) == text for name, text in before.items())


def amiss(command, before, done, sound, fault):
    """What is wrong after a run, or ''."""
    ended_by, reason = fault
    after = contents(command.out)
    is_old, is_new = after == before[1], comparable(after) == comparable(sound["after"])
    if command.before_is == "folder" and ended_by == signal.SIGKILL and "book.toml" not in after:
        is_old = all(is_unfinished(name) or text == sound["after"].get(name) for name, text in after.items())
    if command.before_is == "files" and isinstance(after, dict):
        is_old = all(text == sound["after"].get(name) or (ended_by == signal.SIGKILL and is_unfinished(name))
                     for name, text in after.items())
    told = done.stderr.decode(errors="replace")
    if command.before_is == "book" and (ended_by or "not enough memory" in told):
        is_old |= received_nothing(before[1], after, sound["after"])
    is_told_unreadable = done.returncode == 2 and "[file/unreadable]" in told
    if not is_old and not is_new and not (is_told_unreadable and command.before_is != "book" and is_whole(after)):
        return "neither the old nor the whole new"
    litter = command.litter()
    if ended_by == signal.SIGKILL:
        litter = [name for name in litter if not is_unfinished(name)]
    elif ended_by:
        litter = [name for name in litter if name != RECEIVING_NOTE]
    if litter:
        return f"left {litter}"
    if ended_by == signal.SIGKILL and not is_new:
        return amiss_again(command, sound)
    if ended_by and done.returncode in (-ended_by, 128 + ended_by):
        return ""
    if done.returncode < 0:
        return f"died of signal {-done.returncode}: {done.stderr[-200:]}"
    if done.returncode == 2:
        return "" if reason in told or "not enough memory" in told else f"status 2 without the reason: {told[:300]}"
    if done.returncode != sound["status"]:
        return f"status {done.returncode} and not {sound['status']}: {done.stderr[-200:]}"
    if not is_new:
        return "a status as of success, and nothing new"
    # What is done can't be undone because nobody heard of it: `decide` says so, and its status stays that of the deed.
    if without_moment(done.stdout) != without_moment(sound["stdout"]) and "[output/done-unsaid]" not in told:
        return "a status as of success, and something else was printed"
    return ""


def amiss_again(command, sound):
    """What is wrong when the same command is run once more after it was killed, or ''."""
    done, after = command.run(), contents(command.out)
    if isinstance(after, dict):
        after = {name: text for name, text in after.items() if not is_unfinished(name)}
    if done.returncode != sound["status"] or comparable(after) != comparable(sound["after"]):
        return f"run again after it was killed: status {done.returncode}, {done.stderr[-200:]}"
    return ""


ALLOCATIONS_TO_REMEMBER = 8  # more than it takes to note down a folder that was just made


def calls_to_try(kind, counts, arguments):
    count = counts[kind]
    if count == 0:
        return []
    if arguments.sample:
        more = random.Random(kind + str(count)).choices(range(1, count + 1), k=max(arguments.sample - 3, 0))
        made = [after for name, after in counts.items() if name.startswith("made-") and kind == "allocate"]
        soon = {after + n for after in made for n in range(1, ALLOCATIONS_TO_REMEMBER + 1) if after + n <= count}
        return sorted({1, (count + 1) // 2, count, *more, *soon})
    return range(arguments.first, count + 1, arguments.stride) if kind == "allocate" else range(1, count + 1)


def swept(command, shim, arguments, until):
    """Runs, and what was amiss."""
    before = command.prepare()
    command.names = set(os.listdir(command.place / "book"))
    if command.before_is == "decisions":
        command.names.add("decisions.csv")
    if command.before_is == "book":
        command.names |= {"samples", "readings", "received.csv"}
    counted = command.scratch / "counts"
    done = command.run(LD_PRELOAD=str(shim), FAULT_COUNTS=str(counted))
    sound = {"status": done.returncode, "stdout": done.stdout, "after": contents(command.out)}
    if done.returncode not in (0, 1):
        raise SystemExit(f"{command.name} fails without any fault: {done.stderr.decode()}")
    counts = {line.split()[0]: int(line.split()[1]) for line in counted.read_text().splitlines()}
    runs, wrong = 0, []
    for kind in arguments.kinds:
        begun_with, amiss_before = runs, len(wrong)
        for ended_by in (0, signal.SIGKILL, signal.SIGTERM):
            if ended_by and kind in ("allocate", "read"):
                continue  # between those nothing changes on the disk
            for at in calls_to_try(kind, counts, arguments):
                if time.monotonic() > until:
                    return runs, wrong
                before, failing = command.prepare(), ERRORS.get(kind, errno.EIO)
                done = command.run(LD_PRELOAD=str(shim), FAULT_CALL=kind, FAULT_AT=str(at), FAULT_SIGNAL=str(int(ended_by)),
                                   FAULT_ERROR=str(failing))
                runs += 1
                why = amiss(command, before, done, sound, (ended_by, os.strerror(failing)))
                if why:
                    wrong.append(f"{command.name}: {kind} {at} of {counts[kind]}{', ' + ended_by.name if ended_by else ''}: {why}")
                    print(wrong[-1], flush=True)
        print(f"  {command.name}, {kind}: {runs - begun_with} tried, {len(wrong) - amiss_before} amiss", flush=True)
    return runs, wrong


def installed(program, scratch):
    """The program as it is installed, away from what it was built from."""
    (scratch / "bin").mkdir()
    shutil.copy(program, scratch / "bin" / "driftwarden")
    for folder in ("rules", "plots"):
        shutil.copytree(HERE.parent.parent / folder, scratch / "share" / "driftwarden" / folder)
    return str(scratch / "bin" / "driftwarden")


def make_parts(program, scratch):
    """A split book with its results, for join."""
    book, parts = scratch / "whole", scratch / PARTS
    book.mkdir()
    write_book(book)
    subprocess.run([program, "split", book, "--parts", "2", "--out", parts], check=True, stdout=subprocess.DEVNULL)
    for n in (1, 2):
        subprocess.run([program, "screen", parts / f"part-{n}", *AS_OF, "--format", "csv", "--out", parts / f"{n}.csv"],
                       check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("shim")
    parser.add_argument("--sample", type=int, default=0)
    parser.add_argument("--stride", type=int, default=1)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=1e6)
    parser.add_argument("--commands", type=lambda s: s.split(","), default=[name for name, _, _ in COMMANDS])
    parser.add_argument("--kinds", type=lambda s: s.split(","), default=KINDS)
    arguments = parser.parse_args()
    program, shim = os.path.abspath(arguments.program), os.path.abspath(arguments.shim)
    until, total, all_wrong = time.monotonic() + 60 * arguments.minutes, 0, []
    with tempfile.TemporaryDirectory(prefix="sweep-") as folder:
        scratch = pathlib.Path(folder)
        program = installed(program, scratch)
        make_parts(program, scratch)
        for name, words, before in COMMANDS:
            if name not in arguments.commands:
                continue
            begin = time.monotonic()
            runs, wrong = swept(Command(program, scratch, name, words, before), shim, arguments, until)
            total, all_wrong = total + runs, all_wrong + wrong
            print(f"{name}: {runs} faults and ends, {len(wrong)} amiss, {time.monotonic() - begin:.0f} s", flush=True)
    print(f"{total} faults and ends, {len(all_wrong)} amiss")
    if total == 0:
        print("nothing was tried: this has shown nothing")
    return 1 if all_wrong or total == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
