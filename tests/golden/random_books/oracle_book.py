# SPDX-License-Identifier: MIT
"""The oracle reads a book: its tables and settings, by docs/book.md alone. Figures come out in L/min, K, kPa, min and
as ratios, moments as seconds since 1970 UTC. Of what is wrong with a book it knows figures and times that nobody can read."""
import csv
import datetime
import math
import pathlib
import re
import struct
import tomllib
import io
import zoneinfo
from types import SimpleNamespace

FLOW = {"l/min": 1, "lpm": 1, "ml/min": 1e-3, "cm3/min": 1e-3, "cc/min": 1e-3, "m3/h": 1000 / 60, "m3/min": 1000,
        "ft3/min": 28.316846592, "cfm": 28.316846592}
PRESSURE = {"kpa": 1, "hpa": 0.1, "pa": 1e-3, "mbar": 0.1, "bar": 100, "mmhg": 101.325 / 760, "torr": 101.325 / 760,
            "inhg": 25.4 * 0.133322387415, "psi": 6.894757293168361, "atm": 101.325}
TIME = {"s": 1 / 60, "min": 1, "h": 60, "d": 1440}
RATIO = {"%": 0.01, "1": 1}
LENGTH = {"m": 1, "km": 1000, "ft": 0.3048}
MASS = {"kg": 1e6, "g": 1000, "mg": 1, "µg": 1e-3, "ug": 1e-3, "ng": 1e-6}
CONCENTRATION = {"mg/m3": 1, "µg/m3": 1e-3}
VOLUME = {"l": 1, "ml": 1e-3, "m3": 1000, "ft3": 28.316846592}
TEMPERATURE = {"°c": lambda t: t + 273.15, "degc": lambda t: t + 273.15, "k": lambda t: t,
               "°f": lambda t: (t - 32) * 5 / 9 + 273.15, "degf": lambda t: (t - 32) * 5 / 9 + 273.15}
WIDTH = {"k": 1, "°c": 1, "°f": 5 / 9}  # of a temperature difference

COLUMNS = {
    "instruments": {"instrument": "text", "kind": "word", "principle": "word", "serial": "text", "low": FLOW, "high": FLOW,
                    "resolution": FLOW, "scale temperature": TEMPERATURE, "scale pressure": PRESSURE, "read at": "word",
                    "interval": TIME},
    "certificates": {"certificate": "text", "instrument": "text", "calibrated": "day", "due": "day", "issuer": "text",
                     "standard": "text", "temperature": TEMPERATURE, "pressure": PRESSURE, "nominal": FLOW,
                     "reference": FLOW, "reference as found": FLOW, "as found": FLOW, "as left": FLOW,
                     "expanded uncertainty": {**FLOW, **RATIO}, "coverage factor": "number", "tolerance": RATIO},
    "samples": {"sample": "text", "batch": "text", "kind": "word", "pump": "text", "sampler": "text", "nominal": FLOW,
                "method": "text", "analysis": "text", "started": "moment", "stopped": "moment", "paused": TIME,
                "warm-up": TIME, "vacuum": PRESSURE, "leak": FLOW, "interruptions": "number", "pressure drop": PRESSURE, "pulsation": RATIO, "temperature": TEMPERATURE, "pressure": PRESSURE,
                "fault": "word"},
    "readings": {"taken": "moment", "stage": "word", "sample": "text", "pump": "text", "calibrator": "text",
                 "reading": FLOW, "temperature": TEMPERATURE, "pressure": PRESSURE, "humidity": RATIO,
                 "replicate": "number", "set": "text", "sampler": "text", "by": "text", "void": "word", "note": "text"},
    "results": {"sample": "text", "analyte": "text", "amount": MASS, "before": MASS, "after": MASS, "limit": MASS,
                "expanded uncertainty": RATIO, "coverage factor": "number", "balance": "text", "kind": "word",
                "batch": "text", "weighed before": "day", "weighed after": "day"},
    "service": {"serviced": "moment", "instrument": "text", "what": "text", "by": "text"},
    "decisions": {"decided": "moment", "by": "text", "subject": "text", "rule": "text", "ruling": "word",
                  "reason": "text"},
}


def fold(name):
    return re.sub(r"[\s_-]", "", name.lower())


def amount(text, units):
    """'2.0 L/min' as a figure in the inside unit."""
    figure, unit = re.fullmatch(r"\s*([-+0-9.eE]+)\s*(.*?)\s*", text).groups()
    factor = units[unit.lower()]
    return factor(float(figure)) if callable(factor) else float(figure) * factor


def zone_of(text):
    """By its name, or by a rule in POSIX form: a zone file without a single change, that ends in this rule (RFC 8536)."""
    if "," not in text:
        return zoneinfo.ZoneInfo(text)
    counts = struct.pack(">6l", 0, 0, 0, 0, 1, 4)
    block = b"TZif2" + bytes(15) + counts + struct.pack(">lbb", 0, 0, 0) + b"UTC\0"
    return zoneinfo.ZoneInfo.from_file(io.BytesIO(block + block + b"\n" + text.encode() + b"\n"))


