# SPDX-License-Identifier: MIT
"""Writes records as an office keeps them, and their clean twin in CSV.

    /usr/bin/python3 make_office_book.py OFFICE TWIN

OFFICE: workbooks of two kinds, a CSV with semicolons and decimal commas below a title, dotted dates, °F and inHg, no-break
blanks, n/a, lock files, and a thermometer's certificate as a digital document. Its book.toml says the time zone and the
rules, and nothing of how the files are kept. TWIN: the same records. All of it is invented: the Lower Ferrow yard.
"""

import csv
import datetime
import pathlib
import shutil
import sys

office, twin = (pathlib.Path(name) for name in sys.argv[1:3])
documents = pathlib.Path(__file__).parent.parent / "book/dcc"
for folder in (office, twin):
    for inside in ("readings", "certificates"):
        (folder / inside).mkdir(parents=True)
    (folder / "book.toml").write_text('title = "Lower Ferrow yard"\ntime_zone = "America/Denver"\n[rules]\npacks = ["common-practice"]\n', "utf-8")

# --- the records

instruments = [
    ("PUMP-1", "pump", "", "4711", ""),
    ("PUMP-2", "pump", "", "0042", ""),
    ("VOL-1", "calibrator", "volumetric", "VOL-1-5335", 365),
    ("THERM-1", "thermometer", "", "T-6120", 365),
]
flows = [("LF-26-12", "VOL-1", "2026-01-05", 1.0, 1.003, 1.002, 0.3), ("LF-26-12", "VOL-1", "2026-01-05", 2.0, 2.004, 2.006, 0.3)]
# sample, pump, day, started, stopped, °C, note
samples = [
    ("YARD-1", "PUMP-1", "2026-11-03", "06:16", "14:16", 20, ""),
    ("YARD-2", "PUMP-2", "2026-11-03", "06:20", "14:10", 20, "gate open"),
    ("YARD-3", "PUMP-1", "2026-11-10", "06:31", "14:31", 20, ""),
    ("YARD-4", "PUMP-2", "2026-11-10", "06:35", "13:55", 20, "short shift"),
    ("YARD-5", "PUMP-1", "2026-11-13", "06:10", "14:12", 20, ""),
]
# sample, time, stage, flow: the flow of YARD-3 falls by more than 5 %, of YARD-5 nobody read it afterwards
sets = [
    ("YARD-1", "2026-11-03T05:58", "pre", 2.004), ("YARD-1", "2026-11-03T14:25", "post", 1.991),
    ("YARD-2", "2026-11-03T06:03", "pre", 2.011), ("YARD-2", "2026-11-03T14:21", "post", 2.001),
    ("YARD-3", "2026-11-10T06:12", "pre", 2.002), ("YARD-3", "2026-11-10T14:40", "post", 1.862),
    ("YARD-4", "2026-11-10T06:18", "pre", 1.998), ("YARD-4", "2026-11-10T14:02", "post", 1.985),
    ("YARD-5", "2026-11-13T06:01", "pre", 2.006),
]
inch_of_mercury = 3.386388640341  # kPa; printed: NIST SP 811 (2008), appendix B.8, conventional, 25.4 times the millimetre
readings = []
for sample, moment, stage, flow in sets:
    for i in range(3):
        taken = datetime.datetime.fromisoformat(moment) + datetime.timedelta(minutes=i)
        readings.append((sample, taken, stage, round(flow + 0.001 * (i - 1), 3), 68 + i, round(24.90 + 0.01 * i, 2)))

# --- the clean twin


def write_csv(path, rows, **how):
    with open(path, "w", encoding="utf-8", newline="") as out:
        csv.writer(out, lineterminator="\n", **how).writerows(rows)


write_csv(twin / "instruments.csv", [("instrument", "kind", "principle", "serial", "interval [d]"), *instruments])
write_csv(twin / "certificates/flows.csv",
          [("certificate", "instrument", "calibrated", "nominal [L/min]", "reference [L/min]", "as left [L/min]", "expanded uncertainty [%]"), *flows])
bath = [(0.01, 0.2), (10.02, 10.1), (20.01, 20.1), (30.00, 30.0)]  # as in the document
write_csv(twin / "certificates/thermometers.csv",
          [("certificate", "instrument", "calibrated", "issuer", "temperature [°C]", "nominal [°C]", "reference [°C]", "as found [°C]", "expanded uncertainty [K]", "coverage factor"),
           *(("LF-T-2026-031", "THERM-1", "2026-02-03", "Lower Ferrow flow laboratory", 21.5, true, true, shown, 0.05, 2) for true, shown in bath)])
