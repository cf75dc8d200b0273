# SPDX-License-Identifier: MIT
"""The figures of one sample and every measure that a rule may hold to a limit; definitions as `rules measures` and the
manual give them. A figure that nobody can form is None."""
import math
from types import SimpleNamespace

from oracle_book import PRESSURE, RATIO, WIDTH, mean
from oracle_course import Course, drift_of_uses
from oracle_budget import EXACT, NOT_STATED, Budget, combined
from oracle_sets import counting

# What a budget is about; of a volume that is formed by convention, what was measured.
FIGURES = {"drift": "drift", "flow": "measured_flow", "volume": "measured_volume", "volume_reference": "measured_reference"}
PRACTICE = {"flow_for_volume": "mean", "drift_base": "pre", "rotameter_correction": "always", "bubble_humidity": "none",
            "field_sets": "ends", "blank_correction": "none", "control_correction": "none", "concentration_volume": "actual"}


def nudged(figure, nudge):
    return figure if figure is None or nudge == 0 else figure + nudge


def times(a, b):
    return None if a is None or b is None else a * b


def less(a, b):
    return None if a is None or b is None else a - b


def ratio(a, b):
    return None if a is None or b is None else a / b


def farthest(changes):
    """The largest in size, with its sign."""
    return max((c for c in changes if c is not None), key=abs, default=None)


def yes_no(is_so):
    return "yes" if is_so else "no"


def all_so(answers):
    """None where there is nothing to ask."""
    answers = [bool(a) for a in answers]
    return yes_no(all(answers)) if answers else None


def largest(figures):
    return max((f for f in figures if f is not None), default=None)


class FaultySample:
    """One that leans on a record that nobody can read: undecided for that, and held to nothing else."""
    is_faulty = True

    def __init__(self, row, judge):
        self.row, self.kind, self.sets = row, row.kind or "sample", []
        self.drift = self.by_decision = None
        self.verdict = "undecided"
        pre, _ = counting(judge.sets.leaned_on(row), row)
        self.pre_flow = pre and pre.mean  # a sound set's own figure stays
        self.judgements = self.findings = [SimpleNamespace(
            rule="book/faulty-records", of="sample", outcome="undecided", measure=None, value=None, unit=None, margin=None,
            probability=None, figure=None, decision=None)]


