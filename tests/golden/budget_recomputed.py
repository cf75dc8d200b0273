# SPDX-License-Identifier: MIT
"""Recomputes the uncertainty budgets of a screening's JSON with SciPy, and says where the program differs.

    /usr/bin/python3 budget_recomputed.py FILE.json

From each budget's inputs alone (u, sensitivity, degrees of freedom; null is infinite): u, effective degrees of freedom
(Welch and Satterthwaite), Student's t at the truncated degrees of freedom, U. A figure whose u the program does not
state has to name something missing.
"""
import json
import math
import sys

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
    usable = math.floor(dof) if 1 <= dof < math.inf else dof
    k = two_sided_t(usable)
    return {"u": u, "dof": dof, "coverage_factor": k, "expanded": k * u}


def agrees(stated, own):
    if stated is None:
        return math.isinf(own)
    return math.isclose(stated, own, rel_tol=AGREEMENT, abs_tol=0)


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


def main(path):
    with open(path, encoding="utf-8") as file:
        samples = json.load(file)["samples"]
    with_budget = [sample for sample in samples if sample["budget"]]
    figures = 0
    faults = [f"{sample['sample']}: a volume without a budget"
              for sample in samples if sample["volume_l"] is not None and not sample["budget"]]
    for sample in with_budget:
        figures += sum(stated["u"] is not None for stated in sample["budget"]["figures"].values())
        faults += [f"{sample['sample']}: {text}" for text in differences(sample)]
    print("\n".join(faults[:20]))
    print(f"{figures} figures of {len(with_budget)} samples recomputed, {len(faults)} differ")
    return 1 if faults or figures == 0 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
