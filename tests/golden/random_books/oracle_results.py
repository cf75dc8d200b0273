# SPDX-License-Identifier: MIT
"""What a laboratory found, worked out by docs/results.md alone: blanks of a batch, what is left, the concentration."""
import math

from oracle_book import mean, spread
from oracle_budget import EXACT, NOT_STATED, combined
from oracle_weighing import Weighing, controls_of, gained


def found(row):
    if row.before is not None:
        return gained(row)
    return row.amount


def limit_of(row):
    limits = [x for x in (row.limit, row.less_than) if x is not None]
    return max(limits) if limits else None


def is_below(amount, limit):
    """Within a relative 1e-9 of its limit a figure is on it."""
    return limit is not None and amount < limit and limit - amount > 1e-9 * abs(limit)


def blanks_of(book, row):
    """Results of the same analyte of blanks in the batch of the row's sample."""
    batch = book.sample[row.sample].batch
    return [r for r in book.results if batch is not None and r.analyte == row.analyte
            and book.sample[r.sample].batch == batch and book.sample[r.sample].kind == "blank"]


def samples_beside(book, row):
    batch = book.sample[row.sample].batch
    return [r for r in book.results if batch is not None and r.analyte == row.analyte
            and book.sample[r.sample].batch == batch and book.sample[r.sample].kind != "blank"]


def standard(row):
    """u of what was found: a ratio of it, over its factor or 2."""
    if row.expanded_uncertainty is None or found(row) is None:
        return None
    return row.expanded_uncertainty * abs(found(row)) / (row.coverage_factor or 2)


def together(parts):
    return NOT_STATED if any(u is None for u, _ in parts) else combined(parts)


class Result:
    def __init__(self, row, sample):
        self.row, self.sample, self.book = row, sample, sample.book
        self.amount, self.limit = found(row), limit_of(row)
        self.blanks = blanks_of(self.book, row)
        self.less_than = self.amount is None or is_below(self.amount, self.limit)
        self.weighing, self.controls = Weighing(self.book, row), controls_of(self.book, row)
        self.u = standard(row) if row.expanded_uncertainty is not None else self.weighing.u
        self.of_found = together([(self.u, math.inf)])
        self.is_blank = sample.kind == "blank"
        self.net, self.of_net, self.concentration, self.of_concentration = None, NOT_STATED, None, NOT_STATED
        if not self.is_blank:
            self.take_off()
            self.form()

    def take_off(self):
        if self.amount is None:
            return
        if self.sample.practice["blank_correction"] == "none":
            if self.sample.practice["control_correction"] == "mean" and self.row.before is not None:
                self.take_off_controls()
                return
            self.net, self.of_net = self.amount, self.of_found
            return
        amounts = [found(b) or 0.0 for b in self.blanks]
        if not amounts:
            return
        self.net = self.amount - mean(amounts)
        self.less_than = self.less_than or is_below(self.net, self.limit)
        s = spread(amounts)
        scatter = None if s is None else s * math.sqrt(1 + 1 / len(amounts))
        self.of_net = together([(self.u, math.inf), (scatter, len(amounts) - 1), (self.up_to(), math.inf)])

    def up_to(self):
        """u of blanks in which less than the limit was found."""
        unseen = [limit_of(b) for b in self.blanks if found(b) is None]
        return len(unseen) / len(self.blanks) * max(unseen) / math.sqrt(3) if unseen else 0.0

    def take_off_controls(self):
        if not self.controls:
            return
        n, s = len(self.controls), spread(self.controls)
        self.net = self.amount - mean(self.controls)
        self.less_than = self.less_than or is_below(self.net, self.limit)
        self.of_net = together([(self.u, math.inf), (None if s is None else s * math.sqrt(1 + 1 / n), n - 1)])

    def form(self):
        at_reference = self.sample.practice["concentration_volume"] == "reference"
        volume = self.sample.volume_reference if at_reference else self.sample.volume
        self.volume = volume
        amount = self.limit if self.less_than else self.net
        if volume is None or amount is None:
            return
        self.concentration = 1000 * amount / volume
        known = self.sample.uncertainty["volume_reference" if at_reference else "volume"]
        if self.less_than or self.sample.is_conventional or known.u is None or self.of_net.u is None:
            return
        self.of_concentration = combined([(1000 * self.of_net.u / volume, self.of_net.effective),
                                          (abs(self.concentration) / volume * known.u, known.effective)])

    def value(self, measure):
        """The figure from inside, or a word."""
        blanks = [(found(b), limit_of(b)) for b in self.blanks]
        above = [f > limit * (1 + 1e-9) for f, limit in blanks if f is not None and limit is not None]
        is_unknown = any(f is not None and limit is None for f, limit in blanks)
        beside = len(samples_beside(self.book, self.row))
        return {"mass": lambda: self.amount, "mass.net": lambda: self.net,
                "detected": lambda: None if self.limit is None else "no" if self.less_than else "yes",
                "blank.count": lambda: len(blanks), "blank.share": lambda: len(blanks) / beside if beside else None,
                "blank.mean": lambda: mean(f or 0.0 for f, _ in blanks),
                "blank.above-limit": lambda: "yes" if any(above) else None if is_unknown or not blanks else "no",
                "concentration": lambda: None if self.less_than else self.concentration,
                "concentration.uncertainty": lambda: None if self.of_concentration.u is None or not self.concentration
                else self.of_concentration.expanded / abs(self.concentration),
                "balance.certificate.missing": lambda: None if not self.weighing.has_days else "yes" if self.weighing.lacks else "no",
                "balance.overdue": lambda: None if self.weighing.overdue is None else 1440 * self.weighing.overdue,
                "control.count": lambda: None if self.row.before is None else len(self.controls),
                "control.mean": lambda: mean(self.controls),
                "control.change": lambda: max(self.controls, key=abs, default=None)}[measure]()

    def known(self, measure):
        amounts = [found(b) or 0.0 for b in self.blanks]
        if measure == "blank.mean":
            return NOT_STATED if len(amounts) < 2 else combined(
                [(spread(amounts) / math.sqrt(len(amounts)), len(amounts) - 1), (self.up_to(), math.inf)])
        if measure == "control.mean":
            n = len(self.controls)
            return NOT_STATED if n < 2 else combined([(spread(self.controls) / math.sqrt(n), n - 1)])
        if measure == "control.change":
            return NOT_STATED
        return {"mass": self.of_found, "mass.net": self.of_net, "concentration": self.of_concentration}.get(measure, EXACT)

    def field(self, name):
        own = {"analyte": self.row.analyte, "amount": "mass"}  # no book that is thrown counts fibres
        return own[name] if name in own else self.sample.field(name)


