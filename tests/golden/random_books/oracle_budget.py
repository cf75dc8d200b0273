# SPDX-License-Identifier: MIT
"""Uncertainty of any figure of a sample (docs/uncertainty.md; JCGM 100 5.1.2, G.4, G.6.4). An input is a small nudge to
what was read; how a figure follows it is found by the complex step, so that no sensitivity is written down anywhere:
f'(x) = Im f(x + ih) / h. The inputs are independent; what several sets share is one input that nudges them all."""
import copy
import math
from types import SimpleNamespace

from scipy import stats

from oracle_book import PRESSURE, RATIO, TIME, WIDTH, amount
from oracle_course import strays
from oracle_flow import neighbours

STEP = 1e-30
EXACT = SimpleNamespace(u=0.0, dof=math.inf, effective=math.inf, expanded=0.0)
NOT_STATED = SimpleNamespace(u=None, dof=None, effective=None, expanded=None)


class Input:
    """`nudges`: by set, 'place', 'between' or 'minutes', what one standard uncertainty does there; None: nobody knows."""

    def __init__(self, nudges, dof=math.inf):
        self.nudges, self.dof = {where: part for where, part in nudges.items() if part != {}}, dof
        self.is_known = not any(None in part.values() for part in self.nudges.values())

    def with_size(self):
        """An unknown one counts as 1: only whether a figure leans on it is asked."""
        return {where: {key: (size if self.is_known else 1) * STEP * 1j for key, size in part.items()}
                for where, part in self.nudges.items()}


