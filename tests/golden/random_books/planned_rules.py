# SPDX-License-Identifier: MIT
"""Plans what a random book is judged by: packs, a pack of its own over every measure, overrides and practices."""

# What a sample's records are asked for.
RECORDS = ("pump-serial", "by", "conditions", "sampling-conditions", "calibrator-serial", "certificate-uncertainty",
           "certificate-issuer", "certificate-standard", "chain", "void-reasons", "method", "fault")
# Of each measure: limits that some samples keep and others do not, each with a figure that keeps it and one that does not.
LIMITS = {
    "sample": {
        "drift": [("within = '3 %'", "3 %", "-3.1 %"), ("strictly_within = '5 %'", "4.9 %", "5 %"),
                  ("within = '0.05 L/min'", "0.05 L/min", "51 mL/min")],
        "flow": [("between = ['1.9 L/min', '2.1 L/min']", "1.9 L/min", "1.89 L/min")],
        "flow.deviation": [("within = '2 %'", "2 %", "2.1 %"), ("strictly_within = '40 mL/min'", "0.03 L/min", "0.04 L/min")],
        "pre.flow": [("at_least = '1.95 L/min'", "1.95 L/min", "1.9 L/min")],
        "post.flow": [("less_than = '2.0 L/min'", "1.99 L/min", "2.0 L/min")],
        "pre.deviation": [("within = '1 %'", "1 %", "1.1 %")],
        "post.deviation": [("within = '2 %'", "2 %", "-3 %")],
        "pre.count": [("at_least = 3", 3, 2)],
        "post.count": [("more_than = 2", 3, 2)],
        "pre.rsd": [("at_most = '0.3 %'", "0.3 %", "0.31 %")],
        "post.rsd": [("at_most = '0.4 %'", "0.4 %", "0.41 %")],
        "field.count": [("at_least = 1", 1, 0)],
        "field.deviation": [("within = '2 %'", "2 %", "2.1 %")],
        "field.nominal-deviation": [("within = '2 %'", "2 %", "2.1 %")],
        "minutes": [("between = ['2 h', '5 h']", "300 min", "301 min"), ("at_least = '240 min'", "4 h", "3.9 h")],
        "paused": [("at_most = '12.5 min'", "12.5 min", "13 min")],
        "volume": [("at_least = '500 L'", "500 L", "499 L"), ("at_most = '0.6 m3'", "600 L", "601 L")],
        "volume.reference": [("between = ['400 L', '600 L']", "400 L", "399 L")],
        "warm-up": [("at_least = '15 min'", "15 min", "14 min")],
        "vacuum": [("more_than = '17 inHg'", "17.1 inHg", "17 inHg"), ("at_least = '57.6 kPa'", "576 hPa", "57 kPa")],
        "leak": [("less_than = '80 mL/min'", "79.9 mL/min", "80 mL/min"), ("at_most = '0.0795 L/min'", "79.5 mL/min", "0.08 L/min")],
        "interruptions": [("at_most = 10", 10, 11)],
        "pressure-drop": [("at_most = '25 mmHg'", "25 mmHg", "25.1 mmHg"), ("less_than = '3.4 kPa'", "33 hPa", "3.4 kPa")],
        "pulsation": [("at_most = '20 %'", "20 %", "20.1 %")],
        "pre.age": [("at_most = '0.5 h'", "30 min", "31 min")],
        "post.age": [("less_than = '1 h'", "59 min", "1 h")],
        "temperature.change": [("within = '8 K'", "8 K", "-8.1 K")],
        "pressure.change": [("within = '3 %'", "3 %", "3.1 %"), ("within = '25 hPa'", "25 hPa", "26 hPa")],
        "overlap": [("at_most = '0 min'", "0 min", "1 min")],
        "fault": [("is = 'no'", "no", "yes")],
        "calibrator.overdue": [("at_most = '0 d'", "0 d", "1 d")],
        "calibrator.range": [("at_most = '0 %'", "0 %", "1 %")],
        "calibrator.same": [("is = 'yes'", "yes", "no")],
        "calibrator.read-at": [("is = 'centre'", "centre", "top")],
        "certificate.missing": [("is = 'no'", "no", "yes")],
        "cut.shift": [("within = '1 %'", "1 %", "1.1 %")],
        **{f"record.{what}": [("is = 'yes'", "yes", "no")] for what in RECORDS},
    },
    "set": {
        "count": [("at_least = 3", 3, 2)],
        "rsd": [("less_than = '0.4 %'", "0.3 %", "0.4 %")],
        "range": [("at_most = '1 %'", "1 %", "1.1 %")],
        "flow": [("at_least = '1.9 L/min'", "1.9 L/min", "1.8 L/min")],
        "flow.deviation": [("within = '3 %'", "3 %", "3.1 %")],
        "duration": [("at_most = '10 min'", "10 min", "11 min")],
        "age": [("at_most = '1 h'", "1 h", "61 min")],
    },
    "reading": {
        "indicated": [("at_least = '1.8 L/min'", "1.8 L/min", "1.7 L/min")],
        "actual": [("at_least = '1.9 L/min'", "1.9 L/min", "1.8 L/min")],
        "correction": [("within = '4 %'", "4 %", "4.1 %")],
        "range": [("at_most = '0 %'", "0 %", "1 %")],
        "temperature": [("between = ['10 °C', '80 °F']", "10 °C", "9 °C")],
        "pressure": [("at_least = '850 mbar'", "85 kPa", "84 kPa")],
        "humidity": [("at_most = '40 %'", "40 %", "41 %")],
    },
    "calibrator": {
        "due": [("at_least = '5 d'", "5 d", "4 d")],
        "as-found.error": [("within = '1 %'", "1 %", "1.1 %")],
        "age": [("at_most = '100 d'", "100 d", "101 d")],
        "read-at": [("is = 'centre'", "centre", "top")],
        "record.as-found": [("is = 'yes'", "yes", "no")],
    },
    "pump": {
        "drift.mean": [("within = '1 %'", "1 %", "1.1 %")],
        "drift.sd": [("at_most = '2 %'", "2 %", "2.1 %")],
        "trend": [("within = '2 %'", "2 %", "2.1 %")],
        "void.share": [("at_most = '25 %'", "25 %", "26 %")],
    },
    "batch": {
        "blanks": [("at_least = 1", 1, 0)],
        "blank.share": [("at_least = '20 %'", "20 %", "19 %")],
        "void.share": [("less_than = '50 %'", "49 %", "50 %")],
    },
}
LIMITS["result"] = {
    "mass": [("at_most = '0.4 mg'", "0.4 mg", "0.41 mg")],
    "mass.net": [("between = ['0.1 mg', '2 mg']", "100 µg", "0.09 mg")],
    "detected": [("is = 'yes'", "yes", "no")],
    "blank.count": [("at_least = 2", 2, 1)],
    "blank.share": [("at_least = '50 %'", "50 %", "49 %")],
    "blank.mean": [("at_most = '0.02 mg'", "20 µg", "21 µg")],
    "blank.above-limit": [("is = 'no'", "no", "yes")],
    "concentration": [("at_most = '0.5 mg/m3'", "500 µg/m3", "0.51 mg/m3")],
    "concentration.uncertainty": [("at_most = '10 %'", "10 %", "11 %")],
    "balance.certificate.missing": [("is = 'no'", "no", "yes")],
    "balance.overdue": [("at_most = '0 d'", "0 d", "1 d")],
    "control.count": [("at_least = 1", 1, 0)],
    "control.mean": [("within = '0.002 mg'", "-2 µg", "3 µg")],
    "control.change": [("within = '5 µg'", "0.005 mg", "-0.006 mg")],
}
BASES = {"drift": ("post", "mean", "nominal"), "pre.deviation": ("post", "mean"),
         "field.deviation": ("post", "mean", "nominal")}
