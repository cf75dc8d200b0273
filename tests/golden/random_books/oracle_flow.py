# SPDX-License-Identifier: MIT
"""From what a calibrator showed to the actual flow: certificate in force, then principle. Every figure may be nudged by
a small imaginary amount, so that the budget has its derivatives (complex step: f'(x) = Im f(x + ih) / h, exact)."""
import cmath
import copy
import datetime
import math


class Certificate:
    """All rows of one name."""

    def __init__(self, rows):
        said = lambda name: next((getattr(r, name) for r in rows if getattr(r, name) is not None), None)
        self.name, self.instrument, self.calibrated = rows[0].certificate, rows[0].instrument, rows[0].calibrated
        self.due, self.k, self.tolerance = said("due"), said("coverage_factor"), said("tolerance")
        self.temperature, self.issuer, self.standard = said("temperature"), said("issuer"), said("standard")
        self.rows = joined(rows)
        points = {}
        for row in self.rows:
            shown, reference = (row.as_left, row.reference) if row.as_left is not None else (row.as_found, row.found_reference)
            if shown is not None and not row.is_before_adjustment:
                points.setdefault(shown, []).append((row, (shown - reference) / reference))
        self.points = sorted((shown, sum(e for _, e in group) / len(group), group[0][0])
                             for shown, group in points.items()) if points else []

    def error(self, shown):
        """Relative error at an indication, linear between the points, flat outside them."""
        if not self.points:
            return 0
        return interpolate([(q, e) for q, e, _ in self.points], shown)

    def found_change(self, earlier):
        """Square of the change of the error from as left by an earlier certificate, mean over the points found."""
        found = [r.as_found / r.found_reference - 1 - earlier.error(r.as_found) for r in self.rows
                 if r.as_found is not None]
        return sum(c * c for c in found) / len(found) if found and earlier.points else None

    def states_uncertainty(self):
        return all(relative_uncertainty(row) is not None for row in self.rows)

    def expanded(self, shown):
        """U relative to the reference flow at an indication, or None where a point on either side states none."""
        known = [(q, relative_uncertainty(row)) for q, _, row in self.points]
        near = neighbours(known, shown)
        if not near or any(u is None for _, u in near):
            return None
        return interpolate(near, shown)

    def as_found_u(self):
        """Standard uncertainty of the error at the worst point, from that of its true flow."""
        worst = max((r for r in self.rows if r.as_found is not None), key=lambda r: abs(r.as_found / r.found_reference - 1))
        relative = relative_uncertainty(worst)
        u = None if relative is None else relative * worst.reference / (self.k or 2)
        return None if u is None else u * worst.as_found / worst.found_reference ** 2

    def as_found_error(self):
        """The worst point, with its sign."""
        errors = [(r.as_found - r.found_reference) / r.found_reference for r in self.rows if r.as_found is not None]
        return max(errors, key=abs, default=None)


def joined(rows):
    """Rows of one nominal, one as found only and one as left only, are one point. What was found only, beside rows as left
    only, corrects nothing (docs/book.md, certificates, in two parts)."""
    rows = [copy.copy(row) for row in rows]
    for row in rows:
        row.found_reference = row.reference if row.reference_as_found is None else row.reference_as_found
    is_in_parts = any(row.as_found is None and row.as_left is not None for row in rows)
    kept = []
    for row in rows:
        is_found_only = row.as_found is not None and row.as_left is None
        partner = next((r for r in rows if r.as_left is not None and abs(r.nominal - row.nominal) <= 1e-9 * row.nominal), None)
        row.is_before_adjustment = is_found_only and (partner is not None or is_in_parts)
        if is_found_only and partner is not None and partner.as_found is None:
            partner.as_found, partner.found_reference = row.as_found, row.found_reference
        else:
            kept.append(row)
    return kept


def relative_uncertainty(row):
    if row.expanded_uncertainty is None:
        return None
    return row.expanded_uncertainty if row.uncertainty_is_relative else row.expanded_uncertainty / row.reference


def neighbours(points, x):
    """The points on both sides of x, or the one that x is on or that is nearest."""
    if not points or x is None:
        return []
    at = [p for p in points if p[0] == x]
    below, above = [p for p in points if p[0] < x], [p for p in points if p[0] > x]
    return at or below[-1:] + above[:1]


def interpolate(points, x):
    below = [p for p in points if p[0] <= x.real]
    above = [p for p in points if p[0] > x.real]
    if not below:
        return above[0][1]
    if not above:
        return below[-1][1]
    (q1, e1), (q2, e2) = below[-1], above[0]
    return e1 + (e2 - e1) * (x - q1) / (q2 - q1)


