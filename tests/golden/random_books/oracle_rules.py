# SPDX-License-Identifier: MIT
"""Rule packs, overrides and practices, and how a measure meets a limit (rules/README.md, docs/uncertainty.md)."""
import pathlib
import re
import tomllib
from types import SimpleNamespace

from oracle_book import CONCENTRATION, FLOW, MASS, PRESSURE, TEMPERATURE, TIME, VOLUME, WIDTH, RATIO, amount
from oracle_budget import student
from oracle_sample import PRACTICE

# Unit that each measure is told in, where it is not that of a flow.
PERCENT, YES_NO, WORD = "%", "yes/no", "word"
UNITS = {
    "sample": {"drift": PERCENT, "flow": "L/min", "flow.deviation": PERCENT, "pre.flow": "L/min", "post.flow": "L/min",
               "pre.deviation": PERCENT, "post.deviation": PERCENT, "pre.count": "", "post.count": "", "pre.rsd": PERCENT,
               "post.rsd": PERCENT, "field.count": "", "field.deviation": PERCENT,
               "field.nominal-deviation": PERCENT, "minutes": "min", "paused": "min",
               "volume": "L", "volume.reference": "L", "volume.uncertainty": PERCENT, "warm-up": "min", "vacuum": "kPa", "leak": "L/min", "interruptions": "", "pressure-drop": "kPa", "pulsation": PERCENT, "pre.age": "h",
               "post.age": "h", "temperature.change": "K", "pressure.change": PERCENT, "overlap": "min",
               "fault": YES_NO, "calibrator.overdue": "d", "calibrator.range": PERCENT, "calibrator.same": YES_NO,
               "calibrator.read-at": WORD, "certificate.missing": YES_NO, "cut.shift": PERCENT,
               "calibrator.uncertainty": PERCENT},
    "set": {"count": "", "rsd": PERCENT, "range": PERCENT, "flow": "L/min", "flow.deviation": PERCENT, "duration": "min",
            "age": "h"},
    "reading": {"indicated": "L/min", "actual": "L/min", "correction": PERCENT, "range": PERCENT, "temperature": "°C",
                "pressure": "kPa", "humidity": PERCENT},
    "calibrator": {"due": "d", "as-found.error": PERCENT, "age": "d", "read-at": WORD, "record.as-found": YES_NO},
    "pump": {"drift.mean": PERCENT, "drift.sd": PERCENT, "trend": PERCENT, "void.share": PERCENT},
    "batch": {"blanks": "", "blank.share": PERCENT, "void.share": PERCENT, "record.complete": PERCENT},
    "result": {"mass": "mg", "mass.net": "mg", "detected": YES_NO, "blank.count": "", "blank.share": PERCENT,
               "blank.mean": "mg", "blank.above-limit": YES_NO, "concentration": "mg/m3",
               "concentration.uncertainty": PERCENT, "balance.certificate.missing": YES_NO, "balance.overdue": "d",
               "control.count": "", "control.mean": "mg", "control.change": "mg"},
}
# Measures with an uncertainty; all others are exact, or no uncertainty of them is stated.
STATED = {
    "sample": ("drift", "flow", "flow.deviation", "pre.flow", "post.flow", "pre.deviation", "post.deviation",
               "field.deviation", "field.nominal-deviation", "minutes", "volume", "volume.reference", "temperature.change", "pressure.change",
               "cut.shift"),
    "set": ("flow", "flow.deviation"), "reading": ("temperature", "pressure"), "calibrator": ("as-found.error",),
    "pump": (), "batch": (), "result": ("mass", "mass.net", "blank.mean", "concentration", "control.mean")}
INSIDE = {PERCENT: 0.01, "": 1, "L/min": 1, "mL/min": 1e-3, "min": 1, "h": 60, "d": 1440, "K": 1, "L": 1, "kPa": 1, "hPa": 0.1, "mg": 1, "mg/m3": 1}
AMOUNTS = {"L/min": FLOW, "min": TIME, "h": TIME, "d": TIME, "K": WIDTH, "L": VOLUME, "kPa": PRESSURE, "°C": TEMPERATURE,
           PERCENT: RATIO, "mg": MASS, "mg/m3": CONCENTRATION}
LIMITS = ("within", "strictly_within", "at_most", "at_least", "less_than", "more_than", "between", "is", "one_of")
ORDER = ("valid", "qualified", "undecided", "void")
OUTCOME = {"void": "void", "qualify": "qualified", "note": "note", "undecided": "undecided", "skip": "skipped"}


def unit_of(text):
    return re.fullmatch(r"[-+0-9.eE ]+(.*)", text).group(1)


