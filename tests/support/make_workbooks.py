# SPDX-License-Identifier: MIT
"""Writes the tables of a book as workbooks, by three libraries that have nothing in common.

    /usr/bin/python3 make_workbooks.py LIBRARY FROM TO [--one]

LIBRARY is openpyxl, xlsxwriter or odf. Every CSV file of the book FROM becomes a workbook in TO, with numbers, dates and
times in cells of their type; with --one, the tables that lie in one file become sheets of one book.xlsx or book.ods.
"""

import csv
import datetime
import pathlib
import re
import shutil
import sys

TABLES = ("instruments", "certificates", "samples", "readings", "decisions", "service", "checks", "kits", "issues")


def typed(text):
    """A cell of a CSV file as a spreadsheet would keep it, were it typed there."""
    if re.fullmatch(r"-?(0|[1-9]\d*)(\.\d+)?", text):
        return float(text) if "." in text else int(text)
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        return datetime.date.fromisoformat(text)
    if re.fullmatch(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?", text):
        return datetime.datetime.fromisoformat(text)
    return text


def table_of(file):
    with open(file, encoding="utf-8-sig", newline="") as source:
        text = source.read()
    first = text.split("\n", 1)[0]
    separator = max(",;\t", key=first.count)
    return [[typed(cell) for cell in row] for row in csv.reader(text.splitlines(keepends=True), delimiter=separator)]


def write_openpyxl(path, sheets):
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append([None if cell == "" else cell for cell in row])
    book.save(path)


def write_xlsxwriter(path, sheets):
    import xlsxwriter

    book = xlsxwriter.Workbook(path)
    date = book.add_format({"num_format": "dd/mm/yyyy"})
    moment = book.add_format({"num_format": "dd.mm.yy hh:mm"})
    for name, rows in sheets.items():
        sheet = book.add_worksheet(name)
        for r, row in enumerate(rows):
            for c, cell in enumerate(row):
                if isinstance(cell, datetime.datetime):
                    sheet.write_datetime(r, c, cell, moment)
                elif isinstance(cell, datetime.date):
                    sheet.write_datetime(r, c, cell, date)
                elif isinstance(cell, str):
                    sheet.write_string(r, c, cell)
                else:
                    sheet.write_number(r, c, cell)
    book.close()


def odf_cell(cell):
    from odf.table import TableCell
    from odf.text import P

    if cell == "":
        return TableCell()
    if isinstance(cell, (datetime.date, datetime.datetime)):
        made = TableCell(valuetype="date", datevalue=cell.isoformat())
        made.addElement(P(text=cell.strftime("%d.%m.%y")))
    elif isinstance(cell, str):
        made = TableCell(valuetype="string")
        for line in cell.split("\n"):
            made.addElement(P(text=line))
    else:
        made = TableCell(valuetype="float", value=repr(cell))
        made.addElement(P(text=f"{cell:.1f}"))
    return made


def write_odf(path, sheets):
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow

    book = OpenDocumentSpreadsheet()
    for name, rows in sheets.items():
        table = Table(name=name)
        for row in rows:
            line = TableRow()
            for cell in row:
                line.addElement(odf_cell(cell))
            line.addElement(TableCell(numbercolumnsrepeated=16384 - len(row)))
            table.addElement(line)
        rest = TableRow(numberrowsrepeated=1048576 - len(rows))
        rest.addElement(TableCell(numbercolumnsrepeated=16384))
        table.addElement(rest)
        book.spreadsheet.addElement(table)
    book.save(path)


WRITERS = {"openpyxl": (write_openpyxl, ".xlsx"), "xlsxwriter": (write_xlsxwriter, ".xlsx"), "odf": (write_odf, ".ods")}


def convert(library, source, target, in_one):
    write, ending = WRITERS[library]
    shutil.copytree(source, target, dirs_exist_ok=True)
    together = {}
    for file in sorted(target.rglob("*.csv")):
        table = file.relative_to(target).parts[0].removesuffix(".csv")
        if table not in TABLES:
            continue
        rows = table_of(file)
        file.unlink()
        if in_one and file.parent == target:
            together[table] = rows
        else:
            write(str(file.with_suffix(ending)), {file.stem: rows})
    if together:
        write(str(target / f"book{ending}"), together)


if __name__ == "__main__":
    convert(sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3]), "--one" in sys.argv)
