# SPDX-License-Identifier: MIT
"""review_calendar.py PROGRAM BOOK: reads the calendar of a review with another library, and compares it with the book.

Every instrument's due date as the program's own JSON and the book's certificates have it must be an entry of one day, each
with a UID of its own; a second run gives the same bytes. Read with python3-icalendar (RFC 5545).
"""
import csv
import datetime
import pathlib
import subprocess
import sys
import tempfile

import icalendar

AS_OF = "2026-11-16"


def written(program, book, folder, name):
    out = pathlib.Path(folder) / name
    subprocess.run([program, "review", book, "--as-of", AS_OF, "--format", "ics", "--out", out], check=False,
                   capture_output=True)
    return out.read_bytes()


def newest_due(book):
    """Of each instrument the due date that its newest certificate states, where it does."""
    newest = {}
    with open(pathlib.Path(book) / "certificates.csv", newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["calibrated"] <= AS_OF and row["calibrated"] >= newest.get(row["instrument"], ("", ""))[0]:
                newest[row["instrument"]] = (row["calibrated"], row["due"])
    return {name: due for name, (_, due) in newest.items() if due}


def main(program, book):
    with tempfile.TemporaryDirectory() as folder:
        first, second = (written(program, book, folder, name) for name in ("a.ics", "b.ics"))
    faults = [] if first == second else ["two runs differ"]
    events = list(icalendar.Calendar.from_ical(first).walk("VEVENT"))
    uids = {str(event["UID"]) for event in events}
    if len(uids) != len(events):
        faults.append("two entries have one UID")
    due = {str(event["SUMMARY"]).removeprefix("Calibration due: "): event.decoded("DTSTART") for event in events
           if str(event["SUMMARY"]).startswith("Calibration due: ")}
    for name, day in newest_due(book).items():
        if name in due and due[name].isoformat() != day:
            faults.append(f"{name} is due on {day}, and {due[name]} in the calendar")
    if len(set(newest_due(book)) & set(due)) < 3:
        faults.append(f"only {sorted(due)} are in the calendar")
    for event in events:
        if event.decoded("DTEND") - event.decoded("DTSTART") != datetime.timedelta(days=1):
            faults.append(f"{event['SUMMARY']} is not of one day")
        if "no statement on anyone's safety" not in str(event["DESCRIPTION"]):
            faults.append(f"{event['SUMMARY']} lacks the caution")
    if not any(str(event["SUMMARY"]).startswith("Adjust soon: ") for event in events):
        faults.append("no deadline of an action is in the calendar")
    print(f"{len(events)} entries, {len(faults)} faults")
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
