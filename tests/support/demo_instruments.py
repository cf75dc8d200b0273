# SPDX-License-Identifier: MIT
"""The demo book's clock, chance, air and instruments: what was true, and what a display showed of it.

Goes the way of the truth: from a true flow, temperature and pressure to the indication, by inverting the principle and
the error on the certificate. The way back is in demo_arithmetic.py, which shares nothing with this file.
"""
import dataclasses
import datetime
import math
import random

SEED = "tamber-fold-2026"
MINUTE = datetime.timedelta(minutes=1)
CLOCKS_GO_BACK = datetime.datetime(2026, 11, 1, 8, 0)  # UTC: 02:00 at UTC-6 becomes 01:00 at UTC-7


class Chance:
    """Random figures that depend on a name only, so that a change to one sample does not move the others.

    Sums of uniform figures, without the mathematical library: the same on every machine.
    """

    def __init__(self, name):
        self.source = random.Random(f"{SEED}/{name}")

    def normal(self, mean, sd, most=3.0):
        z = math.fsum(self.source.random() for _ in range(12)) - 6
        return mean + sd * max(-most, min(most, z))

    def whole(self, low, high):
        return low + int(self.source.random() * (high - low + 1))


# --- time: naive UTC inside, local time in the files -----------------------------------------------------------------

def local(day, clock, hours_behind=None):
    """The moment of a local time; where the clock change makes it ambiguous, hours_behind says which is meant."""
    wall = datetime.datetime.combine(day, datetime.time.fromisoformat(clock))
    if hours_behind is None:
        hours_behind = 6 if wall < datetime.datetime(2026, 11, 1, 1, 0) else 7
    return wall + hours_behind * 60 * MINUTE


def stamp(moment):
    behind = 6 if moment < CLOCKS_GO_BACK else 7
    wall = moment - behind * 60 * MINUTE
    ambiguous = wall.date() == datetime.date(2026, 11, 1) and wall.hour == 1
    return wall.isoformat(timespec="minutes") + (f"-{behind:02d}:00" if ambiguous else "")


# --- instruments and their certificates ------------------------------------------------------------------------------

@dataclasses.dataclass(frozen=True)
class Calibrator:
    principle: str
    step: int              # decimals of the display
    nominals: tuple        # points of its certificates, L/min
    shape: tuple           # its own error at those points, percent
    uncertainty: float     # percent, k = 2
    tolerance: float       # percent
    standard: str
    scale: tuple = ()      # °C, kPa
    low: float = 0.5
    high: float = 5.0
    interval: int = 365
    note: str = ""


AT = (1.0, 1.5, 2.0, 2.5, 3.0)
CALIBRATORS = {
    "VOL-LAB": Calibrator("volumetric", 4, AT, (.02, .01, -.01, 0, .03), 0.25, 0.5,
                          "flow prover of the Lower Ferrow laboratory", low=0.1, high=10,
                          note="laboratory standard; never leaves the instrument room"),
    "VOL-1": Calibrator("volumetric", 3, AT, (.1, 0, 0, 0, .2), 0.7, 1.0, "VOL-LAB", interval=182),
    "VOL-2": Calibrator("volumetric", 3, AT, (-.2, -.1, .1, .2, .3), 0.7, 1.0, "VOL-LAB", note="spare"),
    "BUB-1": Calibrator("bubble", 3, AT, (.6, .4, .3, .2, .1), 0.9, 1.5, "VOL-LAB", note="soap film, 500 mL tube"),
    "ROT-1": Calibrator("rotameter", 2, AT, (1.2, .8, .5, -.3, -.6), 2.0, 4.0, "VOL-LAB", (20, 101.325)),
    "ROT-2": Calibrator("rotameter", 2, AT, (.9, .4, -.2, -.6, -.8), 2.0, 4.0, "VOL-LAB", (20, 101.325), interval=182),
    "MASS-1": Calibrator("mass", 3, (.5, 1.0, 1.5, 2.0, 3.0), (.3, .1, 0, -.1, .2), 1.0, 2.0, "VOL-LAB", (0, 101.325),
                         low=0.1, interval=182),
}
# (calibrator, day, what it had strayed as found, adjusted afterwards?), percent
CALIBRATIONS = [
    ("VOL-LAB", "2023-06-12", .02, False), ("VOL-LAB", "2024-06-10", .05, False),
    ("VOL-LAB", "2025-06-09", -.03, False), ("VOL-LAB", "2026-06-08", .04, False),
    ("VOL-1", "2023-08-28", .15, True), ("VOL-1", "2024-02-26", .22, True), ("VOL-1", "2024-08-26", .18, True),
    ("VOL-1", "2025-02-24", .30, True), ("VOL-1", "2025-08-25", .26, True), ("VOL-1", "2026-02-23", .35, True),
    ("VOL-1", "2026-08-24", .31, True),
    ("VOL-2", "2023-10-16", .1, False), ("VOL-2", "2024-10-14", .2, False), ("VOL-2", "2025-10-13", .3, False),
    ("BUB-1", "2024-02-05", 0, False), ("BUB-1", "2025-02-03", .1, False), ("BUB-1", "2026-02-02", -.1, False),
    ("ROT-1", "2024-09-09", .2, False), ("ROT-1", "2025-09-08", .6, False), ("ROT-1", "2026-09-07", -.1, False),
    ("ROT-2", "2025-03-10", -.3, False), ("ROT-2", "2025-09-08", .2, False), ("ROT-2", "2026-03-09", .4, False),
    ("ROT-2", "2026-09-08", 0, False), ("ROT-2", "2026-11-11", 6, True),
    ("MASS-1", "2025-01-13", .7, True), ("MASS-1", "2025-07-14", .9, True), ("MASS-1", "2026-01-12", .8, True),
    ("MASS-1", "2026-07-13", 1.0, True),
]
ROT2_KNOCKED = local(datetime.date(2026, 10, 26), "00:00")  # from then on ROT-2 showed 6 % too much
ROT2_GOOD, ROT2_FOUND = "2026-09-08", "2026-11-11"          # its last good certificate, and the one that told


