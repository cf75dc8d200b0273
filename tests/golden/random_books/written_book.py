# SPDX-License-Identifier: MIT
"""Writes a planned book to files, each time in another dress: units, headings, decimal sign, dates, separators, order of
columns and rows, one file or several."""
import csv
import datetime
import io

from planned_book import LessThan, Unreadable
from planned_rules import judged_by, own_pack

FLOW = {"L/min": 1, "mL/min": 1000, "cc/min": 1000, "m3/h": 0.06, "LPM": 1, "CFM": 1 / 28.316846592, "m³ / h": 0.06}
PRESSURE = {"kPa": 1, "hPa": 10, "mbar": 10, "mmHg": 760 / 101.325, "inHg": 1 / 3.386388640341, "psi": 1 / 6.894757293168361,
            "Pa": 1000, "atm": 1 / 101.325}
TIME = {"min": 1, "h": 1 / 60, "s": 60, "d": 1 / 1440}
TEMPERATURE = {"°C": lambda t: t, "degF": lambda t: t * 9 / 5 + 32, "K": lambda t: t + 273.15, "°F": lambda t: t * 9 / 5 + 32}
RATIO = {"%": 100, "1": 1}
MASS = {"mg": 1, "µg": 1000, "ug": 1000, "g": 1e-3, "ng": 1e6}
UNITS = {"low": FLOW, "high": FLOW, "resolution": FLOW, "reading": FLOW, "nominal": FLOW, "reference": FLOW, "as found": FLOW,
         "as left": FLOW, "reference as found": FLOW, "scale temperature": TEMPERATURE, "temperature": TEMPERATURE, "scale pressure": PRESSURE,
         "pressure": PRESSURE, "interval": TIME, "paused": TIME, "warm-up": TIME, "vacuum": PRESSURE, "leak": FLOW, "pressure drop": PRESSURE, "pulsation": RATIO, "humidity": {"%": 100},
         "tolerance": RATIO, "expanded uncertainty": RATIO, "amount": MASS, "before": MASS, "after": MASS, "limit": MASS}
DAYS = ("calibrated", "due", "weighed before", "weighed after")
MOMENTS = ("started", "stopped", "taken", "decided", "serviced")


