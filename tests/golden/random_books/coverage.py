# SPDX-License-Identifier: MIT
"""What the random books of a run came across: a search that never meets a case proves nothing about it."""
from collections import Counter

from planned_rules import LIMITS

VERDICTS = ("valid", "qualified", "undecided", "void")


class Coverage:
    def __init__(self):
        self.seen = Counter()

    def note(self, oracle):
        subjects = [(of, findings) for of, _, _, findings in oracle.subjects()]
        for rule in oracle.rule_set.rules:
            if rule.of in ("calibrator", "pump", "batch"):
                self.seen[rule.of, rule.measure, "asked"] += 1
        for of, findings in subjects:
            self.seen.update((of, f.measure, "refused") for f in findings)
        for sample in oracle.samples:
            self.note_sample(sample)

    def note_sample(self, sample):
        self.seen[sample.verdict] += 1
        if sample.is_faulty:
            self.seen["unreadable"] += 1
            return
        self.seen["by decision"] += sample.by_decision is not None
        for one in sample.judgements:
            self.seen[one.of, one.measure, "asked" if one.outcome in ("met", "skipped") else "refused"] += 1
        self.seen["struck out"] += any(s.is_struck_out for s in sample.sets)
        self.seen["passed over"] += any(s.stage != "field" and s not in (sample.pre, sample.post) for s in sample.sets)
        self.seen["two certificates"] += any(len({sample.calibrators.of(r) for r in s.kept}) > 1 for s in sample.sets)
        self.seen["by pump"] += any(r.sample is None for s in sample.sets for r in s.readings)
        self.seen["on its limit"] += any(j.margin == 0.0 for j in sample.judgements)
        self.seen["near a limit"] += any(j.probability is not None and 0.025 <= j.probability <= 0.5 for j in sample.judgements)

    def never_seen(self):
        cases = [*VERDICTS, "by decision", "struck out", "passed over", "two certificates", "by pump", "on its limit",
                 "near a limit", "unreadable"]
        cases += [(of, measure, answer) for of, group in LIMITS.items() for measure in group for answer in ("asked", "refused")]
        return [case for case in cases if not self.seen[case]]