def told(figure, unit):
    """A figure from inside in the unit it is told in."""
    if figure is None:
        return None
    return figure - 273.15 if unit == "°C" else figure / INSIDE[unit]


def told_width(width, unit):
    return width if unit == "°C" else told(width, unit)


def side(figure, limit):
    """-1 below, 0 on it, 1 above: within a relative 1e-9 it is on the limit, within 1e-12 of a limit of 0."""
    near = 1e-12 if limit == 0 else 1e-9 * abs(limit)
    return 0 if abs(figure - limit) <= near else 1 if figure > limit else -1


class Rule:
    def __init__(self, pack, table):
        self.pack, self.table = pack, table
        self.name = f"{pack}/{table['id']}"
        self.of, self.measure, self.base = table["of"], table["measure"], table.get("base")
        self.unit = UNITS[self.of].get(self.measure, YES_NO)  # what is not in the list is about a record
        self.where = table.get("where", {})
        self.otherwise, self.absent = table["otherwise"], table.get("absent", "undecided")
        self.enabled = table.get("enabled", True)
        self.set_limit(table)

    def set_limit(self, table):
        self.form = next((f for f in LIMITS if f in table), None)
        self.words, self.is_absolute = None, False
        if self.form in ("is", "one_of"):
            value = table[self.form]
            self.words = value if isinstance(value, list) else [value]
            return
        value = table[self.form]
        amounts = value if isinstance(value, list) else [value]
        self.is_absolute = self.unit == PERCENT and not str(amounts[0]).rstrip().endswith("%")
        self.told_in = unit_of(amounts[0]) if self.is_absolute else self.unit
        self.ends = [self.figure(a) for a in amounts]

    def figure(self, text):
        if not isinstance(text, str):
            return float(text)
        if self.unit == PERCENT:
            return amount(text, {**RATIO, **FLOW, **PRESSURE})
        return amount(text, AMOUNTS[self.unit])

    def override(self, table):
        if any(f in table for f in LIMITS):
            self.set_limit(table)
        self.otherwise = table.get("otherwise", self.otherwise)
        self.enabled = table.get("enabled", self.enabled)

    def low_high(self):
        """The limit as a range; None is open."""
        if self.form in ("within", "strictly_within"):
            return -self.ends[0], self.ends[0]
        if self.form == "between":
            return tuple(self.ends)
        return (None, self.ends[0]) if self.form in ("at_most", "less_than") else (self.ends[0], None)

    def applies(self, field):
        """'yes', 'no', or 'unknown' where a range is asked for and the figure is not known."""
        answers = [self.holds(condition, field(name)) for name, condition in self.where.items()]
        if "kind" not in self.where and self.of == "sample" and field("kind") == "blank":
            return "no"
        return "no" if "no" in answers else "unknown" if "unknown" in answers else "yes"

    def holds(self, condition, value):
        if not isinstance(condition, dict):
            words = condition if isinstance(condition, list) else [condition]
            return "yes" if value in words else "no"
        if "none_of" in condition:
            return "no" if self.holds(condition["none_of"], value) == "yes" else "yes"
        if value is None:
            return "unknown"
        ends = {key: amount(text, {"": 1, **FLOW, **TIME, **PRESSURE, **TEMPERATURE}) for key, text in condition.items()}
        is_in = (("at_least" not in ends or side(value, ends["at_least"]) >= 0)
                 and ("at_most" not in ends or side(value, ends["at_most"]) <= 0))
        return "yes" if is_in else "no"

    def has_u(self):
        return self.measure in STATED[self.of]

    def weigh(self, judgement, guard, known):
        """The probability that the true value lies beyond the limit (JCGM 106 clause 7), and the guard band."""
        if judgement.figure is None or not self.has_u():
            return
        if known.u:
            beyond = [student(known.dof).cdf(-(sign * (judgement.figure - end)) / known.u)
                      for end, sign in ((judgement.low, 1), (judgement.high, -1)) if end is not None]
            judgement.probability = sum(beyond)
        if judgement.outcome == "met" and guard > 0:
            is_near = known.u is None or side(judgement.inside_margin, guard * known.expanded) < 0
            judgement.outcome = self.near() if is_near else "met"

    def near(self):
        """What a figure within the guard band comes to: qualified, but nothing worse than beyond the limit."""
        return "note" if self.otherwise == "note" else "qualified"

    def judge(self, value, difference):
        """What a measure comes to: outcome, value, unit, margin, and None where nothing was compared."""
        if self.words is not None:
            outcome = self.absent if value is None else "met" if value in self.words else self.otherwise
            return self.judgement(outcome)
        figure = difference if self.is_absolute else value
        if figure is None:
            return self.judgement(self.absent)
        low, high = self.low_high()
        is_strict = self.form in ("strictly_within", "less_than", "more_than")
        is_met = all(end is None or side(sign * figure, sign * end) >= is_strict
                     for end, sign in ((low, 1), (high, -1)))
        margin = min(m for m in (low is not None and figure - low, high is not None and high - figure) if m is not False)
        if any(end is not None and side(figure, end) == 0 for end in (low, high)):
            margin = 0.0
        result = self.judgement("met" if is_met else self.otherwise)
        result.unit, result.value, result.margin = self.told_in, told(figure, self.told_in), told_width(margin, self.told_in)
        result.figure, result.inside_margin, result.low, result.high = figure, margin, low, high
        return result

    def judgement(self, outcome):
        return SimpleNamespace(rule=self.name, of=self.of, outcome=OUTCOME.get(outcome, outcome), measure=self.measure, value=None,
                               unit=None, margin=None, probability=None, figure=None)