class Budget:
    """Of the figures of a sample that lean on these sets, each named: pre, post, field0 and so on, this."""

    def __init__(self, sample, sets):
        self.sample, self.book = sample, sample.book
        self.sets = {name: one for name, one in sets.items() if one is not None}
        self.is_defined = not sample.follows_line  # a budget along the line is not worked out a second time here
        self.tolerance = 1e-7
        self.known = self.book.settings.get("uncertainty", {})
        inputs = [*self.repeatability(), *self.certificates(), *self.resolution(), *self.flow_between(),
                  *self.conditions(), *self.clock()]
        self.inputs = [(one, self.nudged(one.with_size())) for one in inputs]

    def half_width(self, key, units, default=None):
        text = self.known.get(key, default)
        return None if text is None else amount(text, units) / math.sqrt(3)

    def repeatability(self):
        for name, one in self.sets.items():
            u, dof = self.repeated(one)
            yield Input({name: {"mean": u}}, dof)

    def repeated(self, one):
        """Of a set's mean; of a single reading how its calibrator scattered in all sets of the book that ended before it."""
        if one.sd is not None:
            return one.sd / math.sqrt(len(one.kept)), len(one.kept) - 1
        before = [s for s in self.sample.sets_of_book
                  if s.calibrator == one.calibrator and s.last < one.first and s.sd is not None]
        dof = sum(len(s.kept) - 1 for s in before)
        if len(one.kept) != 1 or not dof or one.mean is None:
            return None, 1
        squares = math.fsum((len(s.kept) - 1) * (s.sd / s.mean) ** 2 for s in before)
        return math.sqrt(squares / dof) * one.mean, dof

    def certificates(self):
        """A certificate's own uncertainty, what the calibrator moved since, and how far the curve may bow between its
        points. One certificate is one input to all sets read under it."""
        under = lambda one: one.certificate and len(one.certificates) == 1 and id(one.certificate)
        between = lambda one: under(one) and (under(one), *(
            p[0] for p in neighbours(one.certificate.points, one.indicated)))
        yield from self.shared("certificate", under, self.certified)
        yield from self.shared("movement", under, self.moved)
        yield from self.shared("interpolation", between, self.bow)

    def shared(self, name, key, size):
        groups = {}
        for where, one in self.sets.items():
            if one.kept:
                groups.setdefault(key(one) or where, {})[where] = size(one)
        for group in groups.values():
            yield Input({where: {name: u} for where, (u, _) in group.items()}, min(dof for _, dof in group.values()))

    def certified(self, one):
        """Relative to the flow; None where the certificate states none."""
        return self.stated_by(self.worst(one), one.indicated), math.inf

    def stated_by(self, certificate, shown):
        expanded = certificate and certificate.expanded(shown)
        return None if expanded is None else expanded / (certificate.k or 2)

    def worst(self, one):
        """Of a set over midnight into the first day of a new certificate: the one that is known worse."""
        known = {c: self.stated_by(c, one.indicated) for c in one.certificates}
        unknown = [c for c, u in known.items() if u is None]
        return unknown[0] if unknown else max(known, key=known.get)

    def moved(self, one):
        """Not counted where no two certificates tell."""
        return max((self.moved_under(c, one) for c in one.certificates), key=lambda known: known[0])

    def moved_under(self, certificate, one):
        per_day, intervals = one.calibrators.movement(certificate) if certificate else (None, 0)
        return (0, math.inf) if per_day is None else (per_day * (self.book.day(one.last) - certificate.calibrated).days, intervals)

    def bow(self, one):
        certificate = self.worst(one)
        near = neighbours(certificate.points, one.indicated) if certificate else []
        if len(near) < 2:
            return 0, math.inf
        (q1, e1, _), (q2, e2, _) = near
        way = (one.indicated - q1) / (q2 - q1)
        return 4 * way * (1 - way) * abs(e2 - e1) / 2 / math.sqrt(3), math.inf

    def resolution(self):
        for name, one in self.sets.items():
            step = self.book.instrument[one.calibrator].resolution
            if step:
                yield Input({name: {"resolution": step / math.sqrt(12)}})

    def flow_between(self):
        pre, post = self.sample.pre_flow, self.sample.post_flow
        if pre is None or post is None:
            yield Input({"between": {"flow": None, "mean": None}})
        else:
            stated = amount(self.known.get("flow_between", "1 %"), RATIO)
            u, dof = strays(self.sample, [(1, pre, post)], stated, *self.sample.uses)
            one_sided = self.sample.practice["flow_for_volume"] in ("pre", "lower")
            yield Input({"between": {"flow": u * (2 if one_sided else 1), "mean": u}}, dof)
        course = self.sample.course
        if course.mean is not None and pre is not None and post is not None:
            apart = abs(course.mean - (pre + post) / 2)
            yield Input({"between": {"flow": apart, "mean": apart}})

    def conditions(self):
        """A thermometer and a barometer of the bench, another of the work place, and the altitude's pressure."""
        temperature, pressure = self.half_width("temperature", WIDTH), self.half_width("pressure", PRESSURE)
        if temperature:
            yield from self.bench_and_place("temperature", temperature, self.sample.temperature_from)
        if pressure:
            yield from self.bench_and_place("pressure", pressure, self.sample.pressure_from)
        if self.book.site_kpa is not None:
            by_altitude = self.half_width("altitude_pressure", RATIO, "3 %") * self.book.site_kpa
            place = {"pressure": by_altitude} if self.sample.pressure_from == "altitude" else {}
            yield Input({**{name: {"altitude": by_altitude} for name in self.sets}, "place": place})

    def bench_and_place(self, name, u, place_from):
        bench = {where: {name: u} for where in self.sets}
        if place_from == "sets":
            yield Input({**bench, "place": {name: u}})
        else:
            yield Input(bench)
            yield Input({"place": {name: u}} if place_from == "sample" else {})

    def clock(self):
        u = self.half_width("time", TIME, "0.5 min")
        yield Input({"minutes": {"clock": -u}})
        yield Input({"minutes": {"clock": u}})

    def nudged(self, nudges):
        """The sample as it would be with every reading and figure moved so."""
        sample = copy.copy(self.sample)
        for name, one in self.sets.items():
            setattr(sample, name + "_flow", one.mean if one.mean is None else one.mean_nudged(nudges.get(name, {})))
            setattr(sample, name + "_nudge", nudges.get(name, {}))
        sample.take_flows(nudges)
        return sample

    def uncertainty(self, figure):
        """Of a function of the sample. Not stated where a needed input has no size, or where the figure is missing."""
        if figure(self.sample) is None:
            return NOT_STATED
        parts = []
        for one, nudged in self.inputs:
            slope = figure(nudged)
            size = abs(slope.imag / STEP) if isinstance(slope, complex) else 0
            if size < 1e-12:  # what cancels does so to the rounding only
                continue
            if not one.is_known:
                return NOT_STATED
            parts.append((size, one.dof))
        return combined(parts)


def combined(parts):
    u = math.sqrt(math.fsum(c * c for c, _ in parts))
    freedom = math.fsum(c ** 4 / dof for c, dof in parts)
    dof = u ** 4 / freedom if freedom else math.inf
    whole = math.inf if dof > 1e15 else max(1, math.floor(dof * (1 + 1e-9)))  # a whole number is not rounded down
    return SimpleNamespace(u=u, dof=whole, effective=dof, expanded=student(whole).ppf(0.975) * u)


def student(dof):
    return stats.norm if math.isinf(dof) else stats.t(dof)
