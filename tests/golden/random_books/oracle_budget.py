# SPDX-License-Identifier: MIT
"""Uncertainty of any figure of a sample (docs/uncertainty.md; JCGM 100 5.1.2, G.4, G.6.4). An input is a small nudge to
what was read; how a figure follows it is found by the complex step, so that no sensitivity is written down anywhere:
f'(x) = Im f(x + ih) / h. The inputs are independent; what pre and post share is one input that nudges both."""
import copy
import math
from types import SimpleNamespace

from scipy import stats

from oracle_book import PRESSURE, RATIO, TIME, WIDTH, amount
from oracle_flow import neighbours

STEP = 1e-30
NOT_STATED = SimpleNamespace(u=None, dof=None, expanded=None)


class Input:
    """`nudges`: by stage, 'minutes' or 'sampling', what one standard uncertainty does there."""

    def __init__(self, nudges, dof=math.inf):
        self.nudges, self.dof = nudges, dof


class Budget:
    def __init__(self, sample):
        self.sample, self.book = sample, sample.book
        self.stages = {"pre": sample.pre, "post": sample.post}
        # The manual does not say how a pressure by altitude acts that only some readings of a set lean on.
        self.is_defined = not any(one and one.has_both_pressures for one in self.stages.values())
        self.known = self.book.settings.get("uncertainty", {})
        self.inputs = [*self.repeatability(), *self.certificates(), *self.resolution(), *self.flow_between(),
                       *self.conditions(), *self.clock()]

    def half_width(self, key, units, default=None):
        text = self.known.get(key, default)
        return None if text is None else amount(text, units) / math.sqrt(3)

    def repeatability(self):
        for stage, one in self.stages.items():
            known = one and one.sd is not None
            yield Input({stage: {"mean": one.sd / math.sqrt(len(one.kept)) if known else None}}, known and len(one.kept) - 1)

    def certificates(self):
        """The certificate's own uncertainty, and how far the curve may bow between its points."""
        pre, post = self.stages.values()
        share = pre and post and pre.certificate and pre.certificate is post.certificate
        yield from self.shared_or_each("certificate", share, self.certified)
        yield from self.shared_or_each("movement", share, self.moved)
        points = lambda s: s and s.certificate and [p[0] for p in neighbours(s.certificate.points, s.indicated)]
        share = share and points(pre) == points(post)
        yield from self.shared_or_each("interpolation", share, self.bow)

    def shared_or_each(self, name, share, size):
        known = {stage: size(one) for stage, one in self.stages.items() if one and one.kept}
        parts = [known] if share else [{stage: one} for stage, one in known.items()]
        for part in parts:
            yield Input({stage: {name: u} for stage, (u, _) in part.items()}, min((dof for _, dof in part.values()), default=1))

    def moved(self, one):
        """What the calibrator may have moved since its certificate; not counted where no two certificates tell."""
        if one.certificate is None:
            return 0, math.inf
        per_day, intervals = one.calibrators.movement(one.certificate)
        days = (self.book.day(one.last) - one.certificate.calibrated).days
        return (0, math.inf) if per_day is None else (per_day * days, intervals)

    def certified(self, one):
        """Standard uncertainty relative to the flow, or None where the certificate states none."""
        if one.certificate is None or not one.certificate.points:
            return None, math.inf
        expanded = one.certificate.expanded(one.indicated)
        return None if expanded is None else expanded / (one.certificate.k or 2), math.inf

    def bow(self, one):
        near = neighbours(one.certificate.points, one.indicated) if one.certificate else []
        if len(near) < 2:
            return 0, math.inf
        (q1, e1, _), (q2, e2, _) = near
        way = (one.indicated - q1) / (q2 - q1)
        return 4 * way * (1 - way) * abs(e2 - e1) / 2 / math.sqrt(3), math.inf

    def resolution(self):
        for stage, one in self.stages.items():
            step = one and self.book.instrument[one.calibrator].resolution
            if step:
                yield Input({stage: {"resolution": step / math.sqrt(12)}})

    def flow_between(self):
        pre, post = self.sample.pre_flow, self.sample.post_flow
        if pre is None or post is None:
            yield Input({"between": None})
        else:
            apart = abs(post - pre) * (1 if self.sample.practice["flow_for_volume"] in ("pre", "lower") else 0.5)
            yield Input({"between": apart / math.sqrt(3)})

    def conditions(self):
        """A thermometer and a barometer of the bench, another of the work place, and the altitude's pressure."""
        temperature, pressure = self.half_width("temperature", WIDTH), self.half_width("pressure", PRESSURE)
        if temperature:
            yield from self.bench_and_place("reading temperature", temperature, self.sample.temperature_from)
        if pressure:
            yield from self.bench_and_place("reading pressure", pressure, self.sample.pressure_from)
        if self.book.site_kpa is not None:
            by_altitude = self.half_width("altitude_pressure", RATIO, "3 %") * self.book.site_kpa
            place = {"pressure": by_altitude} if self.sample.pressure_from == "altitude" else {}
            yield Input({**{s: {"altitude": by_altitude} for s in self.stages}, "sampling": place})

    def bench_and_place(self, name, u, place_from):
        place = {name.split()[1]: u}
        bench = {stage: {name: u} for stage in self.stages}
        if place_from == "sets":
            yield Input({**bench, "sampling": place})
        else:
            yield Input(bench)
            yield Input({"sampling": place} if place_from == "sample" else {})

    def clock(self):
        u = self.half_width("time", TIME, "0.5 min")
        yield Input({"minutes": -u})
        yield Input({"minutes": u})

    def nudged(self, nudges):
        """The sample as it would be with every reading and figure moved by these nudges, times the imaginary step."""
        sample = copy.copy(self.sample)
        for stage, one in self.stages.items():
            flow = nudged_mean(one, nudges.get(stage, {}))
            setattr(sample, stage + "_flow", flow)
        place = {key: figure * STEP * 1j for key, figure in nudges.get("sampling", {}).items()}
        sample.take_flows(nudges.get("between", 0) * STEP * 1j, nudges.get("minutes", 0) * STEP * 1j,
                          place.get("temperature", 0), place.get("pressure", 0))
        return sample

    def uncertainty(self, figure):
        """Of a function of the sample. Not stated where a needed input has no size, or where the figure is missing."""
        if figure(self.sample) is None:
            return NOT_STATED
        parts = []
        for one in self.inputs:
            sizes = [s for nudge in one.nudges.values() for s in (nudge.values() if isinstance(nudge, dict) else [nudge])]
            if None in sizes:
                if self.slope(figure, unit_nudges(one.nudges)):
                    return NOT_STATED
                continue
            parts.append((self.slope(figure, one.nudges), one.dof))
        return combined(parts)

    def slope(self, figure, nudges):
        slope = figure(self.nudged(nudges))
        size = abs(slope.imag / STEP) if isinstance(slope, complex) else 0
        return 0 if size < 1e-12 else size


def unit_nudges(nudges):
    """The same inputs with a size of 1 instead of an unknown one: does the figure lean on them at all?"""
    return {where: {key: 1 for key in nudge} if isinstance(nudge, dict) else 1 for where, nudge in nudges.items()}


def nudged_mean(one, nudge):
    if one is None or one.mean is None:
        return one and one.mean
    nudge = {key: size * STEP * 1j for key, size in nudge.items()}
    return one.mean_nudged(nudge)


def combined(parts):
    u = math.sqrt(math.fsum(c * c for c, _ in parts))
    if u == 0:
        return SimpleNamespace(u=0.0, dof=math.inf, expanded=0.0)
    freedom = math.fsum(c ** 4 / dof for c, dof in parts if c)
    dof = u ** 4 / freedom if freedom else math.inf
    factor = stats.norm.ppf(0.975) if math.isinf(dof) else stats.t.ppf(0.975, max(1, min(math.floor(dof), 10**15)))
    return SimpleNamespace(u=u, dof=dof, expanded=factor * u)
