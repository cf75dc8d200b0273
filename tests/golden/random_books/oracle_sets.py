# SPDX-License-Identifier: MIT
"""Which readings make a set, and which sets a sample leans on (docs/book.md, docs/adr/0004-brackets.md)."""
from oracle_book import mean, spread


class Set:
    def __init__(self, readings, calibrators):
        self.readings = sorted(readings, key=lambda r: (r.taken, r.place))
        self.calibrators = calibrators
        self.stage, self.calibrator = readings[0].stage, readings[0].calibrator
        self.first, self.last = self.readings[0].taken, self.readings[-1].taken
        self.is_faulty = any(r.faults for r in self.readings)
        self.kept = [r for r in self.readings if r.void != "yes" or r.faults]
        self.is_struck_out = not self.kept
        self.certificate = calibrators.of(self.readings[-1])
        self.certificates = list(dict.fromkeys([calibrators.of(r) for r in self.kept] + [self.certificate]))
        flows = [None if r.faults else calibrators.actual(r) for r in self.kept]
        self.flows = None if None in flows else flows
        self.mean = mean(self.flows) if self.flows else None
        self.sd = spread(self.flows) if self.flows else None
        self.indicated = None if self.is_faulty else mean(r.reading for r in self.kept)
        self.temperature = mean(r.temperature for r in self.kept if r.temperature is not None)
        pressures = [calibrators.pressure(r) for r in self.kept]
        self.pressure = mean(p for p in pressures if p is not None)
        by_altitude = [r.pressure is None and calibrators.pressure(r) is not None for r in self.kept]
        self.has_altitude_pressure = any(by_altitude)
        self.altitude_share = sum(by_altitude) / len(by_altitude) if by_altitude else 0

    def mean_nudged(self, nudge):
        """The mean, had what it leans on been a little different."""
        flow = mean(self.calibrators.actual(r, nudge) for r in self.kept)
        if "resolution" in nudge:  # one step acts once on the mean, through the slope of the error curve there
            flow *= mean(self.corrected(at + nudge["resolution"]) / self.corrected(at) for at in self.on_both_sides())
        return flow + nudge.get("mean", 0)

    def on_both_sides(self):
        """Of the indication: on a point of the certificate the error curve has two slopes."""
        return self.indicated * (1 - 1e-9), self.indicated * (1 + 1e-9)

    def corrected(self, shown):
        return shown / (1 + self.certificate.error(shown)) if self.certificate else shown


def sets_of(readings, calibrators):
    """Sets of one sample's or one pump's readings, in order of stage and time."""
    groups = {}
    for reading in readings:
        groups.setdefault((reading.stage, reading.calibrator, reading.set), []).append(reading)
    sets = []
    for (_, _, name), group in groups.items():
        group.sort(key=lambda r: r.taken)
        run = []
        for reading in group:
            if run and name is None and reading.taken - run[-1].taken > 30 * 60:
                sets.append(Set(run, calibrators))
                run = []
            run.append(reading)
        sets.append(Set(run, calibrators))
    return sorted(sets, key=lambda s: (("pre", "field", "post").index(s.stage), s.first, s.readings[0].place))


def grouped(readings, calibrators):
    """Sets by sample, and by pump of those that name no sample."""
    by_sample, by_pump = {}, {}
    for reading in readings:
        if reading.sample is not None:
            by_sample.setdefault(reading.sample, []).append(reading)
        else:
            by_pump.setdefault(reading.pump, []).append(reading)
    return [{name: sets_of(rows, calibrators) for name, rows in group.items()} for group in (by_sample, by_pump)]


class SetsOfBook:
    """All sets of a book, once."""

    def __init__(self, book, calibrators):
        self.lost_of = {r.sample if r.sample is not None else ("pump", r.pump) for r in book.readings if r.taken is None}
        self.of_sample, self.of_pump = grouped([r for r in book.readings if r.taken is not None], calibrators)
        readable = grouped([r for r in book.readings if not r.faults], calibrators)
        pump_of = {sample.sample: sample.pump for sample in book.samples}
        self.set_anew = {}  # by pump: when pre readings were taken that name a sample
        for r in book.readings:
            if r.taken is not None and r.stage == "pre" and r.sample is not None:
                self.set_anew.setdefault(pump_of.get(r.sample), []).append(r.taken)
        self.readable = [s for groups in readable for sets in groups.values() for s in sets]

    def is_faulty(self, sample):
        """Whether it leans on a figure or a time that nobody can read: its own, of a set, or of a reading whose time is
        lost, which may have been one of its own or of its pump's."""
        own_stages = {s.stage for s in self.of_sample.get(sample.sample, [])}
        leans_on_pump = sample.started is not None and sample.stopped is not None and not own_stages >= {"pre", "post"}
        return bool(sample.faults or sample.sample in self.lost_of or any(s.is_faulty for s in self.leaned_on(sample))
                    or leans_on_pump and ("pump", sample.pump) in self.lost_of)

    def leaned_on(self, sample):
        """Every set of a sample, its own and those of the bracket on its pump for stages it has none of its own of."""
        own = self.of_sample.get(sample.sample, [])
        stages = {s.stage for s in own}
        return own + [s for s in self.bracket(sample) if s.stage not in stages]

    def bracket(self, sample):
        if sample.started is None or sample.stopped is None or sample.pump is None:
            return []
        sets = self.of_pump.get(sample.pump, [])
        pres = [s for s in sets if s.stage == "pre"]
        of_others = self.set_anew.get(sample.pump, [])
        before = sorted((s for s in pres if s.last <= sample.started), key=lambda s: s.first)[-1:]
        before = [s for s in before if not any(s.last <= taken < sample.started for taken in of_others)]
        during = [s for s in sets if s.stage == "field" and sample.started <= s.first <= sample.stopped]
        posts = []
        for post in (s for s in sets if s.stage == "post" and s.first >= sample.stopped):
            if any(sample.stopped <= taken < post.first for taken in [*of_others, *(pre.first for pre in pres)]):
                break
            posts.append(post)
            if not post.is_struck_out:
                break
        return before + during + posts


def counting(sets, sample):
    """The pre and the post set that count, each None where there is none."""
    pres = [s for s in sets if s.stage == "pre"]
    posts = [s for s in sets if s.stage == "post"]
    timely_pre = [s for s in pres if sample.started is not None and s.last <= sample.started]
    timely_post = [s for s in posts if sample.stopped is not None and s.first >= sample.stopped]
    return chosen(timely_pre[::-1] or pres[::-1]), chosen(timely_post or posts)


def chosen(sets):
    """The first, unless it is struck out as a whole and another on this side is not."""
    return next((s for s in sets if not s.is_struck_out), sets[0] if sets else None)
