# SPDX-License-Identifier: MIT
"""The oracle: judges a whole book by a few rules, from docs/book.md, docs/uncertainty.md and rules/README.md alone. It
neither calls the program nor shares a line with it, so that two independent workings stand against each other."""
import datetime
import math

from oracle_book import Book, mean, spread
from oracle_budget import NOT_STATED, combined
from oracle_flow import Calibrators
from oracle_results import results_of
from oracle_rules import RuleSet, worst
from oracle_sample import FaultySample, Sample
from oracle_sets import SetsOfBook, counting


class Oracle:
    def __init__(self, folder, shipped, as_of):
        self.book = Book(folder)
        self.as_of = datetime.date.fromisoformat(as_of)
        self.rule_set = RuleSet(self.book, shipped)
        self.practice, self.samplers = self.rule_set.practice, self.rule_set.samplers
        self.calibrators = Calibrators(self.book, self.practice)
        self.sets = SetsOfBook(self.book, self.calibrators)
        self.samples = [self.judged(row) for row in self.book.samples]

    def overlap(self, row):
        """Minutes shared with another sample on the same pump, the most; of no blank."""
        if row.kind == "blank" or row.pump is None or row.started is None:
            return None
        others = [o for o in self.book.samples if o is not row and o.pump == row.pump and o.kind != "blank"
                  and o.started is not None and o.stopped is not None]
        shared = [min(o.stopped, row.stopped) - max(o.started, row.started) for o in others]
        return max([0, *shared]) / 60

    @property
    def has_faults(self):
        return any(row.faults for row in self.book.samples + self.book.readings)

    def sets_of_use(self, row):
        """The pre and post set that tell how far a pump moved."""
        return (None, None) if self.sets.is_faulty(row) else counting(self.sets.leaned_on(row), row)

    def judged(self, row):
        if self.sets.is_faulty(row):
            return FaultySample(row, self)
        sample = Sample(row, self)
        sample.results = results_of(self.book, sample)
        sample.judgements = [j for rule in self.rule_set.rules for j in self.judge(rule, sample)]
        for result in sample.results if sample.kind != "blank" else ():
            sample.judgements += [j for rule in self.rule_set.of("result") for j in self.judge_result(rule, result)]
        sample.findings = [j for j in sample.judgements if j.outcome not in ("met", "skipped")]
        sample.verdict = worst(j.outcome for j in sample.findings)
        self.heed_decisions(sample)
        return sample

    def judge(self, rule, sample):
        """All judgements of one rule on a sample, its sets or its readings."""
        if rule.pack == "book":
            yield rule.judge(self.is_known(rule.measure.split(".")[0], sample), None)
        elif rule.of == "sample":
            yield from self.one(rule, sample.field, sample, None, None)
        for s in sample.sets:
            if rule.of == "set":
                yield from self.one(rule, lambda name: sample.set_field(s, name), sample, s, None)
            for r in s.kept if rule.of == "reading" else ():
                yield from self.one(rule, lambda name: sample.reading_field(s, r, name), sample, s, r)

    def judge_result(self, rule, result):
        if rule.applies(result.field) == "yes":
            judgement = rule.judge(result.value(rule.measure), None)
            if judgement.figure is not None and rule.has_u():
                rule.weigh(judgement, self.rule_set.guard, result.known(rule.measure))
            yield judgement

    def is_known(self, word, sample):
        """Whether somebody speaks of the word that a sample has, as far as a rule leans on it."""
        written = getattr(sample.row, word)
        if not written or sample.kind == "blank":
            return None
        known = self.rule_set.known[word]
        is_unknown = written not in known and (word == "sampler" or known)
        return "no" if is_unknown and self.rule_set.left_out(word, sample) else "yes"

    def one(self, rule, field, sample, one_set, reading):
        applies = rule.applies(field)
        if applies == "unknown":
            yield rule.judgement(rule.absent)
        if applies != "yes":
            return
        judgement = rule.judge(*sample.value(rule, one_set, reading))
        if judgement.figure is not None and rule.has_u():
            rule.weigh(judgement, self.rule_set.guard, sample.known(rule, one_set, reading))
        yield judgement

    def heed_decisions(self, sample):
        """The last ruling on each finding, of those taken by the day that stands for today."""
        mine = [d for d in self.book.decisions if d.subject == sample.row.sample and self.book.day(d.decided) <= self.as_of]
        ruling = {}
        for decision in sorted(mine, key=lambda d: d.decided):
            ruling[decision.rule] = decision
        for finding in sample.findings:
            finding.decision = ruling.get(finding.rule)
        left = worst(f.outcome for f in sample.findings if not (f.decision and f.decision.ruling == "overrule"))
        sample.by_decision = None if left == sample.verdict else left

    def findings(self):
        return [(s.row.sample, f.rule) for s in self.samples for f in s.findings]

    def subjects(self):
        """Calibrators, pumps and batches with findings, each as (of, name, verdict, findings), judged on all samples that
        have begun by the day that stands for today."""
        come = [s for s in self.samples if self.has_come(s)]
        groups = [("calibrator", i.instrument, self.calibrator_measure, i) for i in self.book.instruments
                  if i.kind == "calibrator"]
        for of, field, measure in (("pump", "pump", self.pump_measure), ("batch", "batch", self.batch_measure)):
            names = dict.fromkeys(getattr(s.row, field) for s in come)
            groups += [(of, name, measure, [s for s in come if getattr(s.row, field) == name])
                       for name in names if name is not None]
        for of, name, measure, group in groups:
            judged = [self.judge_subject(rule, measure, group) for rule in self.rule_set.of(of)
                      if rule.applies(lambda field: self.subject_field(field, name, group)) != "no"]
            findings = [j for j in judged if j.outcome not in ("met", "skipped")]
            if findings:
                yield of, name, worst(j.outcome for j in findings), findings

    def judge_subject(self, rule, measure, group):
        judgement = rule.judge(*measure(rule.measure, group))
        if judgement.figure is not None and rule.has_u():
            u = self.calibrators.in_force(group.instrument, self.as_of).as_found_u()
            rule.weigh(judgement, self.rule_set.guard, NOT_STATED if u is None else combined([(u, math.inf)]))
        return judgement

    def has_come(self, sample):
        """Whether its day has come, or nobody can read it; a blank without times belongs to the days of its batch."""
        if sample.row.started is None and sample.kind == "sample":
            return True
        starts = [sample.row.started] if sample.row.started is not None else [
            s.row.started for s in self.samples if s.row.batch == sample.row.batch and s.row.started is not None]
        return not starts or self.book.day(min(starts)) <= self.as_of

    def subject_field(self, field, name, group):
        if field == "drifts":
            return sum(s.drift is not None for s in group if s.kind == "sample")
        if field in ("principle", "read-at"):
            return getattr(self.book.instrument[name], field.replace("-", "_"))
        return name

    def calibrator_measure(self, name, row):
        if name == "read-at":
            return row.read_at, None
        newest = self.calibrators.in_force(row.instrument, self.as_of)
        if newest is None:
            return None, None
        due = self.calibrators.due(newest)
        return {"due": due and (due - self.as_of).days * 1440, "age": (self.as_of - newest.calibrated).days * 1440,
                "as-found.error": newest.as_found_error(),
                "record.as-found": "yes" if all(r.as_found is not None for r in newest.rows) else "no"}[name], None

    def pump_measure(self, name, samples):
        samples = [s for s in samples if s.kind == "sample"]
        drifts = [s.drift for s in samples if s.drift is not None]
        return {"drift.mean": mean(drifts), "drift.sd": spread(drifts), "void.share": void_share(samples),
                "trend": trend([(s.row.started / (7 * 86400), s.pre_flow) for s in samples
                                if s.pre_flow is not None and s.row.started is not None])}[
                    name], None

    def batch_measure(self, name, samples):
        proper = [s for s in samples if s.kind == "sample"]
        blanks = len(samples) - len(proper)
        return {"blanks": blanks, "blank.share": blanks / len(proper) if proper else None,
                "void.share": void_share(proper)}[name], None


def void_share(samples):
    return sum(s.verdict == "void" for s in samples) / len(samples) if samples else None


def trend(points):
    """Slope of the least-squares line, relative to the mean."""
    if len({x for x, _ in points}) < 2:
        return None
    x0, y0 = mean(x for x, _ in points), mean(y for _, y in points)
    return sum((x - x0) * (y - y0) for x, y in points) / sum((x - x0) ** 2 for x, _ in points) / y0