WHERES = {
    "sample": ("", "", "", "kind = 'sample'", "kind = ['sample', 'blank']",
               "nominal = { at_least = '1.9 L/min', at_most = '2000 mL/min' }",
               "method = ['PM2.5', 'TSP'], kind = 'sample'", "fraction = 'respirable'", "temperature = { at_least = '50 °F' }",
               "paused = { at_least = '1 min' }", "fault = 'no'", "sampler = 'own-impactor'",
               "method = { none_of = ['PM2.5', 'NMAM 7603'] }", "kind = { none_of = 'blank' }, sampler = { none_of = 'own-impactor' }"),
    "set": ("", "stage = 'post'", "principle = ['mass', 'bubble']", "stage = { none_of = 'post' }"),
    "reading": ("", "stage = 'pre'", "by = 'site hygienist'"),
    "calibrator": ("", "principle = 'rotameter'"), "pump": ("",), "batch": ("",),
    "result": ("", "", "analyte = 'dust'", "method = ['PM2.5', 'TSP']", "analyte = { none_of = 'dust' }", "amount = 'mass'", "amount = 'fibres'")}
PACKS = ("common-practice", "nmam-respirable-dust", "nmam-respirable-silica", "us-coal-mine-dust", "us-asbestos",
         "us-cotton-dust", "za-mine-dust", "us-ambient-pm", "samplers", "nmam-total-dust", "nmam-total-dust-capsule",
         "nmam-amorphous-silica")
