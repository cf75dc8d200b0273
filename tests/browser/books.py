#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""books.py hostile|large|batches FOLDER: writes an invented book that is hard on a page, always the same bytes.

hostile: names and notes of markup, quotes, right-to-left letters and words of 5,000 characters.
large:   2,000 samples of forty weeks on forty pumps, about a tenth of them amiss.
batches: a batch of 14, two of them blanks, two void, each second one with a note; and one of 40.
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


def main():
    which, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    {"hostile": hostile, "large": large, "batches": batches}[which](folder)


if __name__ == "__main__":
    main()
