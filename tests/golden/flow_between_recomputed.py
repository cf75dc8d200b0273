# SPDX-License-Identifier: MIT
"""Works out anew how well the flow between the checks is known, and says where the program differs.

    /usr/bin/python3 flow_between_recomputed.py FILE.json BOOK

By the definition in docs/uncertainty.md, from the flows and times of all samples in a screening's JSON, and from BOOK's
own files: faults that were seen, and what [uncertainty] states.
"""
import csv
import datetime
import json
import math
import pathlib
import sys
import tomllib

AGREEMENT = 1e-9  # relative
ENOUGH_USES = 5
DEFAULT = "1 %"  # of the flow

moment = datetime.datetime.fromisoformat


class Pumps:
    """What each pump's flow did in its uses: {pump: {when the post set had been read: size of the relative change}}."""

    def __init__(self, samples, book):
        faults = {row["sample"] for path in sorted((book / "samples").glob("*.csv"))
                  for row in csv.DictReader(open(path, encoding="utf-8-sig")) if row.get("fault") == "yes"}
        self.of = {}
        for sample in samples:
            if sample["drift_percent"] is None or sample["pump"] is None or sample["sample"] in faults:
                continue
            pre, post = sample["pre_l_min"], sample["post_l_min"]
            uses = self.of.setdefault(sample["pump"], {})
            closed = moment(sample["post"]["last"])
            uses[closed] = max(uses.get(closed, 0), abs(2 * (post - pre) / (post + pre)))

    def before(self, pump, when):
        moved = [change for closed, change in self.of.get(pump, {}).items() if closed < when]
        return len(moved), math.sqrt(math.fsum(d * d for d in moved) / len(moved)) if moved else None


def between(sample, pumps, practice, stated):
    """u and degrees of freedom, the number of earlier uses, and their s."""
    uses, s = pumps.before(sample["pump"], moment(sample["post"]["first"]))
    pre, post = sample["pre_l_min"], sample["post_l_min"]
    spans, flow = [(1, post - pre)], (pre + post) / 2
    if practice["field_sets"] == "line" and sample["course"]:
        stops = sample["course"]["stops"]
        flow = math.fsum(stop["share"] * stop["flow_l_min"] for stop in stops)
        spans = [((b["after_min"] - a["after_min"]) / stops[-1]["after_min"], b["flow_l_min"] - a["flow_l_min"])
                 for a, b in zip(stops, stops[1:])]
    half = flow * (s / 2 if uses >= ENOUGH_USES else stated)
    seen = [(share * abs(apart) / 2)**2 / 3 for share, apart in spans]
    expected = [(share * math.sqrt(share) * half)**2 / 3 for share, _ in spans]
    everything = math.fsum(map(max, zip(seen, expected)))
    by_drift = math.fsum(e for d, e in zip(seen, expected) if e > d)
    dof = uses * (everything / by_drift)**2 if uses >= ENOUGH_USES and by_drift > 0 else math.inf
    reach = 1 if practice["flow_for_volume"] in ("mean", "nominal") else 2
    return {"u": reach * math.sqrt(everything), "dof": dof, "uses": uses, "s": s}


def agrees(stated, own):
    return math.isinf(own) if stated is None else math.isclose(stated, own, rel_tol=AGREEMENT)


def differences(sample, own):
    line = next(line for line in sample["budget"]["inputs"] if line["source"] == "flow between the checks")
    told = sample["budget"]["flow_between"]
    if not agrees(line["u"], own["u"]) or not agrees(line["dof"], own["dof"]):
        yield f"u {line['u']!r} and {line['dof']!r} degrees of freedom, by definition {own['u']!r} and {own['dof']!r}"
    if told["earlier_uses"] != own["uses"]:
        yield f"{told['earlier_uses']} earlier uses, by definition {own['uses']}"
    elif own["uses"] and not agrees(told["drift_s_percent"], 100 * own["s"]):
        yield f"s of the earlier uses {told['drift_s_percent']!r} %, by definition {100 * own['s']!r} %"
    course = sample["course"]
    if course and not agrees(course["mean_l_min"], math.fsum(s["share"] * s["flow_l_min"] for s in course["stops"])):
        yield f"mean of the course {course['mean_l_min']!r}"


def main(path, folder):
    book = pathlib.Path(folder)
    with open(path, encoding="utf-8") as file:
        screening = json.load(file)
    pumps = Pumps(screening["samples"], book)
    settings = tomllib.loads((book / "book.toml").read_text(encoding="utf-8"))
    stated = float(settings.get("uncertainty", {}).get("flow_between", DEFAULT).split()[0]) / 100
    with_budget = [sample for sample in screening["samples"] if sample["budget"]]
    faults, by_history = [], 0
    for sample in with_budget:
        own = between(sample, pumps, screening["practice"], stated)
        by_history += own["uses"] >= ENOUGH_USES
        faults += [f"{sample['sample']}: {text}" for text in differences(sample, own)]
    print("\n".join(faults[:20]))
    print(f"{len(with_budget)} flows between checks worked out anew, {by_history} by their pumps' drift, "
          f"{len(faults)} differ")
    return 1 if faults or not with_budget else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
