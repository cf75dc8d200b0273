# SPDX-License-Identifier: MIT
"""hostile_texts.py PROGRAM DEMO_BOOK: texts that would act on whoever reads them, through every column and every command.

ESC, U+009B, NUL, BEL and marks that turn the direction of a text are put into every cell of every table in turn, and into
all names and free texts of the demo book at once. Nothing of that may come out of a command, or stand in a file that it
writes, but in CSV, which other programs read and which keeps every byte. Pictures and pages must be sound all the same.
Prints a line for what is amiss; the exit status is 0 when nothing is.
"""
import csv
import io
import pathlib
import shutil
import subprocess
import sys
import tempfile
import xml.dom.minidom

HOSTILE = "\x1b[31m\u009b1m\u202e\u2066\u200f]]>'<b>&\"\x07"
AS_OF = ["--as-of", "2026-11-16"]
NAMES = {"instrument", "certificate", "sample", "batch", "pump", "calibrator", "standard", "subject", "against"}
TEXTS = {"serial", "issuer", "sampler", "method", "analysis", "medium", "note", "by", "reason", "set", "kit",
         "kind of kit", "item", "to", "checked by", "checked back by", "analyte", "laboratory", "balance", "qualifier"}
# Headings of the demo's own, of its book.toml.
ALIASES = {"Cassette": "sample", "Meter": "calibrator", "Remark": "note", "Hand": "by"}

ROWS = {
    "instruments": [{"instrument": "P", "kind": "pump"},
                    {"instrument": "V", "kind": "calibrator", "principle": "volumetric", "serial": "1", "note": "n"}],
    "certificates": [{"certificate": "C", "instrument": "V", "calibrated": "2026-01-01", "issuer": "lab", "standard": "S",
                      "nominal": "2.0", "reference": "2.0", "as left": "2.0"}],
    "samples": [{"sample": "S1", "batch": "B", "pump": "P", "method": "m", "started": "2026-05-01T08:00",
                 "stopped": "2026-05-01T16:00", "note": "n"}],
    "readings": [{"taken": "2026-05-01T07:30", "stage": "pre", "pump": "P", "calibrator": "V", "reading": "2.0", "by": "x"},
                 {"taken": "2026-05-01T17:00", "stage": "post", "pump": "P", "calibrator": "V", "reading": "1.7", "by": "x"}],
    "decisions": [{"decided": "2026-05-02T08:00", "by": "x", "subject": "S1", "rule": "common-practice/drift",
                   "ruling": "uphold", "reason": "r"}],
    "actions": [{"written": "2026-05-02T09:00", "by": "x", "action": "Watch", "about": "instrument", "name": "P", "who": "w",
                 "note": "n"}],
    "service": [{"serviced": "2026-04-01", "instrument": "P", "what": "repair", "by": "x", "note": "n"}],
    "checks": [{"checked": "2026-04-01T08:00", "instrument": "V", "against": "P", "shown": "2.0", "reference": "2.0",
                "by": "x", "note": "n"}],
    "kits": [{"kind of kit": "K", "item": "hose", "note": "n"}],
    "issues": [{"kit": "K", "kind of kit": "K", "instrument": "P", "item": "pump", "out": "2026-04-29", "to": "x",
                "checked by": "x", "back": "2026-05-20", "checked back by": "x", "missing": "yes", "note": "n"}],
    "results": [{"sample": "S1", "analyte": "dust", "amount": "0.5", "limit": "0.03", "laboratory": "lab", "balance": "b",
                 "reported": "2026-05-10", "qualifier": "J", "note": "n"}],
}


def run(*words):
    return subprocess.run([str(word) for word in words], check=False, stdin=subprocess.DEVNULL, capture_output=True)


def acting(data):
    """The characters in some bytes that act instead of showing themselves, by number."""
    text = data.decode("utf-8", "replace")
    return {hex(ord(c)) for c in text if (c < " " and c not in "\n\t") or "\x7f" <= c < "\xa0"
            or "\u202a" <= c <= "\u202e" or "\u2066" <= c <= "\u2069"}


def name_of(heading):
    return heading.split("[")[0].strip().lower()


def written(book, tables, headings):
    for table, rows in tables.items():
        text = io.StringIO()
        out = csv.writer(text, lineterminator="\n")
        out.writerow(headings[table])
        for row in rows:
            out.writerow([row.get(name_of(heading), "") for heading in headings[table]])
        (book / f"{table}.csv").write_text(text.getvalue(), newline="")


def every_column(program, demo, scratch):
    """One cell of each column of each table in turn; what is amiss, and how many columns there are."""
    book = scratch / "book"
    run(program, "new", book)
    # What few books have, new does not write; the demo has it.
    kept = {table: folder / f"{table}.csv" for table in ROWS for folder in (demo, book) if (folder / f"{table}.csv").exists()}
    headings = {table: next(csv.reader(io.StringIO(file.read_text()))) for table, file in kept.items()}
    faults, count = [], 0
    for table in ROWS:
        for heading in headings[table]:
            count += 1
            tables = {name: [dict(row) for row in rows] for name, rows in ROWS.items()}
            for row in tables[table]:
                row[name_of(heading)] = row.get(name_of(heading), "") + HOSTILE + "\0"
            written(book, tables, headings)
            for words in (["check", book], ["screen", book, *AS_OF], ["explain", book, "S1", *AS_OF]):
                done = run(program, *words)
                found = acting(done.stdout) | acting(done.stderr)
                if found or done.returncode not in (0, 1, 2):
                    faults.append(f"{table}.csv, {heading}: {words[0]} gives {sorted(found)}, status {done.returncode}")
    return faults, count


