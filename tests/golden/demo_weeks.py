# SPDX-License-Identifier: MIT
"""demo_weeks.py PROGRAM BOOK: goes through the demo week by week, and holds what its README says to what each review says.

Each planted trouble has to be told in the first review in which it can be known, by the action that README.md names; and
nothing else may ask for action: no instrument that the README does not name, and no sample that it does not list.
"""
import collections
import csv
import datetime
import pathlib
import re
import subprocess
import sys
import tempfile

MONDAYS = [datetime.date(2026, 9, 28) + datetime.timedelta(weeks=week) for week in range(8)]
ACTION = re.compile(r'<li class="action"><h3><span class="verb">(.*?)</span> (?:<a[^>]*>|\w+ )?<bdi>(.*?)</bdi>(.*?)'
                    r'</li>(?=\n)', re.S)


DOUBT = re.compile(r"remark: (.*)\[doubt/")
SAMPLE = re.compile(r"\b(?:TF|ST)\d\d[ABC](?:-\d)?\b")


def reviewed_on(program, book, monday):
    """Verb and subject of each action, and all names of samples in it; and the samples whose records look doubtful."""
    with tempfile.TemporaryDirectory() as folder:
        page = pathlib.Path(folder) / "review.html"
        said = subprocess.run([program, "review", book, "--as-of", monday.isoformat(), "--out", page], check=False,
                              capture_output=True, text=True, encoding="utf-8").stderr
        text = page.read_text(encoding="utf-8")
    listed = text[text.index('<ol class="actions">'):]
    listed = listed[:listed.index("</ol>") + 1]
    actions = [(verb, subject, set(SAMPLE.findall(subject + rest))) for verb, subject, rest in ACTION.findall(listed)]
    return actions, {SAMPLE.search(doubt).group() for doubt in DOUBT.findall(said)}


def first_told(weeks):
    """Of each verb and subject the first Monday."""
    first = {}
    for monday, actions in weeks.items():
        for verb, subject, _ in actions:
            first.setdefault((subject, verb), monday)
    return first


def stated_in(readme):
    """The rows of its table: subject, Monday, verbs in italics."""
    rows = re.findall(r"^\| ([A-Z0-9]+-\w+) \| (2026-\d\d-\d\d) \| (.*) \|$", readme, re.M)
    return {(subject, verb): datetime.date.fromisoformat(day) for subject, day, by in rows
            for verb in re.findall(r"\*(.*?)\*", by)}


def doubts_stated_in(readme):
    """What its sentence on doubtful records says, by sample: the Monday."""
    sentence = " ".join(re.search(r"Doubtful records are told.*?of no other", readme, re.S).group().split())
    stated = {}
    for part in re.findall(r".*?\bon 2026-\d\d-\d\d", sentence):
        for sample in SAMPLE.findall(part):
            stated[sample] = datetime.date.fromisoformat(part[-10:])
    return stated


def stopped_on(book):
    days = {}
    for path in sorted(pathlib.Path(book).glob("samples/*.csv")):
        text = path.read_text(encoding="utf-8-sig")
        for name, day in re.findall(r"^((?:TF|ST)\d\d[ABC]-\w+).*?(2026-\d\d-\d\d)[T ]\d", text, re.M):
            days[name] = datetime.date.fromisoformat(day)
    return days


def main(program, book):
    readme = (pathlib.Path(book) / "README.md").read_text(encoding="utf-8")
    with open(pathlib.Path(book) / "planted.csv", newline="", encoding="utf-8") as file:
        planted = {row["sample"]: row["expected verdict"] for row in csv.DictReader(file)}
    with open(pathlib.Path(book) / "decisions.csv", newline="", encoding="utf-8") as file:
        decided = {row["subject"] for row in csv.DictReader(file)}
    reviews = {monday: reviewed_on(program, book, monday) for monday in MONDAYS}
    weeks = {monday: actions for monday, (actions, _) in reviews.items()}
    faults, first, stated = [], first_told(weeks), stated_in(readme)
    doubted = {}
    for monday, (_, doubts) in reviews.items():
        for sample in doubts:
            doubted.setdefault(sample, monday)
    if doubted != doubts_stated_in(readme):
        faults.append(f"doubtful records are first told {sorted(doubted.items())}, and README.md says "
                      f"{sorted(doubts_stated_in(readme).items())}")
    for (subject, verb), day in stated.items():
        told = first.get((subject, verb))
        if told != day:
            faults.append(f"{subject} is to be told ({verb}) on {day}, and is on {told}")
    for (subject, verb), day in first.items():
        is_sample = re.match(r"(TF|ST)\d\d[ABC]", subject)
        if not is_sample and subject != "doubtful records" and (subject, verb) not in stated:
            faults.append(f"{subject} is told ({verb}) from {day} on, of which README.md says nothing")
    named = collections.defaultdict(list)
    for monday, actions in weeks.items():
        for _, _, samples in actions:
            for sample in samples:
                named[sample].append(monday)
    for sample in named:
        of_batch = [name for name in planted if name.startswith(sample)]
        if not of_batch:
            faults.append(f"{sample} is told on {named[sample][0]}, and nothing was planted in it")
    days = stopped_on(book)
    for sample, verdict in planted.items():
        if verdict == "valid" or sample in decided:
            continue
        due = next(monday for monday in MONDAYS if monday >= days[sample])
        if named[sample][:1] != [due]:
            faults.append(f"{sample} could be known on {due}, and is told on {named[sample][:1] or 'no Monday'}")
    print(f"{sum(map(len, weeks.values()))} actions of {len(weeks)} reviews, {len(stated)} of them stated, {len(faults)} faults")
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