write_csv(twin / "samples.csv",
          [("sample", "pump", "nominal [L/min]", "started", "stopped", "temperature [°C]", "pressure [kPa]", "note"),
           *((name, pump, 2, f"{day}T{start}", f"{day}T{stop}", warmth, repr(24.9 * inch_of_mercury), note) for name, pump, day, start, stop, warmth, note in samples)])
write_csv(twin / "readings/all.csv",
          [("taken", "stage", "sample", "calibrator", "reading [L/min]", "temperature [°C]", "pressure [kPa]"),
           *((taken.isoformat("T", "minutes"), stage, sample, "VOL-1", flow, repr((warmth - 32) * 5 / 9), repr(height * inch_of_mercury)) for sample, taken, stage, flow, warmth, height in readings)])

# --- as the office keeps them


def write_instruments():
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Equipment"
    sheet.append(["Equipment of the yard"])
    sheet.append([])
    sheet.append(["Instrument", "Kind", "Principle", "Serial", "Interval (d)"])
    for name, kind, principle, serial, interval in instruments:
        sheet.append([name, kind, principle or None, int(serial) if serial.isdigit() else serial, interval or None])
        if serial.isdigit():
            sheet.cell(sheet.max_row, 4).number_format = "0000"
    book.save(office / "instruments.xlsx")


def write_week_45(rows):
    import xlsxwriter

    book = xlsxwriter.Workbook(office / "readings/W45.xlsx")
    sheet = book.add_worksheet("week 45")
    book.add_worksheet("notes")
    day = book.add_format({"num_format": "dd/mm/yyyy"})
    clock = book.add_format({"num_format": "h:mm"})
    sheet.write(0, 0, "Bench readings, week 45")
    for c, heading in enumerate(("Date", "Time", "Stage", "Sample", "Calibrator", "Flow (L/min)", "Bench temperature (°F)", "Pressure (inHg)")):
        sheet.write(1, c, heading)
    for r, (sample, taken, stage, flow, warmth, height) in enumerate(rows, 2):
        sheet.write_datetime(r, 0, taken.replace(hour=0, minute=0), day)
        sheet.write_datetime(r, 1, taken.time(), clock)
        for c, cell in enumerate((stage, sample, "VOL-1", flow, warmth, height), 2):
            sheet.write(r, c, cell)
    book.close()


def write_week_46(rows):
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    book = OpenDocumentSpreadsheet()
    table = Table(name="week 46")
    headings = ("Date", "Time", "Stage", "Sample", "Calibrator", "Flow, L/min", "Bench temperature, °F", "Pressure, inHg")
    for row in (headings, *((f"{taken.day}.{taken.month}.{taken.year}", f"{taken.hour}:{taken.minute:02}", stage, sample, "VOL-1", flow, warmth, height)
                            for sample, taken, stage, flow, warmth, height in rows)):
        line = TableRow()
        for cell in row:
            made = TableCell(valuetype="float", value=repr(cell)) if isinstance(cell, (int, float)) else TableCell(valuetype="string")
            made.addElement(P(text=str(cell)))
            line.addElement(made)
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(office / "readings/W46.ods")


def comma(number):
    return str(number).replace(".", ",")


def dotted(day):
    year, month, day_of_month = day.split("-")
    return f"{int(day_of_month)}.{int(month)}.{year}"


write_instruments()
write_week_45([row for row in readings if row[1] < datetime.datetime(2026, 11, 9)])
write_week_46([row for row in readings if row[1] >= datetime.datetime(2026, 11, 9)])
write_csv(office / "samples.csv",
          [("Samples of the yard, November",), (),
           ("Sample", "Pump", "Nominal (L/min)", "Day", "On", "Off", "Temperature (°C)", "Pressure (inHg)", "Remarks"),
           *((name.replace("-", "-"), pump, "2,0", dotted(day), start.lstrip("0"), stop, f"\u00a0{warmth}", comma(24.9), note or "n/a")
             for name, pump, day, start, stop, warmth, note in samples)], delimiter=";")
write_csv(office / "certificates/flows.csv",
          [("certificate", "instrument", "calibrated", "nominal [L/min]", "reference [L/min]", "as left [L/min]", "expanded uncertainty [%]"),
           *((name, who, dotted(day), *map(comma, figures)) for name, who, day, *figures in flows)], delimiter=";")
shutil.copy(documents / "thermometer.xml", office / "certificates/T-6120.xml")
(office / "readings/~$W45.xlsx").write_bytes(b"\x05owner" + bytes(150))
(office / "readings/.~lock.W46.ods#").write_text(",site hygienist,bench,13.11.2026 14:02,file:///;", "utf-8")
