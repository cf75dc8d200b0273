# SPDX-License-Identifier: MIT
"""The figures of one sample and every measure that a rule may hold to a limit; definitions as `rules measures` and the
manual give them. A figure that nobody can form is None."""
from oracle_book import mean
from oracle_budget import Budget
from oracle_sets import counting

FIGURES = ("drift", "flow", "volume", "volume_reference")
PRACTICE = {"flow_for_volume": "mean", "drift_base": "pre", "rotameter_correction": "always", "bubble_humidity": "none"}


def nudged(figure, nudge):
    return figure if figure is None or nudge == 0 else figure + nudge


def less(a, b):
    return None if a is None or b is None else a - b


def ratio(a, b):
    return None if a is None or b is None else a / b


def farthest(changes):
    """The largest in size, with its sign."""
    return max((c for c in changes if c is not None), key=abs, default=None)


def largest(figures):
    return max((f for f in figures if f is not None), default=None)


class Sample:
    def __init__(self, row, judge):
        self.row, self.book, self.practice = row, judge.book, judge.practice
        self.calibrators = judge.calibrators
        self.sampler = judge.samplers.get(row.sampler)
        self.overlap = judge.overlap(row)
        self.kind = row.kind or "sample"
        self.sets = judge.sets.leaned_on(row)
        self.pre, self.post = counting(self.sets, row)
        self.nominal = row.nominal if row.nominal is not None else getattr(self.sampler, "nominal", None)
        self.pre_flow = self.pre and self.pre.mean
        self.post_flow = self.post and self.post.mean
        self.temperature, self.temperature_from, self.pressure, self.pressure_from = self.conditions()
        self.take_flows()
        self.budget = Budget(self)
        self.uncertainty = {key: self.budget.uncertainty(lambda s: getattr(s, key)) for key in FIGURES}

    def take_flows(self, between=0, minutes=0, temperature=0, pressure=0):
        """All that follows from the two flows, the times and the conditions; nudged, where the budget asks for it."""
        self.minutes = nudged(self.work_out_minutes(), minutes)
        here = nudged(self.temperature, temperature), nudged(self.pressure, pressure)
        self.drift = self.drift_on(self.practice["drift_base"])
        self.flow = self.flow_of(self.practice["flow_for_volume"], self.pre_flow, self.post_flow)
        self.flow = nudged(self.flow, between)
        self.volume = None if None in (self.flow, self.minutes) else self.flow * self.minutes
        self.volume_reference = self.at_reference(self.volume, *here)

    def work_out_minutes(self):
        if self.row.started is None or self.row.stopped is None:
            return None
        return (self.row.stopped - self.row.started) / 60 - (self.row.paused or 0)

    def conditions(self):
        """The sample's own, else the mean of its two sets', else the pressure of the site's altitude."""
        sets = [s for s in (self.pre, self.post) if s]
        temperature, pressure = self.row.temperature, self.row.pressure
        temperature_from = pressure_from = "sample"
        if temperature is None:
            temperature = mean(s.temperature for s in sets if s.temperature is not None)
            temperature_from = "nowhere" if temperature is None else "sets"
        if pressure is None:
            pressure = mean(s.pressure for s in sets if s.pressure is not None and not s.has_altitude_pressure)
            pressure_from = "sets"
        if pressure is None:
            pressure = self.book.site_kpa
            pressure_from = "nowhere" if pressure is None else "altitude"
        return temperature, temperature_from, pressure, pressure_from

    def base(self, name):
        if name == "mean":
            return mean([self.pre_flow, self.post_flow]) if None not in (self.pre_flow, self.post_flow) else None
        return {"pre": self.pre_flow, "post": self.post_flow, "nominal": self.nominal}[name]

    def drift_on(self, base):
        return ratio(less(self.post_flow, self.pre_flow), self.base(base))

    def flow_of(self, practice, pre, post):
        if practice == "nominal":
            return self.nominal
        if practice == "pre":
            return pre
        if pre is None or post is None:
            return None
        return (pre + post) / 2 if practice == "mean" else min(pre, post, key=lambda q: q.real)

    def at_reference(self, volume, temperature, pressure):
        if None in (volume, temperature, pressure):
            return None
        return volume * (pressure / self.book.reference_kpa) * (self.book.reference_k / temperature)

    # What a rule may ask for: (figure, difference behind it); a word or yes and no stands alone.

    def measure(self, name, base):
        name = name.replace(".", "_").replace("-", "_")
        return getattr(self, "measure_" + name)(base)

    def deviation(self, flow, base):
        """From a base that the rule names, else from the nominal flow."""
        wanted = self.base(base or "nominal")
        change = less(flow, wanted)
        return ratio(change, wanted), change

    def measure_drift(self, base):
        return self.drift_on(base or self.practice["drift_base"]), less(self.post_flow, self.pre_flow)

    def measure_flow(self, _):
        return self.flow, None

    def measure_flow_deviation(self, base):
        return self.deviation(self.flow, base)

    def measure_pre_flow(self, _):
        return self.pre_flow, None

    def measure_post_flow(self, _):
        return self.post_flow, None

    def measure_pre_deviation(self, base):
        return self.deviation(self.pre_flow, base)

    def measure_post_deviation(self, base):
        return self.deviation(self.post_flow, base)

    def measure_pre_count(self, _):
        return len(self.pre.kept) if self.pre else 0, None

    def measure_post_count(self, _):
        return len(self.post.kept) if self.post else 0, None

    def measure_pre_rsd(self, _):
        return (ratio(self.pre.sd, self.pre.mean), self.pre.sd) if self.pre else (None, None)

    def measure_post_rsd(self, _):
        return (ratio(self.post.sd, self.post.mean), self.post.sd) if self.post else (None, None)

    def measure_field_count(self, _):
        return sum(len(s.kept) for s in self.sets if s.stage == "field"), None

    def measure_field_deviation(self, base):
        change = farthest(less(s.mean, self.pre_flow) for s in self.sets if s.stage == "field")
        return ratio(change, self.base(base or "pre")), change

    def measure_minutes(self, _):
        return self.minutes, None

    def measure_paused(self, _):
        return self.row.paused, None

    def measure_volume(self, _):
        return self.volume, None

    def measure_volume_reference(self, _):
        return self.volume_reference, None

    def measure_warm_up(self, _):
        return self.row.warm_up, None

    def measure_pre_age(self, _):
        return (self.row.started - self.pre.last) / 60 if self.pre and self.row.started is not None else None, None

    def measure_post_age(self, _):
        return (self.post.first - self.row.stopped) / 60 if self.post and self.row.stopped is not None else None, None

    def measure_temperature_change(self, _):
        return farthest(less(s.temperature, self.row.temperature) for s in (self.pre, self.post) if s), None

    def measure_pressure_change(self, _):
        change = farthest(less(s.pressure, self.row.pressure) for s in (self.pre, self.post) if s)
        return ratio(change, self.row.pressure), change

    def measure_overlap(self, _):
        return self.overlap, None

    def measure_fault(self, _):
        return self.row.fault, None

    def measure_calibrator_overdue(self, _):
        return largest(self.overdue(s) for s in self.sets), None

    def overdue(self, one_set):
        """Days past the due day, the largest of the set's readings, in minutes."""
        days = []
        for reading in one_set.kept:
            certificate = self.calibrators.of(reading)
            due = certificate and self.calibrators.due(certificate)
            days.append(due and (self.book.day(reading.taken) - due).days * 1440)
        return largest(days)

    def measure_calibrator_range(self, _):
        pairs = [beyond_range(self.book.instrument[r.calibrator], r.reading) for s in self.sets for r in s.kept]
        return largest(p[0] for p in pairs), largest(p[1] for p in pairs)

    def measure_calibrator_same(self, _):
        if not self.pre or not self.post:
            return None, None
        return ("yes" if self.pre.calibrator == self.post.calibrator else "no"), None

    def measure_calibrator_read_at(self, _):
        words = [self.book.instrument[s.calibrator] for s in (self.pre, self.post) if s]
        words = [i.read_at for i in words if i.principle == "rotameter" and i.read_at]
        return ("top" if "top" in words else words[0] if words else None), None

    def measure_certificate_missing(self, _):
        if not self.sets:
            return None, None
        return ("yes" if any(self.calibrators.of(r) is None for s in self.sets for r in s.kept) else "no"), None

    def measure_cut_shift(self, _):
        exponent = getattr(self.sampler, "cut_exponent", None)
        if None in (self.flow, self.nominal, exponent):
            return None, None
        return (self.flow / self.nominal) ** -exponent - 1, None

    def measure_volume_uncertainty(self, _):
        expanded = self.uncertainty["volume"].expanded
        return (None, None) if self.volume is None else (ratio(expanded, self.volume), expanded)

    # Fields that a rule's `where` may ask for.

    def field(self, name):
        if name == "kind":
            return self.kind
        if name == "nominal":
            return self.nominal
        if name == "fraction":
            return getattr(self.sampler, "fraction", None)
        return getattr(self.row, name.replace("-", "_"))

    def set_measure(self, one_set, name):
        flows = one_set.flows or []
        if name == "age":
            if one_set.stage == "field":
                return None, None
            ends = ((self.row.started, one_set.last) if one_set.stage == "pre" else (one_set.first, self.row.stopped))
            return (ends[0] - ends[1]) / 60, None
        if name == "range":
            width = max(flows) - min(flows) if flows else None
            return ratio(width, one_set.mean), width
        if name == "flow.deviation":
            return self.deviation(one_set.mean, None)
        return {"count": (len(one_set.kept), None), "flow": (one_set.mean, None),
                "rsd": (ratio(one_set.sd, one_set.mean), one_set.sd),
                "duration": ((one_set.last - one_set.first) / 60, None)}[name]

    def reading_measure(self, reading, name):
        actual = self.calibrators.actual(reading)
        change = less(actual, reading.reading)
        return {"indicated": (reading.reading, None), "actual": (actual, None),
                "correction": (ratio(change, reading.reading), change),
                "range": beyond_range(self.book.instrument[reading.calibrator], reading.reading),
                "temperature": (reading.temperature, None), "pressure": (self.calibrators.pressure(reading), None),
                "humidity": (reading.humidity, None)}[name]

    def set_field(self, one_set, name):
        return {"stage": one_set.stage, "principle": self.book.instrument[one_set.calibrator].principle,
                "calibrator": one_set.calibrator, "pump": self.row.pump, "sampler": self.row.sampler}[name]


def beyond_range(calibrator, shown):
    """How far outside the range, relative to the nearer end, and as a difference; 0 inside."""
    if calibrator.low is None and calibrator.high is None:
        return None, None
    if calibrator.low is not None and shown < calibrator.low:
        return (calibrator.low - shown) / calibrator.low, calibrator.low - shown
    if calibrator.high is not None and shown > calibrator.high:
        return (shown - calibrator.high) / calibrator.high, shown - calibrator.high
    return 0.0, 0.0
