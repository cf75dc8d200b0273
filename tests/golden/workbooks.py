# SPDX-License-Identifier: MIT
"""Spoils workbooks in each way there is, and sees that the program says one clear thing of each.

    /usr/bin/python3 workbooks.py PROGRAM SCRATCH

SCRATCH holds the demo book in workbooks, as workbooks_test.sh made it.
"""

import json
import pathlib
import shutil
import subprocess
import sys
import zipfile

program, scratch = sys.argv[1], pathlib.Path(sys.argv[2])
failures = []


def check(book, *more):
    return subprocess.run([program, *more, str(book)], capture_output=True, text=True)


def altered(source, part, change):
    """The bytes of a workbook with one part changed."""
    target = scratch / "altered.zip"
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            new.writestr(name, change(data) if name == part else data)
    return target.read_bytes()


def expect(what, ending, data, wanted):
    """A book whose week 46 is these bytes: status 2 and just one error about that file, with this in it."""
    book = scratch / "spoilt"
    shutil.rmtree(book, ignore_errors=True)
    shutil.copytree(pathlib.Path("docs/demo"), book)
    (book / "readings/2026-W46.csv").unlink()
    (book / f"readings/2026-W46{ending}").write_bytes(data)
    said = check(book, "check")
    about = [line for line in said.stdout.splitlines() + said.stderr.splitlines() if "2026-W46" + ending in line and ": error: " in line]
    if said.returncode != 2 or len(about) != 1 or wanted not in about[0]:
        failures.append(f"{what}: status {said.returncode}, {about or said.stdout[:300] + said.stderr[:300]}")


xlsx = scratch / "openpyxl/readings/2026-W46.xlsx"
ods = scratch / "odf/readings/2026-W46.ods"
sheet = "xl/worksheets/sheet1.xml"
for ending, source, part in ((".xlsx", xlsx, sheet), (".ods", ods, "content.xml")):
    whole = source.read_bytes()
    for share in (0, 0.3, 0.9, 0.999):
        expect(f"cut {ending}", ending, whole[: int(len(whole) * share)], "[workbook/unreadable]")
    bomb = b'<!DOCTYPE a [<!ENTITY b "cccccccc"><!ENTITY d "&b;&b;&b;&b;">]>'
    expect(f"entities {ending}", ending, altered(source, part, lambda data: bomb + data[data.find(b"?>") + 2 if data.startswith(b"<?xml") else 0 :]), "document type")
    expect(f"deep {ending}", ending, altered(source, part, lambda data: b"<a>" * 100000), "too deep")
    expect(f"no XML {ending}", ending, altered(source, part, lambda data: data[:2000]), "[workbook/unreadable]")
    expect(f"no UTF-8 {ending}", ending, altered(source, part, lambda data: data.replace(b"pre", b"pr\xe9", 1)), "[workbook/unreadable]")
expect("a bomb", ".ods", altered(ods, "content.xml", lambda data: data + b" " * (520 << 20)), "[workbook/too-large]")
expect("an .xls", ".xlsx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(4000), "[workbook/encrypted]")
expect("text", ".ods", b"taken,stage\n", "[workbook/unreadable]")
two = scratch / "two.xlsx"
import openpyxl

book = openpyxl.Workbook()
for name in ("a", "b"):
    book.create_sheet(name)["A1"] = 1
book.save(two)
expect("two sheets", ".xlsx", two.read_bytes(), "[workbook/which-sheet]")

# A faulty cell has its place in each output.
book = openpyxl.load_workbook(xlsx)
book.active["E3"] = "#N/A"
book.active["E4"] = "=1+1"
book.save(scratch / "faulty.xlsx")
spoilt = scratch / "faulty"
shutil.copytree(pathlib.Path("docs/demo"), spoilt)
(spoilt / "readings/2026-W46.csv").unlink()
shutil.copy(scratch / "faulty.xlsx", spoilt / "readings/2026-W46.xlsx")
name = book.active.title
column = "ABCDEFGHIJ"[[cell.value for cell in book.active[1]].index(book.active["E1"].value)]
said = check(spoilt, "check")
text = said.stdout + said.stderr
problems = json.loads(check(spoilt, "screen", "--format", "json").stdout)["problems"]
sarif = json.loads(check(spoilt, "screen", "--format", "sarif").stdout)["runs"][0]["results"]
for row, identity in ((3, "workbook/error-cell"), (4, "workbook/not-worked-out")):
    cell = f"{name}!{column}{row}"
    if f"readings/2026-W46.xlsx:{cell}: error: " not in text:
        failures.append(f"{identity}: no place in the text of check")
    if not any(p["id"] == identity and p["file"] == "readings/2026-W46.xlsx" and p["cell"] == cell for p in problems):
        failures.append(f"{identity}: no place in JSON")
    places = [r["locations"][0] for r in sarif if r["ruleId"] == identity]
    if not any(p["physicalLocation"]["artifactLocation"]["uri"] == "readings/2026-W46.xlsx"
               and {"name": cell, "kind": "cell"} in p["logicalLocations"] for p in places):
        failures.append(f"{identity}: no place in SARIF: {places}")

for failure in failures:
    print("FAILED:", failure)
sys.exit(1 if failures else 0)
