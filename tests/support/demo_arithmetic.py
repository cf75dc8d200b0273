#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The arithmetic of a book, a second time and by the shortest road.

Reads the written files of the demo book back and works out every sample's sets, drift, minutes, flow and volume from
the formulas alone. It shares no line with the program and none with the truth behind the demo book, so that the three
can be compared. It judges nothing and knows only what the demo book needs: one time zone, four principles.

    python3 demo_arithmetic.py BOOK > independent.csv
"""
import csv
import datetime
import math
import pathlib
import sys
import tomllib
from collections import defaultdict

COLUMNS = ["sample", "minutes", "pre_n", "pre_l_min", "post_n", "post_l_min", "drift_percent", "flow_l_min",
           "volume_l", "volume_reference_l"]
REFERENCE_K, REFERENCE_KPA = 298.15, 101.325  # as in the demo book's [reference]
SET_GAP_MIN = 30  # readings further apart than this are two sets
CLOCKS_GO_BACK = datetime.datetime(2026, 11, 1, 8, 0)  # UTC: America/Denver goes from UTC-6 to UTC-7

TO_INSIDE = {  # L/min, K, kPa, min, ratio
    "L/min": lambda x: x, "mL/min": lambda x: x / 1000,
    "°C": lambda x: x + 273.15, "°F": lambda x: (x - 32) * 5 / 9 + 273.15,
    "kPa": lambda x: x, "inHg": lambda x: x * 25.4 * 0.133322387415,  # conventional millimetre of mercury
    "min": lambda x: x, "h": lambda x: x * 60, "%": lambda x: x / 100, "d": lambda x: x * 1440,
}


# --- files -----------------------------------------------------------------------------------------------------------

def table(path, mapped_headings):
    """The rows of a CSV file as {column: text}, with the figures of columns that carry a unit in inside units."""
    with open(path, encoding="utf-8-sig", newline="") as file:
        separator = ";" if ";" in file.readline() else ","
        file.seek(0)
        headings, *lines = csv.reader(file, delimiter=separator)
    columns = [mapped_headings.get(heading, heading).rstrip("]").split(" [") for heading in headings]
    return [{name: inside(cell, *unit) for (name, *unit), cell in zip(columns, line, strict=True)} for line in lines]


def inside(cell, unit=None):
    if unit is None or cell == "":
        return cell or None
    return TO_INSIDE[unit](float(cell))


def tables(book, name):
    headings = tomllib.loads((book / "book.toml").read_text("utf-8")).get("headings", {}).get(name, {})
    single, folder = book / f"{name}.csv", sorted((book / name).glob("*.csv"))
    return [row for path in ([single] if single.exists() else folder) for row in table(path, headings)]


def moment(text):
    """Minutes on the absolute time line (from 1970 in UTC)."""
    stamp = datetime.datetime.fromisoformat(text)
    if stamp.tzinfo:
        stamp = stamp.astimezone(datetime.timezone.utc).replace(tzinfo=None)
    else:
        summer = stamp + datetime.timedelta(hours=6)
        stamp = summer if summer < CLOCKS_GO_BACK else summer + datetime.timedelta(hours=1)
    return (stamp - datetime.datetime(1970, 1, 1)) / datetime.timedelta(minutes=1)


# --- correction ------------------------------------------------------------------------------------------------------

def certificates(book):
    """instrument -> [(day, [(indication, relative error), …]), …], oldest first."""
    points = defaultdict(lambda: defaultdict(list))
    for row in tables(book, "certificates"):
        indication = row["as left"] if row["as left"] is not None else row["as found"]
        error = (indication - row["reference"]) / row["reference"]
        points[row["instrument"]][row["calibrated"]].append((indication, error))
    return {name: sorted((day, sorted(ps)) for day, ps in of.items()) for name, of in points.items()}


def certificate_error(points, indication):
    if indication <= points[0][0]:
        return points[0][1]
    for (low, low_error), (high, high_error) in zip(points, points[1:]):
        if indication <= high:
            return low_error + (high_error - low_error) * (indication - low) / (high - low)
    return points[-1][1]


def actual_flow(reading, instrument, history, supposed=None):
    day = reading["taken"][:10]
    points = [ps for calibrated, ps in history if calibrated <= day][-1]
    error = supposed(reading) if supposed else None
    flow = reading["reading"] / (1 + (certificate_error(points, reading["reading"]) if error is None else error))
    if instrument["principle"] == "rotameter":
        return flow * math.sqrt((instrument["scale pressure"] / reading["pressure"])
                                * (reading["temperature"] / instrument["scale temperature"]))
    if instrument["principle"] == "mass":
        return flow * (instrument["scale pressure"] / reading["pressure"]) \
                    * (reading["temperature"] / instrument["scale temperature"])
    assert instrument["principle"] in ("volumetric", "bubble")
    return flow


def supposed_errors(book, found, last_good):
    """The instrument's error in a look-back window, for assess(): at once ("sudden"), and growing day by day ("linear").

    `found` and `last_good` are names of its certificates. Knows nothing of calibrators that leaned on it.
    """
    rows = {name: [row for row in tables(pathlib.Path(book), "certificates") if row["certificate"] == name]
            for name in (found, last_good)}
    instrument = rows[found][0]["instrument"]
    until, since = (datetime.date.fromisoformat(rows[name][0]["calibrated"]) for name in (found, last_good))
    as_found = sorted((row["as found"], row["as found"] / row["reference"] - 1) for row in rows[found])
    as_left = [points for day, points in certificates(pathlib.Path(book))[instrument] if day == since.isoformat()][0]

    def error(reading, share_of):
        day = datetime.date.fromisoformat(reading["taken"][:10])
        if reading["calibrator"] != instrument or not since <= day < until:
            return None
        left, whole = (certificate_error(points, reading["reading"]) for points in (as_left, as_found))
        return left + (whole - left) * share_of((day - since).days / (until - since).days)

    return {"sudden": lambda reading: error(reading, lambda share: 1),
            "linear": lambda reading: error(reading, lambda share: share)}


def mean(figures):
    return math.fsum(figures) / len(figures) if figures else None


def standard_atmosphere_kpa(altitude_m):
    return 101.325 * (1 - 0.0065 * altitude_m / 288.15) ** 5.255876


# --- sets and samples ------------------------------------------------------------------------------------------------

def sets_of(readings):
    """Replicates taken together: one subject, stage and calibrator, each within half an hour of the one before."""
    sets = []
    for reading in sorted(readings, key=lambda r: r["at"]):
        key = (reading["stage"], reading["calibrator"])
        mate = next((s for s in reversed(sets) if s["key"] == key), None)
        if mate and reading["at"] - mate["readings"][-1]["at"] <= SET_GAP_MIN:
            mate["readings"].append(reading)
        else:
            sets.append({"key": key, "stage": reading["stage"], "readings": [reading]})
    for s in sets:
        used = [r for r in s["readings"] if r.get("void") != "yes"]
        s |= {"first": s["readings"][0]["at"], "last": s["readings"][-1]["at"], "n": len(used),
              "flow": mean([r["flow"] for r in used]),
              "temperature": mean([r["temperature"] for r in used if r["temperature"] is not None]),
              "pressure": mean([r["pressure"] for r in used if r["pressure"] is not None])}
    return sets


def bracket(sets, started, stopped):
    """The last pre set before the start and the first post set after the stop, with no other pre set between."""
    pre = [s for s in sets if s["stage"] == "pre" and s["last"] <= started]
    post = [s for s in sets if s["stage"] == "post" and s["first"] >= stopped]
    pre, post = (pre[-1] if pre else None), (post[0] if post else None)
    if post and any(s["stage"] == "pre" and stopped <= s["first"] < post["first"] for s in sets):
        post = None
    return pre, post


def sample_condition(sample, name, sets, fallback):
    if sample[name] is not None:
        return sample[name]
    known = [s[name] for s in sets if s and s[name] is not None]
    return mean(known) if known else fallback


def assessed(sample, pre, post, site_kpa):
    minutes = moment(sample["stopped"]) - moment(sample["started"]) - (sample["paused"] or 0)
    result = {"sample": sample["sample"], "minutes": minutes}
    for stage, s in (("pre", pre), ("post", post)):
        result |= {f"{stage}_n": s["n"] if s else 0, f"{stage}_l_min": s["flow"] if s else None}
    if pre and post:
        temperature = sample_condition(sample, "temperature", (pre, post), None)
        pressure = sample_condition(sample, "pressure", (pre, post), site_kpa)
        flow = (pre["flow"] + post["flow"]) / 2
        result |= {"drift_percent": 100 * (post["flow"] - pre["flow"]) / pre["flow"], "flow_l_min": flow,
                   "volume_l": flow * minutes,
                   "volume_reference_l": flow * minutes * (pressure / REFERENCE_KPA) * (REFERENCE_K / temperature)}
    return result


def assess(book, supposed=None):
    """Every sample of the book (blanks left out), in file order, as {column: figure}.

    `supposed(reading)` may give the error of a reading's calibrator instead of its certificate (None: the certificate).
    """
    book = pathlib.Path(book)
    instruments = {row["instrument"]: row for row in tables(book, "instruments")}
    histories = certificates(book)
    site = tomllib.loads((book / "book.toml").read_text("utf-8"))["site"]["altitude"]
    of_sample, of_pump = defaultdict(list), defaultdict(list)
    for reading in tables(book, "readings"):
        calibrator = reading["calibrator"]
        reading["at"] = moment(reading["taken"])
        reading["flow"] = actual_flow(reading, instruments[calibrator], histories[calibrator], supposed)
        owner = of_sample[reading["sample"]] if reading.get("sample") else of_pump[reading["pump"]]
        owner.append(reading)
    results = []
    for sample in tables(book, "samples"):
        if sample["kind"] == "blank":
            continue
        sets = sets_of(of_sample[sample["sample"]] or of_pump[sample["pump"]])
        pre, post = bracket(sets, moment(sample["started"]), moment(sample["stopped"]))
        results.append(assessed(sample, pre, post, standard_atmosphere_kpa(float(site.removesuffix(" m")))))
    return results


def written(figure):
    return "" if figure is None else figure if isinstance(figure, str) else f"{figure:.12g}"


def write(results, file):
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows([written(result.get(column)) for column in COLUMNS] for result in results)


if __name__ == "__main__":
    write(assess(sys.argv[1]), sys.stdout)