def compare_results(differences, name, said, results, budget):
    """`results` of one sample in JSON against the oracle's."""
    differences.hold(f"{name} results", len(said), len(results))
    for told, one in zip(said, results):
        where = f"{name} {one.row.analyte}"
        blanks = None if one.is_blank else one.blanks
        amounts = [found(b) or 0.0 for b in blanks or []]
        expected = {"analyte": one.row.analyte, "found": one.amount, "limit": one.limit, "less_than": one.less_than,
                    "blanks": None if blanks is None else len(blanks), "blank_mean": mean(amounts) if amounts else None,
                    "blank_sd": spread(amounts), "net": one.net, "concentration": one.concentration, "at": one.row.at,
                    "stands": not one.is_blank and (one.sample.by_decision or one.sample.verdict) not in ("void", "undecided")}
        if "controls" in told:  # of books with a weighing room
            is_sample = not one.is_blank
            expected |= {"controls": len(one.controls) if is_sample else None, "balance_overdue_d": one.weighing.overdue,
                         "control_mean": mean(one.controls) if is_sample else None,
                         "control_sd": spread(one.controls) if is_sample else None}
        for key, figure in expected.items():
            differences.hold(f"{where} {key}", told[key], figure, 0.001)
        for key, known in (("found_expanded", one.of_found), ("net_expanded", one.of_net)):
            differences.hold(f"{where} {key}", told[key], known.expanded, 0.001, 1e-7)
        if budget.is_defined:
            differences.hold(f"{where} U", told["concentration_expanded"], one.of_concentration.expanded, 0.001, 1e-6)


def results_of(book, sample):
    return [Result(row, sample) for row in book.results if row.sample == sample.row.sample]


