# SPDX-License-Identifier: MIT
"""changed_figures.py PROGRAM [--write]: which figures, findings and verdicts of the demo are others than version 0.1.0
gave, and why; docs/changed-figures.md has to list each of them. With --write the page is written anew.

tests/golden/demo/screen-of-0.1.0.csv is what version 0.1.0 printed; like all that a program printed it is regression, no
check. The reasons are entries of docs/CHANGELOG.md."""
import csv
import json
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs" / "changed-figures.md"
EARLIER = ROOT / "tests" / "golden" / "demo" / "screen-of-0.1.0.csv"
U = "volume_expanded_uncertainty_l"
INTRODUCTION = """\
# The demo's figures that changed since 0.1.0

`driftwarden screen docs/demo --as-of 2026-11-16 --format csv`, sample by sample and column by column, of every column that
version 0.1.0 had: each figure, finding and verdict that is another now, and why. The words of the last column are those of
*Results* in [CHANGELOG.md](CHANGELOG.md), which says more. What is not listed has not changed. This page is written by
`tests/docs/changed_figures.py`, and a test fails where it is not what the program prints.
"""
# What a budget has of an input that 0.1.0 did not have, and how it is called.
NEW_INPUTS = {"calibrator since its certificate": "calibrator since its certificate",
              "calibrator since its certificate, pre": "calibrator since its certificate",
              "calibrator since its certificate, post": "calibrator since its certificate",
              "field sets off the mean of pre and post": "what field sets say"}
BETWEEN = {"stated": "flow between the checks: 1 % of the flow", "earlier uses": "flow between the checks: the pump's earlier uses"}
OTHER_REASONS = {
    "findings": "impactor-flow and impactor-held are flow-deviation and flow-held; without a flow, flow-deviation is skipped",
    "pre_n": "the demo's identical readings were planted anew",
    "probability_beyond": "Student's t; of the mean flow as measured; of more measures",
}


def printed(program, form):
    run = subprocess.run([program, "screen", ROOT / "docs" / "demo", "--as-of", "2026-11-16", "--format", form],
                         stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    return run.stdout.decode()


def rows(text):
    return {row["sample"]: row for row in csv.DictReader(text.splitlines())}


def is_another(column, before, now):
    """To nine digits: how the last ones are rounded is no change."""
    try:
        return abs(float(before) - float(now)) > 1e-9 * abs(float(before))
    except ValueError:
        return before != now


# What these rules of 0.1.0 are called now; flow-deviation is skipped where there is no flow.
RENAMED = {"impactor-flow": "flow-deviation", "impactor-held": "flow-held"}


def are_renamed(before, now):
    """Whether the findings are those of before under their new names, or fewer by flow-deviation."""
    expected = {RENAMED.get(rule, rule) for rule in short("findings", before).split(";")}
    return set(short("findings", now).split(";")) in (expected, expected - {"flow-deviation"})


# What 0.1.0 knew nothing of.
NEW_RULES = {"blank-above-limit": "a field blank above its limit voids: 0.1.0 knew no results of a laboratory"}


def why(column, sample, before, now):
    news = [reason for rule, reason in NEW_RULES.items() if rule in {f["rule"].split("/")[1] for f in sample["findings"]}]
    if column == "verdict" and now == "void" and news:
        return news[0]
    if column == "findings" and news:
        now = ";".join(rule for rule in now.split(";") if rule not in NEW_RULES)
        return news[0] if are_renamed(before, now) else "NOT EXPLAINED"
    if column == "findings" and not are_renamed(before, now):
        return "NOT EXPLAINED"
    if column != U:
        return OTHER_REASONS.get(column, "NOT EXPLAINED")
    budget = sample["budget"]
    sources = [line["source"] for line in budget["inputs"]]
    reasons = [NEW_INPUTS[source] for source in sources if source in NEW_INPUTS]
    reasons += [BETWEEN[budget["flow_between"]["from"]]] if budget["flow_between"]["from"] in BETWEEN else []
    return "; ".join(dict.fromkeys(reasons)) or "NOT EXPLAINED"


def short(column, cell):
    if column in (U, "probability_beyond") and cell:
        return f"{float(cell):.3g}"
    return cell.replace("common-practice/", "") or "none"


def page(program):
    earlier, now = rows(EARLIER.read_text(encoding="utf-8")), rows(printed(program, "csv"))
    samples = {sample["sample"]: sample for sample in json.loads(printed(program, "json"))["samples"]}
    lines = ["| sample | column | 0.1.0 | now | why |", "|---|---|---|---|---|"]
    for name, before in earlier.items():
        for column, cell in before.items():
            if is_another(column, cell, now[name][column]):
                lines.append(f"| {name} | {column} | {short(column, cell)} | {short(column, now[name][column])} | "
                             f"{why(column, samples[name], cell, now[name][column])} |")
    return INTRODUCTION + "\n" + "\n".join(lines) + "\n"


def main():
    text = page(sys.argv[1])
    if "NOT EXPLAINED" in text:
        print("FAILED: no reason is given for:")
        print("\n".join(line for line in text.splitlines() if "NOT EXPLAINED" in line))
        sys.exit(1)
    if "--write" in sys.argv:
        PAGE.write_text(text, encoding="utf-8")
    listed = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    differ = set(text.splitlines()) ^ set(listed.splitlines())
    print(f"{text.count(chr(10)) - INTRODUCTION.count(chr(10)) - 3} figures and findings changed, {len(differ)} lines differ")
    if differ:
        print("\n".join(sorted(differ)[:20]))
        print("Say why in docs/CHANGELOG.md under Results, then write the page: tests/docs/changed_figures.py PROGRAM --write")
    sys.exit(bool(differ))


if __name__ == "__main__":
    main()