class Sample:
    is_faulty = False

    def __init__(self, row, judge):
        self.row, self.book, self.practice = row, judge.book, judge.practice
        self.calibrators = judge.calibrators
        self.sampler = judge.samplers.get(row.sampler)
        self.is_conventional = self.practice["flow_for_volume"] == "nominal"
        self.overlap = judge.overlap(row)
        self.kind = row.kind or "sample"
        self.sets = judge.sets.leaned_on(row)
        self.sets_of_book = judge.sets.readable
        self.pre, self.post = counting(self.sets, row)
        self.nominal = row.nominal if row.nominal is not None else getattr(self.sampler, "nominal", None)
        self.pre_flow = self.pre and self.pre.mean
        self.post_flow = self.post and self.post.mean
        self.temperature, self.temperature_from, self.pressure, self.pressure_from = self.conditions()
        self.course = Course(self)
        self.follows_line = self.practice["field_sets"] == "line" and bool(self.course.stops)
        self.uses = drift_of_uses(self, self.book, judge.sets_of_use) if self.post else (0, None)
        self.take_flows({})
        self.budget = Budget(self, {"pre": self.pre, "post": self.post, **self.field_sets()})
        self.uncertainty = {key: self.budget.uncertainty(lambda s: getattr(s, figure)) for key, figure in FIGURES.items()}

    def take_flows(self, nudges):
        """All that follows from the two flows, the times and the conditions; nudged, where the budget asks for it."""
        self.place_nudge = place = nudges.get("place", {})
        self.minutes = nudged(self.work_out_minutes(), nudges.get("minutes", {}).get("clock", 0))
        here = nudged(self.temperature, place.get("temperature", 0)), nudged(self.pressure, place.get("pressure", 0))
        self.drift = self.drift_on(self.practice["drift_base"])
        between = nudges.get("between", {})
        self.mean_flow = nudged(self.flow_of("mean", self.pre_flow, self.post_flow), between.get("mean", 0))
        self.flow = self.flow_of(self.practice["flow_for_volume"], self.pre_flow, self.post_flow)
        if self.follows_line:
            self.mean_flow = self.flow = self.course.mean
        self.flow = self.flow if self.is_conventional else nudged(self.flow, between.get("flow", 0))
        self.volume = times(self.flow, self.minutes)
        self.volume_reference = self.at_reference(self.volume, *here)
        self.measured_flow = self.mean_flow if self.is_conventional else self.flow
        self.measured_volume = times(self.measured_flow, self.minutes)
        self.measured_reference = self.at_reference(self.measured_volume, *here)

    def field_sets(self):
        return {f"field{n}": s for n, s in enumerate(self.sets) if s.stage == "field" and s.mean is not None}

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

    pre_nudge = post_nudge = {}

    def measure(self, name, base):
        name = name.replace(".", "_").replace("-", "_")
        return getattr(self, "measure_" + name)(base)

    def value(self, rule, one_set, reading):
        if rule.of == "sample":
            return self.measure(rule.measure, rule.base)
        return self.set_measure(one_set, rule.measure) if rule.of == "set" else self.reading_measure(reading, rule.measure)

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
        return self.deviation(self.mean_flow, base)

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
        return self.from_flow(self.base(base or "pre"))

    def measure_field_nominal_deviation(self, _):
        return self.from_flow(self.nominal)

    def from_flow(self, start):
        sets = self.field_sets()
        if start is None or not sets:
            return None, None
        chosen = max(sets, key=lambda name: abs(sets[name].mean - start.real))
        change = getattr(self, chosen + "_flow", sets[chosen].mean) - start
        return ratio(change, start), change

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

    def measure_vacuum(self, _):
        return self.row.vacuum, None

    def measure_leak(self, _):
        return self.row.leak, None

    def measure_interruptions(self, _):
        return self.row.interruptions, None

    def measure_pressure_drop(self, _):
        return self.row.pressure_drop, None

    def measure_pulsation(self, _):
        return self.row.pulsation, None

    def measure_pre_age(self, _):
        return (self.row.started - self.pre.last) / 60 if self.pre and self.row.started is not None else None, None

    def measure_post_age(self, _):
        return (self.post.first - self.row.stopped) / 60 if self.post and self.row.stopped is not None else None, None

    def measure_temperature_change(self, _):
        return self.change("temperature", "temperature"), None

    def measure_pressure_change(self, _):
        change = self.change("pressure", "altitude")
        return ratio(change, nudged(self.row.pressure, self.place_nudge.get("pressure", 0))), change

    def change(self, name, other):
        """Of a condition from the sample's own to the set's that is farthest from it."""
        own = nudged(getattr(self.row, name), self.place_nudge.get(name, 0))
        changes = []
        for one, nudge in ((self.pre, self.pre_nudge), (self.post, self.post_nudge)):
            if one:
                share = one.altitude_share if name == "pressure" else 0
                moved = (1 - share) * nudge.get(name, 0) + share * nudge.get(other, 0)
                changes.append(less(nudged(getattr(one, name), moved), own))
        return farthest(changes)

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
        if None in (self.mean_flow, self.nominal, exponent):
            return None, None
        return (self.mean_flow / self.nominal) ** -exponent - 1, None

    def measure_volume_uncertainty(self, _):
        expanded = self.uncertainty["volume"].expanded
        return ratio(expanded, self.measured_volume), expanded

    # Whether something is written down.

    def measure_record_pump_serial(self, _):
        return None if self.row.pump is None else yes_no(self.book.instrument[self.row.pump].serial), None

    def measure_record_by(self, _):
        return all_so(r.by for r in self.kept_readings()), None

    def measure_record_conditions(self, _):
        return all_so(r.temperature is not None and r.pressure is not None for r in self.kept_readings()), None

    def measure_record_sampling_conditions(self, _):
        return yes_no(self.row.temperature is not None and self.row.pressure is not None), None

    def measure_record_calibrator_serial(self, _):
        return all_so(self.book.instrument[s.calibrator].serial for s in self.sets), None

    def measure_record_certificate_uncertainty(self, _):
        return all_so(c.states_uncertainty() for c in self.certificates()), None

    def measure_record_certificate_issuer(self, _):
        return all_so(c.issuer for c in self.certificates()), None

    def measure_record_certificate_standard(self, _):
        return all_so(c.standard for c in self.certificates()), None

    def measure_record_chain(self, _):
        """No certificate of these books leans on another of theirs."""
        return all_so(s.certificate and s.certificate.standard and s.certificate.issuer and s.certificate.states_uncertainty()
                      for s in self.sets), None

    def measure_record_void_reasons(self, _):
        return all_so(r.note for s in self.sets for r in s.readings if r.void == "yes"), None

    def measure_record_method(self, _):
        return yes_no(self.row.method), None

    def measure_record_fault(self, _):
        return yes_no(self.row.fault), None

    def kept_readings(self):
        return [r for s in self.sets for r in s.kept]

    def certificates(self):
        """Those that any reading leans on, struck out or not."""
        used = [self.calibrators.of(r) for s in self.sets for r in s.readings]
        return [c for c in used if c]

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
        if name in ("flow", "flow.deviation"):
            return self.flow_of_set(name, one_set.mean)
        return {"count": (len(one_set.kept), None), "rsd": (ratio(one_set.sd, one_set.mean), one_set.sd),
                "duration": ((one_set.last - one_set.first) / 60, None)}[name]

    def flow_of_set(self, name, flow):
        return (flow, None) if name == "flow" else self.deviation(flow, None)

    # How well a measure is known that a limit is held to.

    def known(self, rule, one_set, reading):
        place = 1 if rule.is_absolute else 0
        if self.is_conventional and rule.of == "sample" and rule.measure in ("flow", "volume", "volume.reference"):
            return EXACT
        if rule.of == "sample":
            if not self.conditions_are_known(rule.measure):
                return NOT_STATED
            return self.budget.uncertainty(lambda s: s.measure(rule.measure, rule.base)[place])
        if rule.of == "set":
            budget = Budget(self, {"this": one_set})
            return budget.uncertainty(lambda s: s.flow_of_set(rule.measure, getattr(s, "this_flow", one_set.mean))[place])
        return self.known_condition(rule.measure, reading)

    def conditions_are_known(self, measure):
        """A change of conditions is known as far as the book gives half-widths of both."""
        if measure not in ("temperature.change", "pressure.change"):
            return True
        known = self.book.settings.get("uncertainty", {})
        return measure.split(".")[0] in known

    def known_condition(self, measure, reading):
        units = {"temperature": WIDTH, "pressure": PRESSURE}[measure]
        u = self.budget.half_width(measure, units)
        if measure == "pressure" and reading.pressure is None:
            u = self.budget.half_width("altitude_pressure", RATIO, "3 %") * self.book.site_kpa
        return NOT_STATED if u is None else combined([(u, math.inf)])

    def reading_measure(self, reading, name):
        actual = self.calibrators.actual(reading)
        change = less(actual, reading.reading)
        return {"indicated": (reading.reading, None), "actual": (actual, None),
                "correction": (ratio(change, reading.reading), change),
                "range": beyond_range(self.book.instrument[reading.calibrator], reading.reading),
                "temperature": (reading.temperature, None), "pressure": (self.calibrators.pressure(reading), None),
                "humidity": (reading.humidity, None)}[name]

    def reading_field(self, one_set, reading, name):
        own = {"by": reading.by, "sampler": reading.sampler or self.row.sampler}
        return own[name] if name in own else self.set_field(one_set, name)

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
