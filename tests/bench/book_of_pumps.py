#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""book_of_pumps.py FOLDER PUMPS CHECKS: an invented book of many pumps, sampled with day after day."""
import datetime
import pathlib
import random
import sys

folder = pathlib.Path(sys.argv[1])
pumps, checks = int(sys.argv[2]), int(sys.argv[3])
folder.mkdir(parents=True)
rng = random.Random(7)
(folder / "book.toml").write_text(
    'title = "Many pumps (invented)"\ntime_zone = "UTC"\n[rules]\npacks = ["common-practice"]\n', encoding="utf-8")
with open(folder / "instruments.csv", "w", encoding="utf-8") as out:
    out.write("instrument,kind,principle,resolution [L/min]\nV-1,calibrator,volumetric,0.001\n")
    for pump in range(pumps):
        out.write(f"P-{pump:04d},pump,,\n")
with open(folder / "certificates.csv", "w", encoding="utf-8") as out:
    out.write("certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],"
              "expanded uncertainty [%]\n")
    for point in (1, 2, 3):
        out.write(f"C-1,V-1,2026-12-01,{point},{point},{point},0.7\n")
with open(folder / "samples.csv", "w", encoding="utf-8") as samples, \
        open(folder / "readings.csv", "w", encoding="utf-8") as readings:
    samples.write("sample,pump,nominal [L/min],started,stopped\n")
    readings.write("taken,stage,sample,calibrator,reading [L/min]\n")
    for pump in range(pumps):
        pace = rng.gauss(0, 0.0002)
        for use in range(checks):
            day = datetime.date(2027, 1, 2) + datetime.timedelta(days=use * max(1, 360 // checks))
            name = f"S-{pump:04d}-{use:04d}"
            samples.write(f"{name},P-{pump:04d},2,{day}T08:00,{day}T16:00\n")
            level = 2 + pace * use + rng.gauss(0, 0.01)
            for stage, hour, flow in (("pre", "07:3", level), ("post", "16:1", level * (1 + rng.gauss(0, 0.01)))):
                for i in range(3):
                    readings.write(f"{day}T{hour}{i},{stage},{name},V-1,{flow + rng.gauss(0, 0.003):.3f}\n")
