# SPDX-License-Identifier: MIT
"""What `screen --format json` says of a book, held against the oracle: every figure to a relative 1e-9."""
from collections import Counter

from oracle_results import compare_results

TOLERANCE = 1e-9


def same(a, b, scale=0.0, tolerance=TOLERANCE):
    """Equal, both missing, or nearer than a relative 1e-9 (of `scale`, where that is larger)."""
    if not isinstance(a, (int, float)) or not isinstance(b, (int, float)):
        return a == b
    return abs(a - b) <= tolerance * max(abs(a), abs(b), scale) + 1e-12


class Differences(list):
    def __init__(self):
        super().__init__()
        self.figures = 0

    def hold(self, where, program, oracle, scale=0.0, tolerance=TOLERANCE):
        self.figures += 1
        if not same(program, oracle, scale, tolerance):
            self.append(f"{where}: program {program!r}, oracle {oracle!r}")


def compare(screened, oracle):
    """The differences, one line each, and how many figures were compared."""
    found = Differences()
    found.hold("samples", [s["sample"] for s in screened["samples"]], [s.row.sample for s in oracle.samples])
    for said, sample in zip(screened["samples"], oracle.samples):
        compare_sample(found, said, sample)
    compare_subjects(found, screened["subjects"], list(oracle.subjects()))
    for verdict in ("valid", "qualified", "undecided", "void"):
        found.hold(f"totals.{verdict}", screened["totals"][verdict], sum(s.verdict == verdict for s in oracle.samples))
    return found


def compare_faulty(found, said, sample):
    """No figure that leans on what nobody can read, and no other judgement."""
    name = said["sample"]
    for key in ("drift_percent", "flow_l_min", "volume_l", "volume_reference_l"):
        found.hold(f"{name}.{key}", said[key], None)
    found.hold(f"{name} near", said["near_misses"], [])
    compare_findings(found, name, said["findings"], sample.findings)
    for key in ("verdict", "by_decision"):
        found.hold(f"{name}.{key}", said[key], getattr(sample, key))


def compare_sample(found, said, sample):
    if sample.is_faulty:
        return compare_faulty(found, said, sample)
    name, row = said["sample"], sample.row
    for key, figure in figures(sample).items():
        scale = 100 if key == "drift_percent" else 0
        found.hold(f"{name}.{key}", said[key], figure, scale)
    measured = {"flow_l_min": sample.measured_flow, "volume_l": sample.measured_volume,
                "volume_reference_l": sample.measured_reference}
    for key, figure in measured.items():
        found.hold(f"{name}.measured.{key}", said["measured"][key], figure)
    volume_is = None if sample.volume is None else "conventional" if sample.is_conventional else "measured"
    found.hold(f"{name}.volume_is", said["volume_is"], volume_is)
    compare_course(found, name, said["course"], sample.course)
    for key in ("batch", "pump", "sampler", "method", "analysis", "at"):
        found.hold(f"{name}.{key}", said[key], getattr(row, key))
    conditions = said["conditions"]
    found.hold(f"{name}.temperature", conditions["temperature_c"], sample.temperature and sample.temperature - 273.15, 273)
    found.hold(f"{name}.pressure", conditions["pressure_kpa"], sample.pressure)
    found.hold(f"{name}.temperature_from", conditions["temperature_from"], sample.temperature_from)
    found.hold(f"{name}.pressure_from", conditions["pressure_from"], sample.pressure_from)
    for key in ("pre", "post"):
        compare_set(found, f"{name}.{key}", said[key], getattr(sample, key))
    compare_uncertainties(found, name, said["budget"], sample)
    compare_results(found, name, said.get("results", []), sample.results, sample.budget)
    compare_findings(found, name, said["findings"], sample.findings, sample.budget)
    near = [j for j in sample.judgements if j.outcome == "met" and j.probability is not None and j.probability >= 0.025]
    if sample.budget.is_defined:
        compare_findings(found, name + " near", said["near_misses"], near, sample.budget)
    for key in ("verdict", "by_decision"):
        found.hold(f"{name}.{key}", said[key], getattr(sample, key))


