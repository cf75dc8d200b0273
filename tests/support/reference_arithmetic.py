#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The reference books worked out a second time, in another language and without the program.

    python3 reference_arithmetic.py FOLDER [PACKS]

Reads the readings, instruments and samples of every book below FOLDER, corrects the flows by the formulas that stand
here, and holds what follows to the figures of its expected.csv and expected_history.csv: all of them but the kinds that
quote, "printed" and "second hand", which stand on what was read. PACKS is the folder of the shipped rule packs.

Flows, minutes and volumes are exact fractions, so a figure on its limit is on it; only roots and exponentials are
floating point. The books' certificates have no error, and their sets are one a stage: both is checked.
"""
import csv
import datetime
import math
import pathlib
import re
import sys
import tomllib
from fractions import Fraction as F

QUOTED = ("printed", "second hand")
UNITS = {"L/min": F(1), "mL/min": F(1, 1000), "m3/h": F(1000, 60), "m3/min": F(1000),
         "ft3/min": F("0.3048") ** 3 * 1000,  # the international foot, 0.3048 m exactly
         "L": F(1), "min": F(1), "h": F(60), "d": F(1440), "%": F(1, 100), "K": F(1), "m": F(1), "": F(1),
         "mg": F(1), "µg": F(1, 1000), "fibres": F(1), "kPa": F(1), "mmHg": F("101.325") / 760,  # 760 mmHg is 101.325 kPa, by convention
         "inHg": F("101.325") / 760 * F("25.4")}


def inside(text, unit):
    """A figure in L/min, L, min, kPa, K or a ratio."""
    if unit == "°C":
        return F(text) + F("273.15")
    if unit == "°F":
        return (F(text) - 32) * 5 / 9 + F("273.15")
    return F(text) * UNITS[unit]


def quantity(text):
    number, _, unit = str(text).partition(" ")
    return inside(number, unit) if unit else F(number)


# --- formulas ---------------------------------------------------------------------------------------------------------

def saturation_kpa(kelvin):
    """Wagner and Pruß, IAPWS Supplementary Release SR1-86 (1992), equation 1."""
    a = (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502)
    t = 1 - float(kelvin) / 647.096
    return 22064 * math.exp(647.096 / float(kelvin) * sum(ai * t ** p for ai, p in zip(a, (1, 1.5, 3, 3.5, 4, 7.5))))


def standard_atmosphere_kpa(metres):
    """US Standard Atmosphere 1976, equation 33a with the constants of the lowest layer."""
    return 101.325 * (288.15 / (288.15 - 0.0065 * float(metres))) ** -(9.80665 * 0.0289644 / (8.31432 * 0.0065))


def volumetric(flow, now, scale, practice):
    return flow


def mass(flow, now, scale, practice):
    """The shown flow is at the meter's own conditions; the same amount of an ideal gas at those of the reading."""
    return flow * scale["pressure"] / now["pressure"] * now["temperature"] / scale["temperature"]


def rotameter(flow, now, scale, practice):
    """NMAM, 4th edition, chapter D, section 7.a, step 7: the root of the ratio of densities."""
    change = [now[name] / scale[name] - 1 for name in ("temperature", "pressure")]
    rule = practice.get("rotameter_correction", "always")
    if rule == "never" or (rule == "beyond 5 %" and max(map(abs, change)) <= F(5, 100)):
        return flow
    return flow * math.sqrt(float(scale["pressure"]) / float(now["pressure"])
                            * float(now["temperature"]) / float(scale["temperature"]))


def orifice(flow, now, scale, practice):
    """Choked flow of an ideal gas: the volume flow upstream goes with the root of the kelvin, whatever the pressure."""
    return flow * math.sqrt(float(now["temperature"]) / float(scale["temperature"]))


def bubble(flow, now, scale, practice):
    """The dry share of the saturated air in the tube is kept; divided by the dry share of the air of the room."""
    humidity = {"none": None, "ambient": now["humidity"], "dry": 0}[practice.get("bubble_humidity", "none")]
    if humidity is None:
        return flow
    vapour, pressure = saturation_kpa(now["temperature"]), float(now["pressure"])
    return float(flow) * (pressure - vapour) / (pressure - float(humidity) * vapour)