class Writer:
    def __init__(self, random, plan, folder):
        self.random, self.plan, self.folder = random, plan, folder
        self.decimal = random.choice((".", ","))
        self.dates = random.choice((None, "month first", "day first"))
        self.own_headings = {}
        folder.mkdir(parents=True)
        for table in ("instruments", "certificates", "samples", "readings", "service", "results"):
            self.write_table(table, getattr(plan, "services" if table == "service" else table))
        self.write_balances()
        self.write_settings()

    def write_balances(self):
        """Their certificates, in a file of their own: its figures are masses."""
        if not self.plan.balances:
            return
        (self.folder / "certificates").mkdir(exist_ok=True)
        separator, lines = (";" if self.decimal == "," else ","), []
        for row in self.plan.balances:
            lines.append(separator.join("" if v is None else v if isinstance(v, str) else v.isoformat() if isinstance(v, datetime.date)
                                        else f"{v:.10g}".replace(".", self.decimal) for v in row.values()))
        heading = separator.join(f"{c} [mg]" if c in ("nominal", "reference", "as left", "expanded uncertainty") else c
                                 for c in self.plan.balances[0])
        (self.folder / "certificates" / "balances.csv").write_text("\n".join([heading, *lines]) + "\n", encoding="utf-8")

    def write_table(self, name, rows):
        columns = list(dict.fromkeys(key for row in rows for key in row))
        if not columns:
            return
        self.random.shuffle(columns)
        parts = self.random.choice((1, 1, 2)) if len(rows) > 4 else 1
        if parts == 1:
            return self.write_file(self.folder / f"{name}.csv", name, columns, rows)
        (self.folder / name).mkdir()
        cut = len(rows) // 2
        for part, some in (("week 1", rows[:cut]), ("week 2", rows[cut:])):
            self.write_file(self.folder / name / f"{part}.csv", name, columns, some)

    def write_file(self, path, name, columns, rows):
        units = {c: self.random.choice(list(UNITS[c])) for c in columns if c in UNITS}
        separator = self.random.choice(";\t" if self.decimal == "," else ",;\t")
        text = io.StringIO()
        table = csv.writer(text, delimiter=separator, lineterminator=self.random.choice(("\n", "\r\n")))
        table.writerow([self.heading(name, c, units.get(c)) for c in columns])
        for row in rows:
            table.writerow([self.cell(c, row.get(c), units.get(c)) for c in columns])
            if self.random.random() < 0.02:
                text.write("\n")
        mark = "\ufeff" if self.random.random() < 0.2 else ""
        path.write_bytes((mark + text.getvalue()).encode("utf-8"))

    def heading(self, table, column, unit):
        dressed = self.random.choice((column, column.upper(), column.replace(" ", "_"), column.title(), column.replace("-", " ")))
        full = f"{dressed} [{unit}]" if unit else dressed
        if table == "decisions" or self.random.random() > 0.1:  # decisions come after book.toml
            return full
        own = f"Sheet {column}"
        known = self.own_headings.setdefault(table, {})
        return own if known.setdefault(own, full) == full else full

    def cell(self, column, value, unit):
        if value is None:
            return ""
        if isinstance(value, Unreadable):
            return str(value)
        if column in MOMENTS:
            return self.moment(value)
        if column in DAYS:
            return self.day(value)
        if unit is not None:
            factor = UNITS[column][unit]
            sign = "<" if isinstance(value, LessThan) else ""
            value = factor(value) if callable(factor) else value * factor
            return sign + f"{value:.10g}".replace(".", self.decimal)
        if isinstance(value, (int, float)):
            return f"{value:.10g}".replace(".", self.decimal)
        return self.random.choice((value, value.upper())) if column in ("stage", "void", "kind", "fault") else value

    def day(self, day):
        if self.dates is None or self.random.random() < 0.3:
            return day.isoformat()
        order = (day.month, day.day) if self.dates == "month first" else (day.day, day.month)
        return f"{order[0]}/{order[1]}/{day.year}"

    def moment(self, seconds):
        """With its offset where the clock showed this time twice, and now and then where it need not be."""
        local = datetime.datetime.fromtimestamp(seconds, self.plan.zone)
        is_twice = local.utcoffset() != local.replace(fold=1 - local.fold).utcoffset()
        text = self.day(local.date()) + self.random.choice("T ") + f"{local:%H:%M:%S}"
        if local.second == 0 and self.random.random() < 0.8:
            text = text[:-3]
        if is_twice or self.random.random() < 0.1:
            text += self.offset(local.utcoffset())
        return text

    def offset(self, east):
        minutes = int(east.total_seconds() // 60)
        sign = "-" if minutes < 0 else "+"
        return f"{sign}{abs(minutes) // 60:02}:{abs(minutes) % 60:02}"

    def uncertainties(self):
        """How well the book knows its figures, as far as it says."""
        widths = {"temperature": ("0.5 °C", "1 K", "1.8 °F"), "pressure": ("0.3 kPa", "2 hPa"), "time": ("0.5 min", "20 s"),
                  "altitude_pressure": ("3 %", "2 %"), "flow_between": ("1 %", "0.5 %")}
        return ["[uncertainty]", *(f'{key} = "{self.random.choice(words)}"' for key, words in widths.items()
                                   if self.random.random() < 0.6)]

    def write_settings(self):
        pack, chosen = own_pack(self.random)
        (self.folder / "own.toml").write_text(pack, encoding="utf-8")
        zone = self.plan.zone_rule if self.plan.zone_rule and self.random.random() < 0.5 else self.plan.zone_name
        lines = ['title = "A random book (invented)"', f'time_zone = "{zone}"', f'decimal = "{self.decimal}"']
        if self.dates:
            lines.append(f'dates = "{self.dates}"')
        if self.random.random() < 0.5:
            lines += ["[reference]", 'temperature = "20 °C"', 'pressure = "1013 hPa"']
        if self.plan.altitude:
            lines += ["[site]", f'altitude = "{self.plan.altitude}"']
        lines += self.uncertainties()
        if self.random.random() < 0.4:
            lines += ["[decision]", f"guard = {self.random.choice((0.5, 0.83, 1.0, 1.5))}"]
        for table, known in self.own_headings.items():
            lines += [f"[headings.{table}]", *(f'"{own}" = "{ours}"' for own, ours in known.items())]
        (self.folder / "book.toml").write_text("\n".join(lines) + "\n" + judged_by(self.random, chosen, "[decision]" in lines), encoding="utf-8")
