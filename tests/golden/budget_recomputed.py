# SPDX-License-Identifier: MIT
"""Recomputes the uncertainty budgets of a screening's JSON with SciPy, and says where the program differs.

    /usr/bin/python3 budget_recomputed.py FILE.json BOOK

From each budget's inputs alone (u, sensitivity, degrees of freedom; null is infinite): u, effective degrees of freedom
(Welch and Satterthwaite), Student's t at the truncated degrees of freedom, U. A figure whose u the program does not
state has to name something missing. How far a calibrator may have moved since its certificate is worked out from
BOOK/certificates.csv alone, by its definition in docs/uncertainty.md.
"""
import csv
import datetime
import json
import math
import sys

from numpy import interp
from scipy.optimize import brentq
from scipy.stats import norm, t

AGREEMENT = 1e-9  # relative


def two_sided_t(dof):
    """The 97.5 % point by root search in the distribution: SciPy 1.10's own inverse, t.ppf, is good to 4e-9 only."""
    if math.isinf(dof):
        return norm.ppf(0.975)
    return brentq(lambda x: t.sf(x, dof) - 0.025, 1.9, 2000, xtol=1e-13, rtol=1e-14)


def recomputed(inputs, figure):
    parts = [(line["sensitivity"][figure] * line["u"], line["dof"]) for line in inputs]
    u = math.sqrt(math.fsum(part * part for part, _ in parts))
    weight = math.fsum(part**4 / dof for part, dof in parts if dof is not None)
    dof = u**4 / weight if weight > 0 else math.inf
    whole = math.floor(dof * (1 + 1e-9)) if dof < math.inf else dof
    usable = whole if whole >= 1 else dof
    k = two_sided_t(usable)
    return {"u": u, "dof": dof, "coverage_factor": k, "expanded": k * u}


def agrees(stated, own):
    if stated is None:
        return math.isinf(own)
    return math.isclose(stated, own, rel_tol=AGREEMENT, abs_tol=0)


class Certificates:
    """Certificates of a book by name, and the history of each calibrator."""

    def __init__(self, book):
        self.points, self.day, self.instrument = {}, {}, {}
        for row in csv.DictReader(open(f"{book}/certificates.csv", encoding="utf-8")):
            if not row["reference [L/min]"]:
                continue
            name = row["certificate"]
            self.points.setdefault(name, []).append(row)
            if row["calibrated"]:  # said once, in any row
                self.day[name] = datetime.date.fromisoformat(row["calibrated"])
            self.instrument[name] = row["instrument"] or self.instrument[name]

    def curve(self, name, columns):
        errors = []
        for row in self.points[name]:
            shown = next((float(row[column]) for column in columns if row[column]), None)
            if shown is not None:
                errors.append((shown, shown / float(row["reference [L/min]"]) - 1))
        return sorted(errors)

    def moved_a_day(self, name):
        """Root of the squared changes over that of the squared days, up to a certificate, and how many there were."""
        history = sorted((day, n) for n, day in self.day.items()
                         if self.instrument[n] == self.instrument[name] and day <= self.day[name])
        changes, days = [], []
        for (before, left), (after, found) in zip(history, history[1:]):
            seen = self.curve(found, ["as found [L/min]"])
            if seen:
                xs, ys = zip(*self.curve(left, ["as left [L/min]", "as found [L/min]"]))
                changes.append(math.fsum((e - interp(x, xs, ys))**2 for x, e in seen) / len(seen))
                days.append((after - before).days)
        if not changes:
            return None, 0
        return math.sqrt(math.fsum(changes) / sum(d * d for d in days)), len(changes)


def moves_differ(sample, certificates):
    """A calibrator's movement since its certificate, against the certificates themselves."""
    lines = {line["source"]: line for line in sample["budget"]["inputs"]}
    names = {stage: sample[stage]["certificate"] for stage in ("pre", "post")}
    for stage in ("pre", "post"):
        if not names[stage]:
            continue
        shared = names["pre"] == names["post"]
        source = "calibrator since its certificate" + ("" if shared else f", {stage}")
        a_day, intervals = certificates.moved_a_day(names[stage])
        last = sample["post" if shared else stage]["last"]
        days = (datetime.date.fromisoformat(last[:10]) - certificates.day[names[stage]]).days
        if a_day is None or days == 0:
            if source in lines:
                yield f"{source}: a line, and nothing to know it from"
        elif source not in lines:
            yield f"{source}: no line"
        elif not (agrees(lines[source]["u"], a_day * days) and lines[source]["dof"] == intervals):
            yield f"{source}: u is {lines[source]['u']!r}, by the certificates {a_day * days!r}"


def differences(sample):
    budget = sample["budget"]
    for figure, stated in budget["figures"].items():
        if stated["u"] is None:
            if not budget["missing"] and sample["volume_reference_l"] is not None:
                yield f"{figure}: no u, and nothing is missing"
            continue
        own = recomputed(budget["inputs"], figure)
        if own["u"] == 0:
            continue
        for key, value in own.items():
            if not agrees(stated[key], value):
                yield f"{figure}: {key} is {stated[key]!r}, SciPy says {value!r}"


def main(path, book):
    certificates = Certificates(book)
    with open(path, encoding="utf-8") as file:
        samples = json.load(file)["samples"]
    with_budget = [sample for sample in samples if sample["budget"]]
    figures = 0
    faults = [f"{sample['sample']}: a volume without a budget"
              for sample in samples if sample["volume_l"] is not None and not sample["budget"]]
    for sample in with_budget:
        figures += sum(stated["u"] is not None for stated in sample["budget"]["figures"].values())
        faults += [f"{sample['sample']}: {text}" for text in differences(sample)]
        faults += [f"{sample['sample']}: {text}" for text in moves_differ(sample, certificates)]
    print("\n".join(faults[:20]))
    print(f"{figures} figures of {len(with_budget)} samples recomputed, {len(faults)} differ")
    return 1 if faults or figures == 0 else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