# Fields of a sample whose words choose rules, with the fields that are known by them.
SELECTORS = {"sampler": ("sampler", "fraction", "nominal"), "method": ("method",), "analysis": ("analysis",)}
FROM_NOMINAL = ("flow.deviation", "pre.deviation", "post.deviation", "field.nominal-deviation")


def leans_on(rule, word):
    """Whether a rule is chosen by the word, or holds a flow to the nominal one that a sampler has by its name."""
    is_from_nominal = rule.base == "nominal" or (rule.base is None and rule.measure in FROM_NOMINAL)
    return rule.of in ("sample", "set", "reading", "result") and (
        word == "sampler" and is_from_nominal or any(name in rule.where for name in SELECTORS[word]))


class RuleSet:
    def __init__(self, book, shipped):
        self.rules, self.samplers, self.practice = [], {}, dict(PRACTICE)
        self.guard = book.settings.get("decision", {}).get("guard", 0)
        self.known = {word: set(book.settings.get(word, {})) for word in SELECTORS}
        for name in book.settings.get("rules", {}).get("packs", []):
            path = book.folder / name if name.endswith(".toml") else pathlib.Path(shipped) / f"{name}.toml"
            self.take(tomllib.loads(path.read_text(encoding="utf-8")))
        for table in book.settings.get("override", []):
            next(r for r in self.rules if r.name == table["rule"]).override(table)
        self.practice.update(book.settings.get("practice", {}))
        self.describe(book.settings.get("sampler", {}))
        self.know_words()
        self.rules = [r for r in self.rules if r.enabled]
        self.rules += [Rule("book", {"id": f"unknown-{word}", "of": "sample", "measure": f"{word}.known", "is": "yes",
                                     "otherwise": "qualify", "absent": "skip"})
                       for word in SELECTORS if any(leans_on(r, word) for r in self.rules)]

    def know_words(self):
        """What is described, and what any rule asks for or leaves out, whether it is in force or not."""
        self.known["sampler"].update(self.samplers)
        for rule in self.rules:
            for word in SELECTORS:
                asked = rule.where.get(word, [])
                asked = asked.get("none_of", []) if isinstance(asked, dict) else asked
                self.known[word].update([asked] if isinstance(asked, str) else asked)

    def left_out(self, word, sample):
        """The rules that would be held to a sample if somebody described its word."""
        return [r for r in self.rules if r.pack != "book" and leans_on(r, word) and self.is_left_out(r, word, sample)]

    def is_left_out(self, rule, word, sample):
        is_from_nominal = rule.base == "nominal" or (rule.base is None and rule.measure in FROM_NOMINAL)
        is_lost = word == "sampler" and is_from_nominal and sample.nominal is None
        for name, condition in rule.where.items():
            if name in SELECTORS[word]:
                holds = rule.holds(condition, sample.field(name))
                is_lost = is_lost or (holds == "unknown" if name == "nominal" else holds != "yes")
            elif rule.of == "sample" and rule.holds(condition, sample.field(name)) == "no":
                return False
        return is_lost

    def take(self, pack):
        self.rules += [Rule(pack["pack"], table) for table in pack.get("rule", [])]
        self.practice.update({k: v for k, v in pack.get("practice", {}).items() if k in PRACTICE})
        self.describe(pack.get("sampler", {}))
        for word in ("method", "analysis"):
            self.known[word].update(pack.get(word, {}))

    def describe(self, samplers):
        for name, table in samplers.items():
            nominal = table.get("nominal")
            self.samplers[name] = SimpleNamespace(nominal=nominal and amount(nominal, FLOW),
                                                  fraction=table.get("fraction"), cut_exponent=table.get("cut_exponent"))

    def of(self, subject):
        return [r for r in self.rules if r.of == subject]


def worst(outcomes):
    return max((o for o in outcomes if o in ORDER), key=ORDER.index, default="valid")
