#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes the demo book: an invented mine and tunnel, eight weeks of samples, and troubles planted on purpose.

    python3 tests/support/make_demo_book.py            (from the project's folder; writes the same bytes every time)

Writes docs/demo, docs/demo-typo, the table of planted troubles in docs/demo/README.md, and
tests/golden/demo/independent.csv. The instruments and the physics are in demo_instruments.py, the samples and the
troubles in demo_plan.py; demo_arithmetic.py reads the written files back and knows nothing of the truth.
"""
import csv
import datetime
import math
import pathlib
import tomllib

import demo_arithmetic
from demo_instruments import (CALIBRATIONS, CALIBRATORS, MINUTE, ROT2_FOUND, Air, Chance, air_at, believed_to_true,
                              certificate_points, local, shown_flow, stamp, true_errors)
from demo_plan import (CALIBRATOR_OF, CYCLONE, DRIFT, FAULT, FLOW, LATE, RESPIRABLE, SCATTER, WELD, all_plans, planted,
                       planted_instruments)

PROJECT = pathlib.Path(__file__).resolve().parents[2]
DEMO, TYPO = PROJECT / "docs/demo", PROJECT / "docs/demo-typo"


# --- readings --------------------------------------------------------------------------------------------------------

def set_of(plan, stage, name, at, true_flow, n, given=None):
    """Replicate readings a minute apart, as cells."""
    air, chance, errors = air_at(plan.batch[:2], at), Chance(f"{plan.name}/{stage}/{name}"), true_errors(name, at)
    for k in range(n):
        now = Air(chance.normal(air.celsius, .08), chance.normal(air.kpa, .01), chance.normal(air.humidity, .4))
        flow = true_flow * chance.normal(1, .0015)
        shown = given[k] if given else round(shown_flow(flow, name, now, errors), CALIBRATORS[name].step)
        struck = stage == "pre" and k + 1 == plan.void_replicate
        yield {"taken": at + k * MINUTE, "stage": stage, "sample": plan.name, "pump": plan.pump, "calibrator": name,
               "shown": round(shown * .96, 3) if struck else shown, "celsius": round(now.celsius, 1),
               "kpa": round(now.kpa, 2) if plan.reads_pressure else None,
               "humidity": round(now.humidity) if CALIBRATORS[name].principle == "bubble" else "",
               "replicate": k + 1, "set": f"{plan.name} {stage}", "by": f"technician {1 + (plan.batch[0] == 'S')}",
               "void": "yes" if struck else "", "note": "film broke half way up the tube" if struck else ""}


def readings_of(plan):
    air = air_at(plan.batch[:2], plan.pre_at)
    if plan.pre_shown:  # an instrument without error at this flow
        pre_flow = math.fsum(plan.pre_shown) / len(plan.pre_shown)
    else:
        pre_flow = believed_to_true(plan.nominal * plan.level, plan.calibrator, air, plan.pre_at)
    post_flow = pre_flow * (1 + plan.drift / 100)
    rows = []
    if plan.has_pre:
        rows += set_of(plan, "pre", plan.calibrator, plan.pre_at, pre_flow, len(plan.pre_shown or ()) or plan.n,
                       plan.pre_shown)
    *meters, begin = plan.field or (0,)
    for k, meter in enumerate(meters):
        rows += set_of(plan, "field", meter, plan.started + (begin + 12 * k) * MINUTE, (pre_flow + post_flow) / 2, 3)
    if plan.has_post:
        after = plan.post_calibrator or plan.calibrator
        rows += set_of(plan, "post", after, plan.post_at, post_flow, plan.n, plan.post_shown)
    return rows


def all_readings(plans):
    of = {plan.name: readings_of(plan) for plan in plans}
    for plan in plans:
        if plan.copied_from:
            for row, model in zip(of[plan.name], of[plan.copied_from], strict=True):
                row |= {key: model[key] for key in ("shown", "celsius", "kpa", "humidity")}
    return of


# --- files -----------------------------------------------------------------------------------------------------------

def write_csv(path, rows, separator=","):
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=separator, lineterminator="\n").writerows(rows)


def decimals(figure, places):
    return "" if figure is None else f"{figure:.{places}f}"


def fahrenheit(celsius):
    return decimals(None if celsius is None else celsius * 9 / 5 + 32, 1)


def inches_of_mercury(kpa):
    return decimals(None if kpa is None else kpa / 3.386388640341, 2)


PLAIN_READINGS = {
    "taken": lambda r: stamp(r["taken"]), "stage": lambda r: r["stage"], "sample": lambda r: r["sample"],
    "calibrator": lambda r: r["calibrator"],
    "reading [L/min]": lambda r: decimals(r["shown"], CALIBRATORS[r["calibrator"]].step),
    "temperature [°C]": lambda r: decimals(r["celsius"], 1), "pressure [kPa]": lambda r: decimals(r["kpa"], 2),
    "humidity [%]": lambda r: r["humidity"], "replicate": lambda r: r["replicate"], "by": lambda r: r["by"],
    "void": lambda r: r["void"], "note": lambda r: r["note"],
}
OWN_HEADINGS = {  # of the tunnel crew's sheet
    "Clock": "taken", "When": "stage", "Cassette": "sample", "Meter": "calibrator", "Flow LPM": "reading [L/min]",
    "Bench temp": "temperature [°C]", "Bench baro": "pressure [kPa]", "RH": "humidity [%]", "No.": "replicate",
    "Hand": "by", "Struck": "void", "Remark": "note",
}


def readings_layout(week):
    """The columns of a week's file: {heading: cell of a reading}."""
    layout = dict(PLAIN_READINGS)
    if week == 40:  # names only the pump
        other = {"sample": ("pump", lambda r: r["pump"])}
        layout = dict(other.get(heading, (heading, cell)) for heading, cell in layout.items())
    if week == 41:
        other = {"reading [L/min]": ("reading [mL/min]", lambda r: decimals(r["shown"] * 1000, 0)),
                 "temperature [°C]": ("temperature [°F]", lambda r: fahrenheit(r["celsius"])),
                 "pressure [kPa]": ("pressure [inHg]", lambda r: inches_of_mercury(r["kpa"]))}
        layout = dict(other.get(heading, (heading, cell)) for heading, cell in layout.items())
    if week == 44:
        layout = {own: layout[heading] for own, heading in OWN_HEADINGS.items()}
    if week == 46:
        layout |= {"pump": lambda r: r["pump"], "set": lambda r: r["set"]}
    return layout


def write_readings(week, rows):
    layout = readings_layout(week)
    rows = sorted(rows, key=lambda r: r["taken"])
    cells = [[cell(row) for cell in layout.values()] for row in rows]
    write_csv(DEMO / f"readings/2026-W{week}.csv", [list(layout), *cells], ";" if week == 43 else ",")


def sample_row(plan, other_units):
    chance = Chance(f"{plan.name}/place")
    bench = air_at(plan.batch[:2], plan.started)
    celsius = round(bench.celsius - chance.normal(2.5, .8), 1) if "temperature" in plan.states else None
    kpa = round(bench.kpa + chance.normal(.9, .2), 2) if "pressure" in plan.states else None
    paused = plan.paused / 60 if other_units else plan.paused
    weld = plan.sampler == WELD
    return [plan.name, plan.batch, "sample", plan.pump, plan.sampler, "site method 12" if weld else "site method 7",
            "welding fume, metals" if weld else "respirable dust and quartz", stamp(plan.started), stamp(plan.stopped),
            f"{paused:g}" if plan.paused else "", plan.warm_up,
            fahrenheit(celsius) if other_units else decimals(celsius, 1),
            inches_of_mercury(kpa) if other_units else decimals(kpa, 2), plan.fault or "no", plan.note]


def write_samples(week, plans):
    other_units = week == 41
    units = ("h", "°F", "inHg") if other_units else ("min", "°C", "kPa")
    rows = [["sample", "batch", "kind", "pump", "sampler", "method", "analysis", "started", "stopped",
             f"paused [{units[0]}]", "warm-up [min]", f"temperature [{units[1]}]", f"pressure [{units[2]}]", "fault",
             "note"]]
    for batch in dict.fromkeys(plan.batch for plan in plans):
        mates = [plan for plan in plans if plan.batch == batch]
        rows += [sample_row(plan, other_units) for plan in mates]
        for k in (1, 2):
            rows.append([f"{batch}-B{k}", batch, "blank", "", RESPIRABLE, "site method 7", "respirable dust and quartz"]
                        + [""] * 7 + ["opened and closed at the bench" if k == 1 else ""])
    if week == 46:
        with_cassettes(rows)
    write_csv(DEMO / f"samples/2026-W{week}.csv", rows)


def with_cassettes(rows):
    """Since week 46 the crew writes down the number of each cassette, and who took the sample."""
    rows[0] += ["medium", "by"]
    for number, row in enumerate(rows[1:], 4601):
        row += [f"C-{number}", "tunnel crew" if row[0].startswith("ST") else "mine crew"]


def write_instruments():
    rows = [["instrument", "kind", "principle", "serial", "low [L/min]", "high [L/min]", "scale temperature [°C]",
             "scale pressure [kPa]", "read at", "resolution [L/min]", "interval [d]", "in service", "out of service",
             "note"]]
    for number in range(1, 13):
        serial, out = 40118 + 37 * number, "2026-11-13" if number == 7 else ""
        rows.append([f"PUMP-{number:02d}", "pump", "", f"TF-{serial}", 0.8, 3, *[""] * 5, "2024-03-04", out,
                     "withdrawn: flow wanders" if out else ""])
    for name, gear in CALIBRATORS.items():
        read_at = "centre" if gear.principle == "rotameter" else ""
        rows.append([name, "calibrator", gear.principle, f"{name}-{sum(map(ord, name)) + 5000}", gear.low, gear.high,
                     *(gear.scale or ("", "")), read_at, decimals(10 ** -gear.step, gear.step), gear.interval, "2023-01-09", "", gear.note])
    rows.append(["THERM-1", "thermometer", "", "T-6120", *[""] * 6, 365, "2023-01-09", "", "bench thermometer"])
    rows.append(["BARO-1", "barometer", "", "B-2214", *[""] * 6, 365, "2023-01-09", "",
                 "reads station pressure, not reduced to sea level"])
    rows.append(["MB-2", "balance", "", "MB-2-0417", *[""] * 6, 365, "2023-01-09", "", "of the Lower Ferrow dust laboratory"])
    write_csv(DEMO / "instruments.csv", rows)


def write_certificates():
    rows = [["certificate", "instrument", "calibrated", "due", "issuer", "standard", "temperature [°C]",
             "pressure [kPa]", "nominal [L/min]", "reference [L/min]", "as found [L/min]", "as left [L/min]",
             "expanded uncertainty [%]", "coverage factor", "tolerance [%]"]]
    for name, day, strayed, adjusted in CALIBRATIONS:
        gear, air = CALIBRATORS[name], air_at("TF", local(datetime.date.fromisoformat(day), "14:00"))
        due = datetime.date.fromisoformat(day) + datetime.timedelta(days=gear.interval)
        issuer = "Lower Ferrow flow laboratory" if name == "VOL-LAB" else "Tamber Fold instrument room"
        head = [f"{name}/{day}", name, day, due, issuer, gear.standard, decimals(air.celsius, 1), decimals(air.kpa, 2)]
        places = 3 if adjusted else 4  # of the reference flow
        for nominal, reference, found, left in certificate_points(name, day, strayed, adjusted):
            rows.append([*head, decimals(nominal, 2), decimals(reference, places), decimals(found, gear.step),
                         decimals(left, gear.step), gear.uncertainty, 2, gear.tolerance])
    write_csv(DEMO / "certificates.csv", rows)
    # Of the laboratory's balance, in mg: a file of its own.
    write_csv(DEMO / "certificates/balances.csv", [
        ["certificate", "instrument", "calibrated", "due", "issuer", "standard", "nominal [mg]", "reference [mg]", "as found [mg]",
         "expanded uncertainty [mg]", "coverage factor", "tolerance [mg]"],
        *[["MB-2/2026-05-12", "MB-2", "2026-05-12", "2027-05-12", "Lower Ferrow weighing laboratory", "weights of Lower Ferrow, class E2",
           nominal, reference, found, u, 2, "0.010"]
          for nominal, reference, found, u in ((10, "10.0004", "10.002", "0.004"), (20, "20.0002", "20.003", "0.004"),
                                               (50, "49.9998", "50.004", "0.006"))]])


def write_kits():
    """What belongs to a kind of kit, and what went out in which since the end of October: K-2 is not back in time, a hose
    of K-1 is missing, and K-3 is being packed with what is not fit to go."""
    lists = {"mine, by day": [["pump", "pump", 2, "charged the evening before, inlet clean"],
                              ["calibrator", "calibrator", 1, "with its case, and a valid certificate"],
                              ["hose, 90 cm", "", 2, "no cracks, tight at both ends"], ["impactor, respirable", "", 2, ""],
                              ["cassettes, sealed", "", 4, "two of them blanks"], ["labels, spare", "", 8, ""],
                              ["field form", "", 2, ""]],
             "tunnel, by night": [["pump", "pump", 2, "charged the evening before, inlet clean"],
                                  ["calibrator", "calibrator", 1, "with its case, and a valid certificate"],
                                  ["hose, 90 cm", "", 2, "no cracks, tight at both ends"], ["open cowl", "", 2, ""],
                                  ["cassettes, sealed", "", 4, "two of them blanks"], ["head lamp", "", 1, ""],
                                  ["field form", "", 2, ""]]}
    write_csv(DEMO / "kits.csv", [["kind of kit", "item", "kind of instrument", "number", "note"],
                                  *[[kind, *item] for kind, items in lists.items() for item in items]])
    trips = [("K-1", "mine, by day", ["PUMP-05", "PUMP-06", "ROT-2"], "2026-10-30", "mine crew", "2026-11-05", "2026-11-05"),
             ("K-2", "tunnel, by night", ["PUMP-06", "ROT-2"], "2026-11-06", "tunnel crew", "2026-11-09", "2026-11-09"),
             ("K-1", "mine, by day", ["PUMP-05", "hose, 90 cm"], "2026-11-06", "mine crew", "2026-11-10", "2026-11-10"),
             ("K-2", "tunnel, by night", ["PUMP-11", "PUMP-12", "ROT-2"], "2026-11-13", "tunnel crew", "2026-11-15", ""),
             ("K-3", "mine, by day", ["PUMP-08", "VOL-2"], "", "mine crew", "", "")]
    rows = [["kit", "kind of kit", "instrument", "item", "out", "to", "checked by", "due back", "charged", "back",
             "checked back by", "condition", "missing", "note"]]
    for kit, kind, things, out, to, due, back in trips:
        for thing in things:
            is_item = " " in thing
            charged = "" if is_item or not thing.startswith("PUMP") else "yes" if out else "no"
            rows.append([kit, kind, "" if is_item else thing, thing if is_item else "", out, to,
                         "instrument room" if out else "", due, charged, back, "instrument room" if back else "",
                         "good" if back and not is_item else "", "yes" if is_item else "", ""])
    write_csv(DEMO / "issues.csv", rows)


def write_results():
    """What the laboratory found: quartz on a blank of TF40A, and on TF44A one filter near the limit."""
    gained = {"TF44A-1": ("14.102", "14.720"), "TF44A-2": ("13.988", "14.400"), "TF44A-3": ("14.317", "15.020"),
              "TF44A-4": ("14.056", "14.311"), "TF44A-5": ("14.211", "14.245"), "TF44A-6": ("14.173", "14.713"),
              "TF44A-B1": ("13.921", "13.927"), "TF44A-B2": ("14.120", "14.124")}
    quartz = {"TF40A-1": ("0.046", "0.006", ""), "TF40A-B1": ("0.014", "0.004", "looked for twice"),
              "TF40A-B2": ("<0.010", "", "")}
    laboratory = "Lower Ferrow dust laboratory"
    write_csv(DEMO / "results.csv", [
        ["sample", "analyte", "amount [mg]", "before [mg]", "after [mg]", "limit [mg]", "expanded uncertainty [mg]",
         "coverage factor", "laboratory", "reported", "balance", "qualifier", "note", "kind", "batch", "weighed before", "weighed after"],
        *[[name, "quartz", amount, "", "", "0.010", u, 2 if u else "", laboratory, "2026-10-02", "", "", note, *[""] * 4]
          for name, (amount, u, note) in quartz.items()],
        *[[name, "dust", "", before, after, "0.030", *(("", "") if name == "TF44A-6" else ("0.010", 2)), laboratory, "2026-10-30",
           "MB-2", "", "", "", "", "2026-10-12", "2026-10-28"] for name, (before, after) in gained.items()],
        *[[name, "dust", "", before, after, "", "", "", laboratory, "2026-10-30", "MB-2", "", "stayed in the weighing room",
           "control", "TF44A", "2026-10-12", "2026-10-28"] for name, before, after in (("CF-1", "13.640", "13.642"),
                                                                                    ("CF-2", "14.012", "14.013"))]])


def write_plan():
    """What is to be sampled on the Monday after the book's last day."""
    head = ["sample", "batch", "kind", "pump", "calibrator", "sampler", "method", "analysis", "medium", "day", "target [mg/m3]",
            "expected [mg/m3]", "note"]
    rows = [["TF47A-1", "", "PUMP-01", "VOL-1", "C-4701", "0.2", "1", "at the face"],
            ["TF47A-2", "", "PUMP-02", "VOL-1", "C-4702", "0.2", "12", "at the crusher, where it is dusty"],
            ["TF47A-3", "", "PUMP-03", "VOL-1", "C-4703", "", "", "as usual: nobody set a target"],
            ["TF47A-B1", "blank", "", "", "C-4704", "", "", ""], ["TF47A-B2", "blank", "", "", "C-4705", "", "", ""]]
    write_csv(DEMO / "plan.csv", [head, *[[name, "TF47A", kind, pump, meter, RESPIRABLE, "site method 7", "respirable dust and quartz",
                                           medium, "2026-11-16", target, expected, note]
                                          for name, kind, pump, meter, medium, target, expected, note in rows]])


BOOK = f'''# The demo book. Everything in it is invented; README.md tells the story.
title     = "Tamber Fold mine and Sorrel tunnel, autumn 2026 (invented)"
time_zone = "America/Denver"

[reference]
temperature = "25 °C"
pressure    = "101.325 kPa"

[site]
altitude = "1500 m"

# How well the bench thermometer and barometer are known: half-widths.
[uncertainty]
temperature = "0.5 °C"
pressure    = "0.3 kPa"

[rules]
packs = ["common-practice", "house.toml"]

[[override]]
rule    = "{SCATTER}"
at_most = "3 %"
reason  = "The bench at the tunnel stands beside the ventilation duct; its replicates scatter more than the pumps do."

[sampler.{RESPIRABLE}]
title    = "Respirable parallel impactor of the Tamber Fold samplers (invented), 2.0 L/min"
nominal  = "2.0 L/min"
fraction = "respirable"
source   = "Tamber Fold sampling procedure 4, section 2 (invented)"
cut_exponent = 0.5
cut_source   = "Stokes number at the 50 % cut is constant, so that the cut size goes as flow to the power -1/2 (derived)"

[sampler.{WELD}]
title   = "Open cowl for welding fume, 1.5 L/min"
nominal = "1.5 L/min"

# Week 44 was written on the tunnel crew's own sheet.
[headings.readings]
''' + "".join(f'"{own}" = "{heading}"\n' for own, heading in OWN_HEADINGS.items()) + f'''
[files]
ignore = ["README.md", "planted*.csv"]

[custody]
sender     = ["Tamber Fold mine, sampling office (invented)", "Gate 3, Ferrow Road", "Tamber Fold"]
laboratory = ["Lower Ferrow dust laboratory (invented)", "12 Mill Lane", "Lower Ferrow"]

[custody."*46*"]
reference = "LF-2026-131"

# On trial in week 44.
[sampler.{CYCLONE}]
title        = "Respirable cyclone on trial at Tamber Fold (invented), 2.0 L/min"
nominal      = "2.0 L/min"
fraction     = "respirable"
source       = "Tamber Fold trial note 2 (invented)"
cut          = "4.0 µm"
cut_spread   = 1.25
cut_law      = "cyclone"
cut_exponent = 0.75
cut_flows    = ["1.5 L/min", "2.5 L/min"]
cut_source   = "Tamber Fold trial note 2, wind tunnel of Lower Ferrow (invented)"

# What the round with the cascade impactor found at the face.
[aerosol]
mmad   = "5 µm"
gsd    = 2.0
source = "Cascade impactor round of 2026-03-12 at the face (invented)"

# What the laboratory can do, for planning; both words are described, so that neither is taken for a slip.
[method."site method 7"]
title = "Respirable dust by gravimetry, quartz by infrared (invented)"
[method."site method 7".quantification]
mass     = "0.1 mg"
source   = "Lower Ferrow dust laboratory, letter of 2026-02-03 (invented)"
standing = "house"
[method."site method 7".loading]
mass     = "2 mg"
source   = "Tamber Fold sampling procedure 4, section 5 (invented)"
standing = "house"
[method."site method 12"]
title = "Metals in welding fume (invented)"

[practice]
blank_correction = "mean"
reason = "Tamber Fold sampling procedure 4, section 8: what the field blanks gained on average is taken off (invented)"
'''
HOUSE = '''pack    = "house"
title   = "House rules of the Tamber Fold samplers (invented)"
edition = "2026-09-01"

[[rule]]
id        = "prompt-post-reading"
of        = "sample"
where     = { kind = "sample" }
measure   = "post.age"
at_most   = "2 h"
otherwise = "qualify"
absent    = "skip"
reason    = "A pump that has cooled on the shelf is not the pump that ran."
source    = "Tamber Fold sampling procedure 4, section 6 (invented)"
standing  = "house"

[[rule.example]]
given = { "post.age" = "2 h" }
gives = "valid"
[[rule.example]]
given = { "post.age" = "2.1 h" }
gives = "qualified"

[[rule]]
id        = "shortest"
of        = "sample"
where     = { kind = "sample" }
measure   = "minutes"
at_least  = "180 min"
otherwise = "qualify"
reason    = "Less than three hours does not speak for a shift."
source    = "Tamber Fold sampling procedure 4, section 3 (invented)"
standing  = "house"

[[rule.example]]
given = { minutes = "180 min" }
gives = "valid"
[[rule.example]]
given = { minutes = "179 min" }
gives = "qualified"

[[rule]]
id        = "blank-above-limit"
of        = "result"
measure   = "blank.above-limit"
is        = "no"
otherwise = "void"
absent    = "skip"
reason    = "What a blank carries, the samples it stands for may carry, too."
source    = "Tamber Fold sampling procedure 4, section 8 (invented)"
standing  = "house"

[[rule.example]]
given = { "blank.above-limit" = "no" }
gives = "valid"
[[rule.example]]
given = { "blank.above-limit" = "yes" }
gives = "void"
'''
DECISIONS = [
    ["decided", "by", "subject", "rule", "ruling", "reason"],
    ["2026-10-12T09:30", "site hygienist", "TF41B-3", LATE, "overrule",
     "The pump lay switched off in its heated case; drift -0.8 % and the next pre reading agrees."],
    ["2026-10-26T10:15", "site hygienist", "TF43A-5", FAULT, "uphold",
     "Nobody can say how long the inlet was half closed. Sample to be taken again."],
    ["2026-11-13T08:40", "instrument keeper", "TF46B-1", DRIFT, "uphold",
     "Its drift has grown for a month; pump withdrawn."],
]


# --- a book with typos -----------------------------------------------------------------------------------------------

def typo_samples():
    """(sample, pump, pre from, started, stopped, post from), local times as somebody wrote them."""
    night, day = "2026-10-31T", "2026-11-0"
    return [("TY-1", "PUMP-01", night + "21:10", night + "21:40", day + "1T01:30", day + "1T03:30"),
            ("TY-2", "PUMP-02", night + "21:20", night + "21:45", day + "1T03:10", day + "1T03:40"),
            ("TY-3", "PUMP-03", night + "21:30", night + "21:50", day + "1T03:15", day + "1T03:50"),
            ("TY-4", "PUMP-04", night + "21:00", night + "21:55", day + "1T03:20", day + "1T04:00"),
            ("TY-5", "PUMP-01", day + "2T06:00", day + "2T06:30", day + "2T14:30", day + "2T14:40")]


def typo_readings(samples, temperature_heading):
    rows = [["taken", "stage", "sample", "calibrator", "reading [L/min]", temperature_heading]]
    for name, _, before, _, _, after in samples:
        n = int(name[-1])
        for stage, start, flow in (("pre", before, 2.004), ("post", after, 1.989)):
            shown = [flow + ((n * n + 3 * n * k + 5 * k * k) % 11 - 5) / 1000 for k in range(3)]
            rows += [[f"{start[:-1]}{k}", stage, name, "VOL-1", f"{shown[k]:.3f}", "15.3"] for k in range(3)]
    return rows


def typo_book():
    """One set of files in which somebody mistyped: {file: rows}, and the faults as (file, line, cell, what)."""
    taken = typo_samples()
    instruments = [["instrument", "kind", "principle", "serial"],
                   *[[f"PUMP-0{k}", "pump", "", f"TF-{40118 + 37 * k}"] for k in (1, 2, 3, 4)],
                   ["VOL-1", "calibrator", "volumetric", "VOL-1-5335"]]
    certificates = [["certificate", "instrument", "calibrated", "nominal [L/min]", "reference [L/min]",
                     "as found [L/min]"],
                    *[["VOL-1/2026-08-24", "VOL-1", "2026-08-24", flow, f"{flow + .002:.3f}", f"{flow + .004:.3f}"]
                      for flow in (1.5, 2.0, 2.5)]]
    samples = [["sample", "batch", "kind", "pump", "nominal [L/min]", "started", "stopped", "temperature [°C]",
                "pressure [kPa]"],
               *[[s[0], "TY", "sample", s[1], "2.0", s[3], s[4], "15.2", "84.9"] for s in taken]]
    week44, week45 = typo_readings(taken[:4], "temperature [°C]"), typo_readings(taken[4:], "temperature")
    week44[8][4] = "2.O05"
    week44[15][3] = "VOL1"
    faults = [("samples.csv", 2, 6, "a time that the clock change makes ambiguous, without its offset"),
              ("readings/2026-W44.csv", 9, 4, "a letter O in a number"),
              ("readings/2026-W44.csv", 16, 3, "a calibrator that nobody knows; VOL-1 is meant"),
              ("readings/2026-W45.csv", 1, 5, "a heading without its unit")]
    return {"instruments.csv": instruments, "certificates.csv": certificates, "samples.csv": samples,
            "readings/2026-W44.csv": week44, "readings/2026-W45.csv": week45}, faults


def write_typo_book():
    files, faults = typo_book()
    for name, rows in files.items():
        write_csv(TYPO / name, rows)
    column = [1 + len(",".join(map(str, files[file][line - 1][:cell] + [""]))) for file, line, cell, _ in faults]
    write_csv(TYPO / "planted.csv", [["file", "line", "column", "what"],
                                     *[[file, line, at, what] for (file, line, _, what), at in zip(faults, column)]])
    (TYPO / "book.toml").write_text(TYPO_BOOK, "utf-8")


TYPO_BOOK = '''title     = "A book with typos (invented)"
time_zone = "America/Denver"

[reference]
temperature = "25 °C"
pressure    = "101.325 kPa"

[rules]
packs = ["common-practice"]

[files]
ignore = ["planted.csv"]
'''


# --- all of it --------------------------------------------------------------------------------------------------------

def write_readme_table(rows):
    """Puts the table of planted troubles between the marks in the README."""
    path, begin, end = DEMO / "README.md", "<!-- planted: begin -->\n", "<!-- planted: end -->"
    text = path.read_text("utf-8")
    lines = ["| sample | expected verdict | rules that speak | what |", "|---|---|---|---|"]
    lines += [f"| {s} | {v} | {r.replace(';', ', ')} | {w} |" for s, v, r, w, _ in rows if w]
    lookback = ", ".join(row[0] for row in rows if row[4])
    lines += ["", f"Look-back of ROT-2 (certificate ROT-2/{ROT2_FOUND}): {lookback}."]
    head, tail = text.split(begin)[0], text.split(end)[1]
    path.write_text(head + begin + "\n".join(lines) + "\n" + end + tail, "utf-8")


def check_names(rows):
    """Every rule and sampler named here is in a pack or in the book."""
    files = (PROJECT / "rules/common-practice.toml", DEMO / "house.toml", DEMO / "book.toml")
    packs = [tomllib.loads(path.read_text("utf-8")) for path in files]
    rules = {f"{pack['pack']}/{rule['id']}" for pack in packs for rule in pack.get("rule", [])}
    samplers = {sampler for pack in packs for sampler in pack.get("sampler", {})}
    assert {rule for row in rows for rule in row[2].split(";") if rule} <= rules, rules
    assert {RESPIRABLE, WELD, CYCLONE} <= samplers, samplers


def check_figures(results, plans, rows):
    """The planted figures are there, and nobody else comes near a limit."""
    of, told = {result["sample"]: result for result in results}, {row[0]: row for row in rows}
    for name, drift in (("TF39A-2", 4.6), ("TF43B-2", -4.9), ("TF46A-3", -5.0)):
        assert abs(of[name]["drift_percent"] - drift) < 1e-9, (name, of[name])
    for plan in plans:
        figures, (_, verdict, rules, what, _) = of[plan.name], told.get(plan.name, ("", "valid", "", "", ""))
        drift = figures.get("drift_percent")
        if drift is None:
            assert verdict in ("undecided", "void") and DRIFT in rules, plan.name
            continue
        off = figures["flow_l_min"] / plan.nominal - 1
        assert (abs(drift) > 5 + 1e-9) == (DRIFT in rules), (plan.name, figures)
        assert (abs(off) > .05) == (FLOW in rules), (plan.name, off)
        assert what or (abs(drift) < 4.5 and abs(off) < .045), (plan.name, figures)


def main():
    plans = all_plans()
    readings = all_readings(plans)
    for week in CALIBRATOR_OF:
        of_week = [plan for plan in plans if plan.name[2:4] == str(week)]
        write_samples(week, of_week)
        write_readings(week, [row for plan in of_week for row in readings[plan.name]])
    write_instruments()
    write_certificates()
    write_kits()
    write_results()
    write_plan()
    write_csv(DEMO / "decisions.csv", DECISIONS)
    (DEMO / "book.toml").write_text(BOOK, "utf-8")
    (DEMO / "house.toml").write_text(HOUSE, "utf-8")
    write_typo_book()
    rows = list(planted(plans))
    write_csv(DEMO / "planted.csv", [["sample", "expected verdict", "rule ids", "what", "lookback"], *rows])
    write_csv(DEMO / "planted-instruments.csv", planted_instruments())
    write_readme_table(rows)
    results = demo_arithmetic.assess(DEMO)
    check_names(rows)
    check_figures(results, plans, rows)
    golden = PROJECT / "tests/golden/demo/independent.csv"
    golden.parent.mkdir(parents=True, exist_ok=True)
    with open(golden, "w", encoding="utf-8", newline="") as file:
        demo_arithmetic.write(results, file)


if __name__ == "__main__":
    main()