PRACTICES = {"flow_for_volume": ("mean", "mean", "lower", "pre", "nominal"), "drift_base": ("pre", "post", "mean", "nominal"),
             "rotameter_correction": ("always", "beyond 5 %", "never"), "bubble_humidity": ("none", "ambient", "dry"), "blank_correction": ("none", "mean", "mean"), "control_correction": ("none", "mean"),
             "concentration_volume": ("actual", "reference")}
OUTCOMES = {"void": "void", "qualify": "qualified", "note": "note"}
SAMPLERS = """
[sampler.own-impactor]
title = "Impactor of the book"
nominal = "2.0 L/min"
fraction = "respirable"
cut_exponent = 0.5
cut_source = "invented"
source = "invented"

[sampler.own-cassette]
title = "Cassette of the book"
source = "invented"
"""


def rule_text(random, name, of, measure):
    limit, good, bad = random.choice(LIMITS[of][measure])
    where = random.choice([w for w in WHERES[of] if measure not in w])
    has_base = of == "sample" and measure in BASES and random.random() < 0.4
    otherwise = random.choice(("void", *["qualify"] * 3, *["note"] * 12))
    is_difference = isinstance(good, str) and any(u in good for u in ("L/min", "hPa")) and "'%" not in limit and (
        measure in ("drift", "flow.deviation", "pressure.change"))
    given = f'"{measure}.absolute"' if is_difference else f'"{measure}"'
    lines = ["[[rule]]", f'id = "{name}"', f'of = "{of}"', f'measure = "{measure}"', limit, f'otherwise = "{otherwise}"',
             f'absent = "{random.choice(("undecided", "void", "qualify", *["skip"] * 12))}"',
             'reason = "invented"', 'source = "invented"', 'standing = "house"']
    lines += [f"where = {{ {where} }}"] if where else []
    lines += [f'base = "{random.choice(BASES[measure])}"'] if has_base else []
    for figure, gives in ((good, "valid"), (bad, OUTCOMES[otherwise])):
        lines += ["[[rule.example]]", f"given = {{ {given} = {figure!r} }}", f'gives = "{gives}"']
    return "\n".join(lines) + "\n"


def own_pack(random):
    """The text of a pack over a choice of all measures, and the names of its rules with what they are about."""
    chosen = [(f"r{n}", of, measure) for n, (of, measure) in enumerate(
        (of, measure) for of, group in LIMITS.items() for measure in group if random.random() < 0.45)]
    head = 'pack = "own"\ntitle = "Rules of a random book"\nedition = "2026-01-01"\n\n'
    return head + "\n".join(rule_text(random, *one) for one in chosen), chosen


def judged_by(random, chosen, has_guard):
    """The part of book.toml about rules: packs, practices that settle whatever packs disagree on, overrides, samplers."""
    packs = ["common-practice", "own.toml", *random.sample(PACKS[1:], random.choice((0, 0, 0, 1, 3)))]
    practices = {name: random.choice(words) for name, words in PRACTICES.items()}
    # How well a flow along the line is known is not worked out twice, nor is what asks for it.
    asks_how_well = has_guard or any(measure == "concentration.uncertainty" for _, _, measure in chosen)
    if practices["flow_for_volume"] == "mean" and not asks_how_well:
        practices["field_sets"] = random.choice(("ends", "line"))
    lines = ["[rules]", f"packs = {packs!r}", "[practice]", *(f'{k} = "{v}"' for k, v in practices.items()),
             'reason = "Tried out."']
    for name, of, measure in random.sample(chosen, min(3, len(chosen))):
        change = random.choice((LIMITS[of][measure][-1][0], 'otherwise = "qualify"', 'otherwise = "note"', "enabled = false"))
        if change.startswith("otherwise"):
            change += "\n" + LIMITS[of][measure][0][0]
        lines += ["[[override]]", f'rule = "own/{name}"', change, 'reason = "Invented."']
    return "\n".join(lines) + "\n" + SAMPLERS