class Calibrators:
    def __init__(self, book, practice):
        self.book, self.practice = book, practice
        by_name = {}
        for row in book.certificates:
            by_name.setdefault(row.certificate, []).append(row)
        self.certificates = [Certificate(rows) for rows in by_name.values()]

    def in_force(self, instrument, day):
        """The newest one calibrated on that day or before; of one day the one further down."""
        mine = [c for c in self.certificates if c.instrument == instrument and c.calibrated <= day]
        return max(enumerate(mine), key=lambda c: (c[1].calibrated, c[0]), default=(0, None))[1]

    def of(self, reading):
        return self.in_force(reading.calibrator, self.book.day(reading.taken))

    def movement(self, certificate):
        """How fast the error moved between certificates, a day, and over how many intervals; None where none tells."""
        mine = sorted((c for c in self.certificates if c.instrument == certificate.instrument),
                      key=lambda c: c.calibrated)
        mine = mine[:mine.index(certificate) + 1]
        changes = [(later.found_change(earlier), (later.calibrated - earlier.calibrated).days)
                   for earlier, later in zip(mine, mine[1:])]
        known = [(change, days) for change, days in changes if change is not None and days > 0]
        if not known:
            return None, 0
        return (sum(c for c, _ in known) / sum(d * d for _, d in known)) ** 0.5, len(known)

    def due(self, certificate):
        interval = self.book.instrument[certificate.instrument].interval
        if certificate.due is not None or interval is None:
            return certificate.due
        return certificate.calibrated + datetime.timedelta(days=int(interval / 1440 + 1e-9))

    def pressure(self, reading):
        return reading.pressure if reading.pressure is not None else self.book.site_kpa

    def actual(self, reading, nudge=None):
        """The corrected flow of a reading, or None where something lacks."""
        certificate = self.of(reading)
        nudge = nudge or {}
        shown = reading.reading
        flow = shown / (1 + certificate.error(shown)) if certificate else shown
        flow *= 1 + nudge.get("certificate", 0) + nudge.get("interpolation", 0) + nudge.get("movement", 0)
        factor = self.factor(reading, certificate, nudge)
        return None if factor is None else flow * factor

    def factor(self, reading, certificate, nudge):
        calibrator = self.book.instrument[reading.calibrator]
        t, p = reading.temperature, self.pressure(reading)
        if calibrator.principle == "bubble":
            nudge = {}  # how moist a bubble's gas is, which temperature and pressure decide, is in no budget
        if t is not None:
            t = t + nudge.get("temperature", 0)
        if p is not None:
            by_altitude = reading.pressure is None
            p = p + nudge.get("altitude" if by_altitude else "pressure", 0)
        scale_t, scale_p = calibrator.scale_temperature, calibrator.scale_pressure
        return getattr(self, calibrator.principle)(t, p, scale_t, scale_p, reading, certificate)

    def volumetric(self, *_):
        return 1

    def rotameter(self, t, p, scale_t, scale_p, *_):
        if self.practice["rotameter_correction"] == "never":
            return 1
        if None in (t, p, scale_t, scale_p):
            return None
        if self.practice["rotameter_correction"] == "beyond 5 %" and not (
                abs(t.real - scale_t) / scale_t > 0.05 or abs(p.real - scale_p) / scale_p > 0.05):
            return 1
        return cmath.sqrt(scale_p / p * t / scale_t) if isinstance(t + p, complex) else (scale_p / p * t / scale_t) ** 0.5

    def mass(self, t, p, scale_t, scale_p, *_):
        return None if None in (t, p, scale_t, scale_p) else scale_p / p * t / scale_t

    def orifice(self, t, p, scale_t, scale_p, reading, certificate):
        if scale_t is None and certificate:
            scale_t = certificate.temperature
        if t is None or scale_t is None:
            return None
        return cmath.sqrt(t / scale_t) if isinstance(t, complex) else (t / scale_t) ** 0.5

    def bubble(self, t, p, scale_t, scale_p, reading, certificate):
        kind = self.practice["bubble_humidity"]
        if kind == "none":
            return 1
        if t is None or p is None or (kind == "ambient" and reading.humidity is None):
            return None
        water = vapour_pressure(t)
        return (p - water) / (p - reading.humidity * water) if kind == "ambient" else (p - water) / p


def vapour_pressure(t):
    """Saturation over water, kPa; Wagner and Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387."""
    u = 1 - t / 647.096
    series = (-7.85951783 * u + 1.84408259 * u ** 1.5 - 11.7866497 * u ** 3 + 22.6807411 * u ** 3.5 - 15.9618719 * u ** 4
              + 1.80122502 * u ** 7.5)
    return 22064 * math.exp(647.096 / t * series)
