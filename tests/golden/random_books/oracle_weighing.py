# SPDX-License-Identifier: MIT
"""The weighing room, worked out by docs/results.md alone: the balance's certificates on the days of the two weights."""
import csv
import datetime
import math


def figure(cell):
    return float(cell.replace(",", ".")) if cell else None


def certificates_of(book):
    """By name: day, day due, coverage factor and [reference, U] of the points, in the order of the days."""
    path, found = book.folder / "certificates" / "balances.csv", {}
    if not path.is_file():
        return []
    text = path.read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines(), delimiter=max(",;", key=text.split("\n", 1)[0].count)):
        day, due = (datetime.date.fromisoformat(row[c]) if row[c] else None for c in ("calibrated", "due"))
        one = found.setdefault(row["certificate"], [day, due, figure(row["coverage factor"]) or 2, []])
        one[3].append((figure(row["reference [mg]"]), figure(row["expanded uncertainty [mg]"])))
    return sorted(found.values(), key=lambda one: one[0])


def u_of(certificate, weight):
    """Between the points along a straight line, beyond them as at the nearest."""
    _, _, k, points = certificate
    points = sorted(points)
    low = max((p for p in points if p[0] <= weight), default=points[0])
    high = min((p for p in points if p[0] >= weight), default=points[-1])
    if low[1] is None or high[1] is None:
        return None
    share = 0 if high[0] <= low[0] else (weight - low[0]) / (high[0] - low[0])
    return (low[1] + share * (high[1] - low[1])) / k


class Weighing:
    def __init__(self, book, row):
        self.is_known = row.balance in book.instrument and row.before is not None
        after = row.weighed_after if self.is_known else None
        before = (row.weighed_before or after) if self.is_known else None
        self.has_days = after is not None and before is not None
        self.in_force = [self.on(book, day) for day in (before, after)] if self.has_days else []
        self.lacks = None in self.in_force
        self.u, self.overdue = None, None
        if self.has_days:
            us = [c and u_of(c, w) for c, w in zip(self.in_force, (row.before, row.after))]
            self.u = None if None in us else math.hypot(*us)
            late = [(day - due).days for c, day in zip(self.in_force, (before, after)) if c and (due := self.due(book, row, c))]
            self.overdue = max(late) if late else None

    @staticmethod
    def on(book, day):
        return max((c for c in certificates_of(book) if c[0] <= day), key=lambda c: c[0], default=None)

    @staticmethod
    def due(book, row, certificate):
        interval = book.instrument[row.balance].interval
        return certificate[1] or (interval and certificate[0] + datetime.timedelta(minutes=interval))


def gained(row):
    """Without what binary figures leave behind the twelfth decimal: equal gains are equal, and scatter by nothing."""
    return round(row.after - row.before, 12)


def controls_of(book, row):
    """Changes of the control filters weighed with the batch of a row's sample."""
    batch = book.sample[row.sample].batch
    return [gained(c) for c in book.controls
            if row.before is not None and batch is not None and c.batch == batch and c.analyte == row.analyte]