PRINCIPLES = {"volumetric": volumetric, "mass": mass, "rotameter": rotameter, "orifice": orifice, "bubble": bubble}


# --- the files --------------------------------------------------------------------------------------------------------

def table(book, name):
    single = book / f"{name}.csv"
    for path in [single] if single.exists() else sorted((book / name).glob("*.csv")):
        with open(path, encoding="utf-8", newline="") as file:
            headings, *lines = csv.reader(file)
        for line in lines:
            row = {}
            for heading, cell in zip(headings, line, strict=True):
                column, _, unit = heading.rstrip("]").partition(" [")
                if unit and cell.startswith("<"):  # less than a limit
                    row["limit"], cell = inside(cell[1:], unit), ""
                if unit and cell == "nd":
                    cell = ""
                if column not in row or cell:
                    row[column] = (inside(cell, unit) if cell else None) if unit else cell
            yield row


def settings_of(book, packs):
    """book.toml, with what its packs say of samplers and practice, and their rules by full name."""
    settings = tomllib.loads((book / "book.toml").read_text("utf-8"))
    settings["rule"] = {}
    for pack in settings["rules"]["packs"]:
        path = book / pack if pack.endswith(".toml") else packs / f"{pack}.toml"
        read = tomllib.loads(path.read_text("utf-8"))
        settings["practice"] = read.get("practice", {}) | settings.get("practice", {})
        settings["sampler"] = read.get("sampler", {}) | settings.get("sampler", {})
        settings["rule"] |= {f"{read['pack']}/{rule['id']}": rule for rule in read["rule"] if rule.get("enabled", True)}
    return settings