def certificate_points(name, day, strayed, adjusted):
    """(nominal, reference, as found, as left) of a calibration, as printed."""
    gear, chance = CALIBRATORS[name], Chance(f"{name}/{day}")
    for nominal, shape in zip(gear.nominals, gear.shape):
        if gear.principle == "rotameter" and not adjusted:  # the float is set on the mark, the standard shows the rest
            yield nominal, round(nominal / (1 + (shape + strayed) / 100), 4), nominal, None
            continue
        if name == "ROT-2":  # found 6 % high all along its scale
            shape = 0
        reference = round(nominal + chance.whole(-4, 4) / 1000, 3) if gear.step > 2 else nominal
        left = round(reference * (1 + shape / 100), gear.step) if adjusted else None
        yield nominal, reference, round(reference * (1 + (shape + strayed) / 100), gear.step), left


def error_table(name, day, column):
    points = next(list(certificate_points(*c)) for c in CALIBRATIONS if c[:2] == (name, day))
    pairs = [(p[column] if p[column] is not None else p[2], p[1]) for p in points]
    return [(shown, (shown - true) / true) for shown, true in pairs]


def believed_errors(name, moment):
    """The errors on the certificate in force."""
    day = (moment - 6 * 60 * MINUTE).date().isoformat()
    return error_table(name, max(c[1] for c in CALIBRATIONS if c[0] == name and c[1] <= day), 3)


def true_errors(name, moment):
    knocked = name == "ROT-2" and ROT2_KNOCKED <= moment < local(datetime.date.fromisoformat(ROT2_FOUND), "00:00")
    return error_table(name, ROT2_FOUND, 2) if knocked else believed_errors(name, moment)


def interpolated(errors, shown):
    for (low, low_error), (high, high_error) in zip(errors, errors[1:]):
        if shown <= high:
            return low_error + (high_error - low_error) * max(0, shown - low) / (high - low)
    return errors[-1][1]


# --- physics: from the truth to the display --------------------------------------------------------------------------

def principle_factor(name, air):
    """Actual flow over what a faultless instrument of this principle shows."""
    gear, kelvin = CALIBRATORS[name], air.celsius + 273.15
    if not gear.scale:
        return 1.0
    ratio = (gear.scale[1] / air.kpa) * (kelvin / (gear.scale[0] + 273.15))
    return math.sqrt(ratio) if gear.principle == "rotameter" else ratio


def shown_flow(true_flow, name, air, errors):
    """What the instrument shows, unrounded: corrected · (1 + error at what is shown)."""
    corrected = shown = true_flow / principle_factor(name, air)
    for _ in range(50):
        shown = corrected * (1 + interpolated(errors, shown))
    return shown


def believed_to_true(flow, name, air, moment):
    """The true flow when the instrument made people believe in `flow`."""
    shown = shown_flow(flow, name, air, believed_errors(name, moment))
    return shown / (1 + interpolated(true_errors(name, moment), shown)) * principle_factor(name, air)


@dataclasses.dataclass(frozen=True)
class Air:
    celsius: float
    kpa: float
    humidity: float


def air_at(site, moment):
    """The air at a site's bench, another every half day; the mine lies at about 1,500 m."""
    wall = moment - 6 * 60 * MINUTE
    chance = Chance(f"air/{site}/{wall.date()}/{wall.hour // 12}")
    celsius, kpa = {"TF": (19.5, 84.45), "ST": (16.0, 84.85)}[site]
    return Air(chance.normal(celsius, 1.3, 2), chance.normal(kpa, 0.3, 2), chance.normal(38, 7, 2))