class Book:
    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.settings = tomllib.loads((self.folder / "book.toml").read_text(encoding="utf-8"))
        self.zone = zone_of(self.settings["time_zone"])
        reference = self.settings.get("reference", {"temperature": "25 °C", "pressure": "101.325 kPa"})
        self.reference_k = amount(reference["temperature"], TEMPERATURE)
        self.reference_kpa = amount(reference["pressure"], PRESSURE)
        self.site_kpa = self.pressure_by_altitude()
        for table in COLUMNS:
            setattr(self, table, self.table(table))
        for place, reading in enumerate(self.readings):
            reading.place = place
        self.instrument = {row.instrument: row for row in self.instruments}
        self.sample = {row.sample: row for row in self.samples}
        self.controls = [row for row in self.results if row.kind == "control"]
        self.results = [row for row in self.results if row.kind != "control"]

    def pressure_by_altitude(self):
        """US Standard Atmosphere 1976, lowest layer."""
        text = self.settings.get("site", {}).get("altitude")
        if text is None:
            return None
        return 101.325 * (1 - 0.0065 * amount(text, LENGTH) / 288.15) ** 5.255876

    def table(self, name):
        single = self.folder / f"{name}.csv"
        files = ([single] if single.is_file() else []) + sorted((self.folder / name).glob("*.csv"))
        files = [file for file in files if file.name != "balances.csv"]  # what stands there: oracle_weighing
        return [row for file in files for row in self.rows(name, file)]

    def rows(self, name, path):
        text = path.read_bytes().decode("utf-8-sig")
        heading = text.split("\n", 1)[0]
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=max(",;\t", key=heading.count))
        columns = [self.column(name, cell) for cell in next(reader)]
        line = reader.line_num + 1
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield self.record(name, columns, cells, f"{path.relative_to(self.folder)}:{line}")
            line = reader.line_num + 1

    def column(self, name, cell):
        """What a heading means: its column, and its unit where it has one."""
        own = self.settings.get("headings", {}).get(name, {})
        cell = {fold(k): v for k, v in own.items()}.get(fold(cell), cell)
        text, unit = re.fullmatch(r"([^\[]*)(?:\[(.*)\])?\s*", cell).groups()
        column = next((c for c in COLUMNS[name] if fold(c) == fold(text)), None)
        return column, unit and unit.strip().lower().replace("³", "3").replace(" ", "")

    def record(self, name, columns, cells, at):
        row = SimpleNamespace(at=at, faults=[], **{c.replace(" ", "_").replace("-", "_"): None for c in COLUMNS[name]})
        if name == "certificates":
            row.uncertainty_is_relative = False
        row.less_than = None
        for (column, unit), cell in zip(columns, cells):
            cell = cell.strip()
            if column is None or cell == "":
                continue
            if column == "amount" and cell.startswith("<"):
                row.less_than = self.value(MASS, unit, cell[1:])
                continue
            if column == "amount" and cell == "nd":
                continue
            try:
                setattr(row, column.replace(" ", "_").replace("-", "_"), self.value(COLUMNS[name][column], unit, cell))
            except (ValueError, AttributeError):
                row.faults.append(column)
            if column == "expanded uncertainty":
                row.uncertainty_is_relative = unit in RATIO
        if name == "readings" and row.void == "yes":  # struck out, it needs no figure
            row.faults = [column for column in row.faults if column not in ("reading", "temperature", "pressure", "humidity")]
        return row

    def value(self, kind, unit, cell):
        if kind == "text":
            return cell
        if kind == "word":
            return cell.lower()
        if kind == "moment":
            return self.moment(cell)
        if kind == "day":
            return datetime.date(*self.date(cell))
        figure = float(cell.replace(",", ".") if self.settings.get("decimal") == "," else cell)
        if kind == "number":
            return figure
        factor = kind[unit]
        return factor(figure) if callable(factor) else figure * factor

    def date(self, text):
        if "/" not in text:
            return tuple(map(int, text.split("-")))
        first, second, year = map(int, text.split("/"))
        return (year, first, second) if self.settings["dates"] == "month first" else (year, second, first)

    def moment(self, text):
        day, hour, minute, second, offset = re.fullmatch(
            r"(\S+?)[T ](\d+):(\d\d)(?::(\d\d))?(Z|[+-]\d\d(?::?\d\d)?)?", text).groups()
        local = datetime.datetime(*self.date(day), int(hour), int(minute), int(second or 0))
        if offset is None:
            return int(local.replace(tzinfo=self.zone).timestamp())
        if offset == "Z":
            offset = "+00:00"
        digits = (offset[1:].replace(":", "") + "00")[:4]
        east = int(offset[0] + "1") * (int(digits[:2]) * 60 + int(digits[2:])) * 60
        return int(local.replace(tzinfo=datetime.timezone.utc).timestamp()) - east

    def day(self, moment):
        return datetime.datetime.fromtimestamp(moment, self.zone).date()


def mean(figures):
    figures = list(figures)
    return sum(figures) / len(figures) if figures else None


def spread(figures):
    """Standard deviation, divisor n - 1."""
    figures = list(figures)
    if len(figures) < 2:
        return None
    middle = math.fsum(figures) / len(figures)
    return math.sqrt(math.fsum((f - middle) ** 2 for f in figures) / (len(figures) - 1))