def moment(text, zone):
    """Minutes on the absolute time line. The books know two zones; the other is seven hours, in summer six, behind."""
    stamp = datetime.datetime.fromisoformat(text)
    if stamp.tzinfo is None:
        hours = 0
        if zone != "UTC0":
            assert zone == "MST7MDT,M3.2.0,M11.1.0", zone
            summer = datetime.datetime(2026, 3, 8, 2), datetime.datetime(2026, 11, 1, 2)
            hours = -6 if summer[0] <= stamp < summer[1] else -7
        stamp = stamp.replace(tzinfo=datetime.timezone(datetime.timedelta(hours=hours)))
    return F((stamp - datetime.datetime(1970, 1, 1, tzinfo=datetime.timezone.utc)) // datetime.timedelta(seconds=1)) / 60


# --- samples ----------------------------------------------------------------------------------------------------------

def mean(figures):
    return sum(figures) / len(figures) if figures else None


def spread(figures):
    if len(figures) < 2:
        return None
    middle = mean(figures)
    return math.sqrt(sum((figure - middle) ** 2 for figure in figures) / (len(figures) - 1))


def corrected(reading, instruments, settings):
    meter = instruments[reading["calibrator"]]
    now = {name: reading.get(name) for name in ("temperature", "pressure", "humidity")}
    if now["pressure"] is None and "site" in settings:
        now["pressure"] = standard_atmosphere_kpa(quantity(settings["site"]["altitude"]))
    scale = {"temperature": meter.get("scale temperature"), "pressure": meter.get("scale pressure")}
    return PRINCIPLES[meter["principle"]](reading["reading"], now, scale, settings.get("practice", {}))


def nominal_of(sample, settings):
    if sample.get("nominal") is not None:
        return sample["nominal"]
    sampler = settings.get("sampler", {}).get(sample.get("sampler"), {})
    return quantity(sampler["nominal"]) if "nominal" in sampler else None


def drift(pre, post, base, nominal):
    """A share of the flow before, after, of their mean, or of the nominal flow."""
    return (post - pre) / {"pre": pre, "post": post, "mean": (pre + post) / 2, "nominal": nominal}[base]


def reference_volume(volume, sample, sets, settings):
    known = sets["pre"] + sets["post"]

    def condition(name):
        if sample.get(name) is not None:
            return sample[name]
        return mean([reading[name] for reading in known if reading.get(name) is not None])

    temperature, pressure = condition("temperature"), condition("pressure")
    if pressure is None and "site" in settings:
        pressure = standard_atmosphere_kpa(quantity(settings["site"]["altitude"]))
    if temperature is None or pressure is None:
        return None
    reference = {name: quantity(text) for name, text in settings["reference"].items()}
    return volume * pressure / reference["pressure"] * reference["temperature"] / temperature


def assessed(sample, sets, settings):
    practice = settings.get("practice", {})
    flows = {stage: [reading["flow"] for reading in sets[stage]] for stage in ("pre", "field", "post")}
    pre, post = mean(flows["pre"]), mean(flows["post"])
    zone = settings["time_zone"]
    figures = {"minutes": moment(sample["stopped"], zone) - moment(sample["started"], zone) - (sample.get("paused") or 0),
               "pre_n": len(flows["pre"]), "pre_l_min": pre, "pre.mean_l_min": pre, "pre_sd_l_min": spread(flows["pre"]),
               "post_n": len(flows["post"]), "post_l_min": post, "post.mean_l_min": post, "pre": pre, "post": post,
               "field": flows["field"], "nominal": nominal_of(sample, settings)}
    if pre is None or post is None:
        return figures
    figures["mean"] = (pre + post) / 2
    flow = {"mean": figures["mean"], "pre": pre, "lower": min(pre, post),
            "nominal": figures["nominal"]}[practice.get("flow_for_volume", "mean")]
    volume = flow * figures["minutes"]
    base = practice.get("drift_base", "pre")
    figures |= {"flow_l_min": flow, "volume_l": volume, "drift_percent": 100 * drift(pre, post, base, figures["nominal"]),
                "volume_reference_l": reference_volume(volume, sample, sets, settings)}
    return figures


def samples_of(book, settings):
    instruments = {row["instrument"]: row for row in table(book, "instruments")}
    for row in table(book, "certificates"):
        assert row["as left"] == row["reference"], f"{book}: a certificate with an error"
    readings = list(table(book, "readings"))
    for reading in readings:
        reading["flow"] = corrected(reading, instruments, settings)
    for sample in table(book, "samples"):
        own = [r for r in readings if r.get("sample") == sample["sample"]]
        if not own:  # the books over time: one reading before each sample on the one pump
            own = [r for r in readings if r["taken"][:10] == sample["started"][:10]]
        sets = {stage: [r for r in own if r["stage"] == stage] for stage in ("pre", "field", "post")}
        is_blank = sample.get("kind") == "blank"
        sample["figures"] = {} if is_blank else assessed(sample, sets, settings)
        yield sample


# --- what the laboratory found ----------------------------------------------------------------------------------------

def found(result):
    return result["after"] - result["before"] if result.get("before") is not None else result.get("amount")


def add_results(book, samples, settings):
    """NMAM 0501, page 3: the weight gained less that which the blanks of the batch gained on average, over the volume.
    What is less than its limit counts as nothing in a blank, and stays the limit in a sample."""
    results = list(table(book, "results"))
    for result in results:
        sample = samples[result["sample"]]
        if sample["kind"] == "blank":
            continue
        of_batch = [r for r in results if r["analyte"] == result["analyte"]
                    and samples[r["sample"]]["batch"] == sample["batch"]]
        blank = mean([found(r) or F(0) for r in of_batch if samples[r["sample"]]["kind"] == "blank"])
        amount, limit = found(result), result.get("limit")
        net = None if amount is None else amount - blank
        counts = limit if net is None or (limit is not None and min(amount, net) < limit) else net
        litres = sample["figures"]["volume_l"]
        is_fibres = result["analyte"] == "fibres"
        figures = {"found": amount, "blank_mean": blank, "net": net,
                   "concentration": counts / (1000 * litres) if is_fibres else 1000 * counts / litres}
        sample["figures"] |= {f"results[{result['analyte']}].{name}": figure for name, figure in figures.items()}


# --- rules ------------------------------------------------------------------------------------------------------------

def in_the_field(rule, f):
    """How many readings, or how far their mean is from the base that a rule names, else from the flow before."""
    if rule["measure"] == "field.count":
        return len(f["field"]), ""
    base = "nominal" if rule["measure"] == "field.nominal-deviation" else rule.get("base", "pre")
    start, unit = f.get(base), "L/min" if "L/min" in str(rule.get("within", "")) else "%"
    if start is None or not f["field"]:
        return None, unit
    change = mean(f["field"]) - start
    return (change, unit) if unit == "L/min" else (change / start, unit)


def measured(rule, sample, settings):
    """The figure a rule is about, and the unit in which the finding tells it."""
    f, name = sample["figures"], rule["measure"]
    if name == "drift":
        base = rule.get("base", settings.get("practice", {}).get("drift_base", "pre"))
        if "L/min" in str(rule.get("within", "")):
            return f["post"] - f["pre"], "L/min"
        return drift(f["pre"], f["post"], base, f["nominal"]), "%"
    if name.startswith("field."):
        return in_the_field(rule, f)
    flow = {"flow": f.get("flow_l_min"), "pre": f["pre"], "post": f["post"]}.get(name.split(".")[0])
    if name.endswith(".deviation") and flow is not None:
        in_flow = "L/min" in str(rule.get("within", ""))
        return (flow - f["nominal"], "L/min") if in_flow else (flow / f["nominal"] - 1, "%")
    if name in ("flow", "pre.flow", "post.flow"):
        return flow, "L/min"
    if name == "cut.shift":  # the 50 % cut size goes with the flow to the power of minus the sampler's exponent
        exponent = settings["sampler"][sample["sampler"]]["cut_exponent"]
        return float(f["flow_l_min"] / f["nominal"]) ** -exponent - 1, "%"
    return {"volume": (f.get("volume_l"), "L"), "minutes": (f["minutes"], "min"), "pre.count": (f["pre_n"], ""),
            "post.count": (f["post_n"], ""), "warm-up": (None, "min"), "vacuum": (sample.get("vacuum"), "kPa"),
            "leak": (sample.get("leak"), "L/min"), "interruptions": (F(sample["interruptions"]) if sample.get("interruptions") else None, ""),
            "pressure-drop": (sample.get("pressure drop"), "kPa"), "pulsation": (sample.get("pulsation"), "%")}[name]


def meets(rule, figure):
    for key, holds in (("within", lambda x, limit: abs(x) <= limit), ("strictly_within", lambda x, limit: abs(x) < limit),
                       ("at_most", lambda x, limit: x <= limit), ("at_least", lambda x, limit: x >= limit),
                       ("more_than", lambda x, limit: x > limit), ("less_than", lambda x, limit: x < limit)):
        if key in rule:
            return holds(figure, quantity(rule[key]))
    low, high = map(quantity, rule["between"])
    return low <= figure <= high


def concerns(rule, sample, settings):
    if rule["of"] != "sample":
        return False
    fields = {"kind": sample.get("kind") or "sample", "nominal": sample["figures"]["nominal"],
              "fraction": settings["sampler"].get(sample.get("sampler"), {}).get("fraction", "")} | \
             {name: sample.get(name, "") for name in ("method", "sampler", "analysis")}
    for name, wanted in rule.get("where", {}).items():
        if isinstance(wanted, dict) and "none_of" in wanted:
            left_out = wanted["none_of"]
            if fields[name] in (left_out if isinstance(left_out, list) else [left_out]):
                return False
        elif isinstance(wanted, dict):
            if fields[name] is None or not all(meets({key: limit}, fields[name]) for key, limit in wanted.items()):
                return False
        elif fields[name] not in (wanted if isinstance(wanted, list) else [wanted]):
            return False
    return True


OUTCOMES = {"note": "note", "qualify": "qualified", "void": "void", "undecided": "undecided"}


def findings(sample, settings):
    """Full name of each rule that is not met -> (outcome, figure, unit)."""
    found = {}
    for name, rule in settings["rule"].items():
        if not concerns(rule, sample, settings):
            continue
        figure, unit = measured(rule, sample, settings)
        if figure is None and rule["absent"] != "skip":
            found[name] = (OUTCOMES[rule["absent"]], None, unit)
        elif figure is not None and not meets(rule, figure):
            found[name] = (OUTCOMES[rule["otherwise"]], figure, unit)
    return found


def verdict(found):
    order = ("void", "undecided", "qualified")
    return next((word for word in order if any(outcome == word for outcome, *_ in found.values())), "valid")


# --- records over time ------------------------------------------------------------------------------------------------

def charts(values, history):
    """NIST/SEMATECH e-Handbook 6.3.2.2 to 6.3.2.4, with the exact constant d2(2) = 2 / sqrt(pi)."""
    values = [float(value) for value in values]
    base = values[:history.get("baseline", len(values))]
    moves = [abs(b - a) for a, b in zip(base, base[1:])]
    sigma = mean(moves) / (2 / math.sqrt(math.pi))
    centre = history.get("target", mean(base))
    figures = {"individuals.centre": mean(base), "individuals.upper": mean(base) + 3 * sigma,
               "individuals.lower": mean(base) - 3 * sigma, "moving-range.centre": mean(moves),
               "cusum.centre": centre, "cusum.sigma": sigma, "ewma.centre": centre}
    weight, width = history.get("ewma_lambda", 0.2), history.get("ewma_width", 3)
    far = width * sigma * math.sqrt(weight / (2 - weight))
    figures |= {"ewma.upper": centre + far, "ewma.lower": centre - far}
    return figures


def history_figure(field, values, history):
    if field.endswith("points.size"):
        return len(values)
    named = {f"{chart}.{name}": figure for key, figure in charts(values, history).items()
             for chart, name in [(f"charts[{key.split('.')[0]}]", key.split(".")[1])]}
    return named[field.split("series[pre-flow].")[1]]


# --- the rows ---------------------------------------------------------------------------------------------------------

def figure_of(field, look_up):
    """Sums of products, as the books write them: "100 - 100 * volume_reference_l / volume_l"."""
    words = field.split()
    total, product = 0, None
    for sign, word in zip(["+"] + words[1::2], words[::2]):
        number = F(word) if re.fullmatch(r"-?\d+(\.\d+)?", word) else look_up(word)
        if sign in "*/":
            product = product * number if sign == "*" else product / number
        else:
            total += product or 0
            product = number if sign == "+" else -number
    return total + product


def worked_out(row, book, settings, samples):
    """The figure or text that a row is about."""
    if not row["sample"]:
        if row["field"].startswith("totals."):
            return sum(verdict(findings(s, settings)) == row["field"].split(".")[1] for s in samples.values())
        values = [s["figures"]["pre"] for s in samples.values()]
        return figure_of(row["field"], lambda word: history_figure(word, values, settings.get("history", {})))
    subjects = [samples[name] for name in row["sample"].split(" + ")]
    if row["field"] == "verdict":
        return verdict(findings(subjects[0], settings))
    if named := re.fullmatch(r"findings\[(.+)\]\.(outcome|value)", row["field"]):
        assert named[1] in settings["rule"], f"{named[1]} is no rule of {book}"
        outcome, figure, unit = findings(subjects[0], settings).get(named[1], ("absent", None, ""))
        return outcome if named[2] == "outcome" else figure / UNITS[unit]
    return sum(figure_of(row["field"], subject["figures"].__getitem__) for subject in subjects)


def agrees(row, got):
    if row["tolerance"] == "":
        return got == row["expected"]
    # exact fractions need no room for binary ones; half an ulp of the written tolerance is allowed to roots
    return abs(float(got) - float(row["expected"].split()[0])) <= float(row["tolerance"]) * (1 + 1e-9) + 1e-12


def main(folder, packs):
    worked = faults = 0
    for path in sorted(folder.rglob("expected*.csv")):
        settings = settings_of(path.parent, packs)
        samples = {sample["sample"]: sample for sample in samples_of(path.parent, settings)}
        add_results(path.parent, samples, settings)
        for line, row in enumerate(csv.DictReader(open(path, encoding="utf-8")), 2):
            if row["kind"] in QUOTED:
                continue
            worked += 1
            got = worked_out(row, path.parent, settings, samples)
            if not agrees(row, got):
                faults += 1
                print(f"{path}:{line}: {row['sample']} {row['field']}: {row['expected']}, worked out as "
                      f"{got if isinstance(got, str) else float(got)}")
    print(f"{worked} worked out, {faults} differ")
    return 0 if worked and not faults else 1


if __name__ == "__main__":
    top = pathlib.Path(__file__).parents[2]
    sys.exit(main(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else top / "rules"))
