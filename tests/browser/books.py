#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""books.py hostile|large|batches|other|small FOLDER: writes an invented book that is hard on a page, always the same bytes.

hostile: names and notes of markup, quotes, right-to-left letters and words of 5,000 characters.
large:   2,000 samples of forty weeks on forty pumps, about a tenth of them amiss.
batches: a batch of 14, two of them blanks, two void, each second one with a note; and one of 40.
other:   as many samples and pumps as the demo, kept by people who write long notes, forget readings and change calibrators.
small:   fourteen samples of one week, of which several things are amiss.
"""
import csv
import datetime
import pathlib
import random
import sys

MARKUP = "<script>document.title='taken'</script>"
QUOTES = "\"double\" 'single' & ampersand; &lt;b&gt;"
RIGHT_TO_LEFT = "דגימה 12 שנייה"
TURNED = "evil\u202etxt.exe"
LONG = "W" * 5000


def write(folder, name, head, rows):
    with open(folder / name, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(head)
        out.writerows(rows)


def settings(folder, title):
    quoted = title.replace("\\", "\\\\").replace('"', '\\"')
    (folder / "book.toml").write_text(
        f'title = "{quoted}"\ntime_zone = "UTC"\n[rules]\npacks = ["common-practice"]\n', encoding="utf-8")


CERTIFICATE = ["certificate", "instrument", "calibrated", "due", "nominal [L/min]", "reference [L/min]",
               "as found [L/min]", "as left [L/min]"]
SAMPLE = ["sample", "batch", "kind", "pump", "nominal [L/min]", "started", "stopped", "temperature [°C]",
          "pressure [kPa]", "fault", "note"]
READING = ["taken", "stage", "sample", "calibrator", "reading [L/min]", "temperature [°C]", "pressure [kPa]", "note"]


def hostile(folder):
    names = [MARKUP, QUOTES, RIGHT_TO_LEFT, TURNED, LONG]
    settings(folder, f"Quarry {MARKUP} {QUOTES} {RIGHT_TO_LEFT} {LONG}")
    write(folder, "instruments.csv", ["instrument", "kind", "principle", "note"],
          [[f"P{name}", "pump", "", name] for name in names] + [[f"C{names[0]}", "calibrator", "volumetric", LONG]])
    write(folder, "certificates.csv", CERTIFICATE,
          [[f"K{LONG}", f"C{names[0]}", "2026-01-05", "2026-06-05", 2, 2, 2.3, 2]])
    samples, readings = [], []
    for number, name in enumerate(names):
        samples.append([f"S{name}", f"B{names[-1 - number]}", "sample", f"P{name}", 2, "2026-09-21T08:00",
                        "2026-09-21T16:00", 25, 101.325, "yes" if number == 0 else "no", name])
        for stage, time, flow in (("pre", "07:30", 2.0), ("post", "16:10", 1.8)):
            readings.append([f"2026-09-21T{time}", stage, f"S{name}", f"C{names[0]}", flow, 25, 101.325, name])
    readings.append(["2026-09-21T07:00", "pre", "S" + MARKUP, MARKUP, LONG, 25, 101.325, ""])
    write(folder, "samples.csv", SAMPLE, samples)
    write(folder, "readings.csv", READING, readings)
    write(folder, "decisions.csv", ["decided", "by", "subject", "rule", "ruling", "reason"],
          [["2026-09-22T09:00", name, f"S{name}", "common-practice/drift", "uphold", name] for name in names])


def large(folder):
    dice = random.Random(20261116)
    settings(folder, "Two thousand samples (invented)")
    pumps = [f"P-{n:02}" for n in range(1, 41)]
    calibrators = [f"V-{n}" for n in range(1, 6)]
    write(folder, "instruments.csv", ["instrument", "kind", "principle", "interval [d]"],
          [[name, "pump", "", ""] for name in pumps] + [[name, "calibrator", "volumetric", 182] for name in calibrators])
    write(folder, "certificates.csv", CERTIFICATE,
          [[f"{name}/{day}", name, day, "", 2, 2, 2.002, 2.0] for name in calibrators
           for day in ("2025-08-04", "2026-02-02", "2026-08-03")])
    samples, readings = [], []
    first = datetime.date(2026, 2, 9)
    for week in range(40):
        for number in range(50):
            name = f"W{week + 1:02}-{number + 1:02}"
            day = first + datetime.timedelta(days=7 * week + number // 10)
            batch = f"W{week + 1:02}{'ABCDE'[number // 10]}"
            if number % 10 == 9:
                samples.append([name, batch, "blank", "", "", "", "", "", "", "", ""])
                continue
            pump = pumps[(number + 7 * week) % len(pumps)]
            trouble = dice.random()
            pre = dice.gauss(2.0, 0.02)
            post = pre * (1 + (dice.choice([-0.07, 0.06]) if trouble < 0.05 else dice.gauss(0, 0.008)))
            samples.append([name, batch, "sample", pump, 2, f"{day}T06:{10 + number}", f"{day}T14:{10 + number}",
                            round(dice.gauss(18, 4), 1), round(dice.gauss(85, 0.4), 2),
                            "yes" if 0.05 <= trouble < 0.07 else "no", ""])
            for stage, hour, flow in (("pre", 5, pre), ("post", 15, post)):
                if stage == "post" and 0.07 <= trouble < 0.09:
                    continue
                for replicate in range(3):
                    readings.append([f"{day}T{hour:02}:{10 + number}:{10 * replicate:02}", stage, name,
                                     calibrators[week % 5], f"{dice.gauss(flow, 0.003):.3f}", 20, 84.9, ""])
    write(folder, "samples.csv", SAMPLE, samples)
    write(folder, "readings.csv", READING, readings)


def batches(folder):
    settings(folder, "Two batches (invented)")
    with open(folder / "book.toml", "a", encoding="utf-8") as file:
        file.write('[custody]\nsender = ["Quarry office (invented)", "Lane 1", "Upper Ferrow"]\n'
                   'laboratory = ["Dust laboratory (invented)", "12 Mill Lane", "Lower Ferrow"]\nreference = "Q-118"\n')
    write(folder, "instruments.csv", ["instrument", "kind", "principle"],
          [[f"PUMP-{n:02}", "pump", ""] for n in range(40)] + [["V-1", "calibrator", "volumetric"]])
    write(folder, "certificates.csv", CERTIFICATE, [["V-1/2026", "V-1", "2026-08-03", "2027-08-03", 2, 2.002, 2, 2]])
    samples, readings = [], []
    for batch, count, day in (("FOURTEEN", 14, "2026-09-21"), ("FORTY", 40, "2026-09-22")):
        for number in range(count):
            name, is_blank = f"{batch[:4]}-{number + 1:02}", number >= count - 2
            note = "the lid of the transport case was open for a while on the way back to the office" if number % 2 else ""
            samples.append([name, batch, "blank" if is_blank else "sample", "" if is_blank else f"PUMP-{number:02}",
                            "" if is_blank else 2, "" if is_blank else f"{day}T08:{number:02}",
                            "" if is_blank else f"{day}T16:{number:02}", 25, 101.325, "no", note, f"C-{4000 + number}",
                            "second shift" if number == 3 else "first shift", "dust"])
            if not is_blank:
                readings += [[f"{day}T{hour}:{number:02}", stage, name, "V-1", flow, 25, 101.325, ""]
                             for stage, hour, flow in (("pre", "07", 2.0), ("post", "17", 1.8 if number in (1, 5) else 1.99))]
    write(folder, "samples.csv", [*SAMPLE, "medium", "by", "analysis"], samples)
    write(folder, "readings.csv", READING, readings)


WORDS = ("pump swapped at noon, hose kinked behind the seat", "read twice, second person present", "cold morning",
         "worn by the second shift from 10 h on", "filter holder replaced", "no label on the cassette; see field book p. 31")


class Records:
    """Samples and readings as they grow, drawn from one dice."""

    def __init__(self, seed, calibrators):
        self.dice = random.Random(seed)
        self.calibrators = calibrators
        self.samples, self.readings = [], []

    def note(self, share):
        return self.dice.choice(WORDS) if self.dice.random() < share else ""

    def blank(self, name, batch):
        self.samples.append([name, batch, "blank", "", "", "", "", "", "", "", ""])

    def sample(self, name, batch, pump, day, minute, level, calibrator, trouble=""):
        """A sample read before and after; trouble: low, fault, no post, no conditions."""
        dice = self.dice
        pre = dice.gauss(2 * (1 + level), 0.008)
        post = pre * (1 + (-0.08 if trouble == "low" else dice.gauss(0, 0.007)))
        conditions = ["", ""] if trouble == "no conditions" else [round(dice.gauss(12, 5), 1), round(dice.gauss(96, 0.5), 2)]
        self.samples.append([name, batch, "sample", pump, 2, f"{day}T06:{minute:02}", f"{day}T14:{minute:02}", *conditions,
                             "yes" if trouble == "fault" else "no", self.note(0.15)])
        for stage, hour, flow in (("pre", 5, pre), ("post", 15, post)):
            if stage == "post" and trouble == "no post":
                continue
            with_it = self.calibrators[calibrator if stage == "pre" or dice.random() < 0.8 else calibrator - 1]
            for replicate in range(4):
                self.readings.append([f"{day}T{hour:02}:{minute:02}:{10 * replicate:02}", stage, name, with_it,
                                      f"{dice.gauss(flow, 0.003):.3f}", 11, 96.1, self.note(0.02)])

    def write(self, folder, rest):
        write(folder, "samples.csv", SAMPLE, self.samples)
        write(folder, "readings.csv", READING, self.readings)
        for name, head, rows in rest:
            write(folder, name, head, rows)


def instruments(pumps, calibrators):
    return ("instruments.csv", ["instrument", "kind", "principle", "interval [d]"],
            [[name, "pump", "", ""] for name in pumps] + [[name, "calibrator", "volumetric", 182] for name in calibrators])


def certificates(calibrators, days, found):
    return ("certificates.csv", CERTIFICATE + ["tolerance [%]"],
            [[f"{name}/{day}", name, day, "", 2, 2, found.get((name, day), 2.004), 2.0, 2]
             for name in calibrators for day in days])


def other(folder):
    settings(folder, "Harbour cranes and grain store, spring 2026 (invented)")
    pumps = [f"GS-{n:02}" for n in range(1, 15)]
    records = Records(20260504, ["Q-11", "Q-12", "Q-20", "Q-31"])
    for week in range(9):
        for day in range(3):
            when = datetime.date(2026, 3, 2) + datetime.timedelta(days=7 * week + 2 * day)
            batch = f"H{week + 10}{'ABC'[day]}"
            for place in range(5):
                pump = (place + 5 * day + 3 * week) % len(pumps)
                level = 0.0012 * 7 * week if pump == 4 else 0.01 * ((pump % 5) - 2) / 2
                troubles = {(8, 0, 1): "low", (8, 1, 3): "fault", (8, 2, 2): "no post", (3, 1, 1): "low", (5, 0, 4): "no post",
                            (6, 2, 0): "fault", (7, 0, 2): "low", (8, 2, 4): "no conditions"}
                records.sample(f"{batch}-{place + 1}", batch, pumps[pump], when, 5 + 9 * place, level,
                               (week // 3 + day) % 4, troubles.get((week, day, place), ""))
            records.blank(f"{batch}-B", batch)
    records.write(folder, [
        instruments(pumps, records.calibrators),
        certificates(records.calibrators, ("2025-03-10", "2025-10-01", "2026-04-01"), {("Q-31", "2026-04-01"): 2.06}),
        ("service.csv", ["instrument", "serviced", "what"],
         [["GS-03", "2026-03-25T09:00", "diaphragm and inlet valve replaced, set to 2.0 L/min on the bench"],
          ["GS-09", "2026-04-08T09:00", "battery"]]),
        ("decisions.csv", ["decided", "by", "subject", "rule", "ruling", "reason"],
         [["2026-03-30T09:00", "technician 2", "H13B-2", "common-practice/drift", "uphold", "The hose had come off; see the field book."]]),
    ])


def small(folder):
    settings(folder, "Fourteen samples of a week (invented)")
    pumps = [f"K{n}" for n in range(1, 6)]
    records = Records(14, ["C-1", "C-2"])
    troubles = {3: "low", 6: "fault", 9: "no post", 11: "no conditions"}
    for number in range(14):
        day = datetime.date(2026, 5, 4) + datetime.timedelta(days=number // 4)
        records.sample(f"K-{number + 1:02}", f"week 19, day {number // 4 + 1}", pumps[number % 5], day, 5 + 9 * (number % 4),
                       0.004 * (number % 3), number % 2, troubles.get(number, ""))
    records.write(folder, [instruments(pumps, records.calibrators),
                           certificates(records.calibrators, ("2025-09-01",), {})])


def main():
    which, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    {"hostile": hostile, "large": large, "batches": batches, "other": other, "small": small}[which](folder)


if __name__ == "__main__":
    main()