def made_hostile(demo, book):
    """A copy of the demo with hostile texts in all names and free texts."""
    shutil.copytree(demo, book)
    for path in book.rglob("*.csv"):
        if path.name.startswith("planted"):
            path.unlink()
            continue
        held = path.read_text()
        mark = ";" if ";" in held.splitlines()[0] else ","
        rows = list(csv.reader(io.StringIO(held), delimiter=mark))
        names = [ALIASES.get(heading, name_of(heading)) for heading in rows[0]]
        for row in rows[1:]:
            for i, name in enumerate(names[:len(row)]):
                if name in NAMES and row[i] or name in TEXTS and (row[i] or name in ("note", "reason")):
                    row[i] += HOSTILE
        text = io.StringIO()
        csv.writer(text, delimiter=mark, lineterminator="\n").writerows(rows)
        path.write_text(text.getvalue(), newline="")


def every_command(program, demo, scratch):
    book, out = scratch / "hostile", scratch / "out"
    out.mkdir()
    made_hostile(demo, book)
    batch, sample, calibrator = "TF46B" + HOSTILE, "TF46B-1" + HOSTILE, "ROT-2" + HOSTILE
    commands = [
        ["check", book], ["screen", book, *AS_OF], ["screen", book, *AS_OF, "--out", out / "screen.txt"],
        ["explain", book, sample, *AS_OF], ["custody", book, "--batch", batch, *AS_OF],
        ["compare", book, "--rules", "us-ambient-pm", *AS_OF], ["lookback", book, calibrator, *AS_OF],
        ["lookback", book, "VOL-2" + HOSTILE, *AS_OF], ["screen", book, "--sample", sample + "x"],
        ["history", book, *AS_OF, "--out", out / "history"], ["review", book, *AS_OF, "--out", out / "review.html"],
        ["kit", book, *AS_OF], ["kit", book, "--kit", "K-2" + HOSTILE, *AS_OF],
        ["kit", book, "--kit", "K-2" + HOSTILE, *AS_OF, "--format", "html"],
        ["sheet", book, "--batch", batch, *AS_OF, "--out", out / "sheet.html"],
        ["labels", book, "--batch", batch, *AS_OF, "--of", "both", "--out", out / "labels.html"],
        ["form", book, "--batch", batch, *AS_OF, "--out", out / "form.html"],
        ["letter", book, "--batch", batch, *AS_OF, "--out", out / "letter.html"],
        ["review", book, *AS_OF, "--format", "text"], ["review", book, *AS_OF, "--format", "ics", "--out", out / "review.ics"],
        ["evidence", book, "--batch", batch, *AS_OF, "--out", out / "package"], ["verify", out / "package"],
        ["decide", book, sample, "drift", "uphold", "--by", "keeper", "--reason", "seen"],
        ["decide", book, sample, "none" + HOSTILE, "uphold", "--by", "keeper", "--reason", "seen"],
        ["split", book, "--parts", "2", "--out", out / "parts"],
    ]
    for form in ("json", "sarif"):
        commands.append(["screen", book, *AS_OF, "--format", form])
    for words in (["custody", book, "--batch", batch], ["lookback", book, calibrator]):
        commands.append([*words, *AS_OF, "--format", "html"])
    for words in (["compare", book, "--rules", "us-ambient-pm"], ["lookback", book, calibrator]):
        commands.append([*words, *AS_OF, "--format", "json"])
    faults = []
    for words in commands:
        done = run(program, *words)
        if words[0] in ("split", "evidence", "review") and done.returncode == 2:
            faults.append(f"{words[0]} was refused, and nothing shown of it: {done.stderr.decode(errors='replace')[-300:]}")
        found = acting(done.stdout) | acting(done.stderr)
        if found or done.returncode not in (0, 1, 2):
            faults.append(f"{words[0]} {words[3:]}: {sorted(found)}, status {done.returncode}")
    return faults + every_file(out)


def every_file(out):
    faults = []
    for path in sorted(out.rglob("*")):
        name = str(path.relative_to(out))
        if not path.is_file() or path.suffix in (".csv", ".toml") or name.startswith("parts"):
            continue
        held = path.read_bytes().replace(b"\r\n", b"\n" if path.suffix == ".ics" else b"\r\n")  # its lines end so
        if acting(held):
            faults.append(f"{name}: {sorted(acting(held))}")
        if path.suffix == ".svg":
            try:
                xml.dom.minidom.parseString(path.read_bytes())
            except Exception as failure:  # whatever the parser says, the picture is broken
                faults.append(f"{name}: {failure}")
    return faults


def main(program, demo):
    with tempfile.TemporaryDirectory() as name:
        faults, columns = every_column(program, pathlib.Path(demo), pathlib.Path(name))
        faults += every_command(program, demo, pathlib.Path(name))
    print(f"{columns} columns, {len(faults)} faults")
    print("\n".join(f"FAILED: {fault}" for fault in faults[:40]))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
