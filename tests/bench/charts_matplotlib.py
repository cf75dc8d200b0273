#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""charts_matplotlib.py HISTORY.JSON FOLDER: the panels of each charted series as one SVG, plainly, for comparison."""
import datetime
import json
import pathlib
import sys

import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plt  # noqa: E402

history = json.load(open(sys.argv[1], encoding="utf-8"))
folder = pathlib.Path(sys.argv[2])
for instrument in history["instruments"]:
    for series in instrument["series"]:
        if not series["charts"]:
            continue
        days = [datetime.datetime.fromisoformat(point["at"].replace("Z", "+00:00")) for point in series["points"]]
        values = [point["value"] for point in series["points"]]
        figure, axes = plt.subplots(3, 2, figsize=(10, 10))
        for axis, chart in zip(axes.flat, series["charts"]):
            axis.plot(days, values, marker="o", markersize=3, linewidth=0.8)
            for level, dashes in ((chart["centre"], "-"), (chart["lower"], "--"), (chart["upper"], "--")):
                if level is not None:
                    axis.axhline(level, linestyle=dashes)
            signals = {signal["at"] for signal in chart["signals"]}
            marked = [i for i, point in enumerate(series["points"]) if point["at"] in signals]
            axis.plot([days[i] for i in marked], [values[i] for i in marked], "D", fillstyle="none")
            axis.set_title(chart["chart"])
        figure.suptitle(f"{instrument['instrument']}: {series['series']}")
        figure.savefig(folder / f"{instrument['instrument']}.{series['series']}.svg")
        plt.close(figure)