def compare_course(found, name, said, course):
    found.hold(f"{name} has a course", said is not None, bool(course.stops))
    if said and course.stops:
        found.hold(f"{name} mean along the line", said["mean_l_min"], course.mean)
        for told, (at, flow) in zip(said["stops"], course.stops):
            found.hold(f"{name} stop of the course", told["flow_l_min"], flow)
            found.hold(f"{name} time of the stop", told["after_min"], (at - course.stops[0][0]) / 60)


def figures(sample):
    is_bare_blank = sample.kind == "blank"
    count = lambda s: len(s.kept) if s else None if is_bare_blank else 0
    return {"kind": sample.kind, "minutes": sample.minutes, "pre_n": count(sample.pre), "pre_l_min": sample.pre_flow,
            "pre_sd_l_min": sample.pre and sample.pre.sd, "post_n": count(sample.post), "post_l_min": sample.post_flow,
            "post_sd_l_min": sample.post and sample.post.sd,
            "drift_percent": None if sample.drift is None else sample.drift * 100, "flow_l_min": sample.flow,
            "volume_l": sample.volume, "volume_reference_l": sample.volume_reference, "nominal_l_min": sample.nominal}


def compare_set(found, where, said, one_set):
    found.hold(f"{where} is there", said is not None, one_set is not None)
    if said is None or one_set is None:
        return
    found.hold(f"{where}.at", sorted(said["at"]), sorted(r.at for r in one_set.readings))
    found.hold(f"{where}.voided", said["voided"], len(one_set.readings) - len(one_set.kept))
    found.hold(f"{where}.calibrator", said["calibrator"], one_set.calibrator)
    found.hold(f"{where}.certificate", said["certificate"], one_set.certificate and one_set.certificate.name)
    found.hold(f"{where}.indicated", said["indicated_l_min"], one_set.indicated)
    found.hold(f"{where}.temperature", said["temperature_c"], one_set.temperature and one_set.temperature - 273.15, 273)
    found.hold(f"{where}.pressure", said["pressure_kpa"], one_set.pressure)


def compare_uncertainties(found, name, said, sample):
    if not sample.budget.is_defined:
        return
    for key, known in sample.uncertainty.items():
        told = (said or {"figures": {}})["figures"].get(key, {})
        for part in ("u", "expanded"):
            found.hold(f"{name} {part} of {key}", told.get(part), getattr(known, part), 0, sample.budget.tolerance)


def compare_findings(found, name, said, findings, budget=None):
    """Findings by rule and, of one rule, by value."""
    order = lambda rule, value, likely: (rule, value is not None, round(value or 0, 7), likely is not None)
    said = sorted(said, key=lambda f: order(f["rule"], f["value"], f.get("probability_beyond")))
    findings = sorted(findings, key=lambda f: order(f.rule, f.value, f.probability))
    only = [Counter((f["rule"], f["outcome"]) for f in said), Counter((f.rule, f.outcome) for f in findings)]
    found.hold(f"{name} findings that only one has", sorted((only[0] - only[1]).elements()), sorted((only[1] - only[0]).elements()))
    for a, b in zip(said, findings):
        if a["rule"] != b.rule:
            break
        where = f"{name} {b.rule}"
        scale = 100 if b.unit == "%" else 1
        found.hold(f"{where}.value", a["value"], b.value, scale)
        found.hold(f"{where}.margin", a["margin"], b.margin, max(scale, abs(b.value or 0)))
        if "probability_beyond" in a and (budget is None or budget.is_defined):
            found.hold(f"{where}.probability", a["probability_beyond"], b.probability, 0, 10 * (budget.tolerance if budget else 1e-5))  # a tail follows u
        if "decision" in a:
            found.hold(f"{where}.decision", a["decision"] and a["decision"]["at"], b.decision and b.decision.at)


def compare_subjects(found, said, subjects):
    found.hold("subjects", [(s["of"], s["name"], s["verdict"]) for s in said], [s[:3] for s in subjects])
    for a, (of, name, _, findings) in zip(said, subjects):
        if a["name"] == name:
            compare_findings(found, f"{of} {name}", a["findings"], findings)
