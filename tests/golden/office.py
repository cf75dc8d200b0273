# SPDX-License-Identifier: MIT
"""Does what check says of an office's records, and compares them with their clean twin.

    /usr/bin/python3 office.py PROGRAM SCRATCH

SCRATCH holds what make_office_book.py wrote: office and twin.
"""

import csv
import io
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys

program, scratch = sys.argv[1], pathlib.Path(sys.argv[2])
office, twin = scratch / "office", scratch / "twin"
day = ("--as-of", "2026-11-20")


def run(*arguments):
    return subprocess.run([program, *map(str, arguments)], capture_output=True, text=True)


def fail(what, shown=""):
    sys.exit(f"FAILED: {what}\n{shown}")


# --- a book made of the files as they lie

made = scratch / "made"
shutil.copytree(office, made)
(made / "book.toml").unlink()
kept = {path: path.read_bytes() for path in made.rglob("*") if path.is_file()}
new = subprocess.run([program, "new", ".", "--from", "instruments.xlsx", "samples.csv", "certificates/flows.csv", "certificates/T-6120.xml",
                      "readings/W45.xlsx", "readings/W46.ods"], capture_output=True, text=True, cwd=made, env={**os.environ, "TZ": "America/Denver"})
if new.returncode != 0 or "its dates fit day first and month first" not in new.stdout:
    fail("no book is made of an office's files", new.stdout + new.stderr)
if any(path.read_bytes() != content for path, content in kept.items()):
    fail("new writes into the owner's files")
with open(made / "book.toml", "r+", encoding="utf-8") as out:
    settings = out.read().replace('[files."certificates/flows.csv"]\n', '[files."certificates/flows.csv"]\ndates = "day first"\n')
    out.seek(0)
    out.write(settings)
if run("check", made).returncode != 0:
    fail("a book made of an office's files has faults", run("check", made).stderr)

# --- before any setting is made

said = run("check", office)
lines = (said.stdout + said.stderr).splitlines()
if len(lines) > 20:
    fail(f"check says {len(lines)} lines", "\n".join(lines))
if said.returncode != 2:
    fail("records that can't be read are none", said.stdout)
for lock in ("~$W45", ".~lock"):
    if any(lock in line for line in lines):
        fail("a lock file is told", "\n".join(lines))

# --- what the lines say is done, word for word

headings, files = {}, {}
for line in lines:
    for table, pairs in re.findall(r'under \[headings\.(\w+)\],? (?:perhaps )?((?:"[^"]+" = "[^"]+"(?:, )?)+)', line):
        headings.setdefault(table, {}).update(re.findall(r'"([^"]+)" = "([^"]+)"', pairs))
    for words, name in re.findall(r'((?:dates|decimal) = "[^"]+")(?: in book\.toml)?, for this file under \[files\."([^"]+)"\]', line):
        files.setdefault(name, set()).add(words)
ambiguous = [line for line in lines if "does not say which number is the month" in line]
if {line.split(":")[0] for line in ambiguous} != {"certificates/flows.csv"}:
    fail("just one file has dates that only the owner knows", "\n".join(ambiguous))
files["certificates/flows.csv"].add('dates = "day first"')
with open(office / "book.toml", "a", encoding="utf-8") as out:
    for table, pairs in headings.items():
        out.write(f"[headings.{table}]\n" + "".join(f'"{theirs}" = "{ours}"\n' for theirs, ours in pairs.items()))
    for name, words in files.items():
        out.write(f'[files."{name}"]\n' + "\n".join(sorted(words)) + "\n")
again = run("check", office)
if again.returncode != 0 or "0 faults" not in again.stdout:
    fail("what check says is done, and faults are left", again.stdout + again.stderr + (office / "book.toml").read_text("utf-8"))

# --- the verdicts are those of the twin


def screened(book):
    result = run("screen", book, *day, "--format", "csv")
    if result.returncode != 1:
        fail(f"screen {book.name} ends with {result.returncode}", result.stderr)
    return list(csv.DictReader(io.StringIO(result.stdout)))


def is_same(one, other):
    try:
        return math.isclose(float(one), float(other), rel_tol=1e-12, abs_tol=1e-12)
    except ValueError:
        return one == other


theirs, clean, of_new = screened(office), screened(twin), screened(made)
if of_new != theirs:
    fail("new has other verdicts than what check says")
if [row["verdict"] for row in clean] != ["valid", "valid", "void", "valid", "void"]:
    fail("the twin is not as it was made", str(clean))
if len(theirs) != len(clean):
    fail("samples are lost")
for one, other in zip(theirs, clean):
    for column, cell in one.items():
        if not is_same(cell, other[column]):
            fail(f"{one['sample']}: {column} is {cell}, of the twin {other[column]}")

# --- a package of them

package = scratch / "package"
packed = run("evidence", office, *day, "--charts", "none", "--out", package)
if packed.returncode != 1:
    fail("no package", packed.stderr)
for name in ("certificates/T-6120.xml", "readings/W45.xlsx", "readings/W46.ods", "samples.csv", "instruments.xlsx"):
    if (package / "data/book" / name).read_bytes() != (office / name).read_bytes():
        fail(f"the package has other bytes of {name}")
verified = run("verify", package)
if verified.returncode != 0:
    fail("the package is not verified", verified.stdout + verified.stderr)
document = package / "data/book/certificates/T-6120.xml"
document.write_bytes(document.read_bytes().replace(b"0.2 10.1", b"0.2 10.2"))
if run("verify", package).returncode != 1:
    fail("an altered document is not told")
