# SPDX-License-Identifier: MIT
"""The demo book's plan: which pump took which sample when, and every trouble planted on purpose."""
import dataclasses
import datetime

from demo_instruments import MINUTE, ROT2_FOUND, ROT2_GOOD, ROT2_KNOCKED, Chance, local, stamp

FIRST_DAY = datetime.date(2026, 9, 21)
RESPIRABLE, WELD, CYCLONE = "respirable-parallel-impactor", "weld-cowl", "respirable-cyclone"  # the book's own samplers
DRIFT, FLOW, SET_FLOW = "common-practice/drift", "common-practice/flow-deviation", "common-practice/set-flow"
NO_POST, FEW_PRE = "common-practice/post-reading", "common-practice/pre-replicates"
FAULT, OVERLAP, WARM = "common-practice/fault", "common-practice/overlap", "common-practice/warm-up"
OVERDUE, SCATTER = "common-practice/calibrator-overdue", "common-practice/post-scatter"
FIELD, OTHER = "common-practice/field-check", "common-practice/same-calibrator"
HELD = "common-practice/flow-held"
LATE, SHORT, BLANK = "house/prompt-post-reading", "house/shortest", "house/blank-above-limit"


# --- the plan of a sample --------------------------------------------------------------------------------------------

@dataclasses.dataclass
class Plan:
    name: str
    batch: str
    pump: str
    calibrator: str
    pre_at: datetime.datetime
    started: datetime.datetime
    stopped: datetime.datetime
    post_at: datetime.datetime
    sampler: str = RESPIRABLE
    level: float = 1.0       # pre flow the technician believes in, over nominal
    drift: float = 0.0       # percent, of the true flows
    n: int = 5
    post_calibrator: str = ""
    pre_shown: list = None   # indications given exactly (calibrators without error there)
    post_shown: list = None
    has_pre: bool = True
    has_post: bool = True
    paused: int = 0
    warm_up: int = 20
    fault: str = ""
    note: str = ""
    copied_from: str = ""
    void_replicate: int = 0  # number of a pre reading that is struck out
    states: tuple = ("temperature", "pressure")      # conditions written in the samples file
    reads_pressure: bool = True
    field: tuple = ()        # calibrators that read the pump in the middle, and minutes from the start

    @property
    def nominal(self):
        return 1.5 if self.sampler == WELD else 2.0


CALIBRATOR_OF = {  # week: (A mine Monday, B mine Thursday, C tunnel Saturday night)
    39: ("VOL-1", "BUB-1", "MASS-1"), 40: ("VOL-1", "ROT-1", "ROT-2"), 41: ("VOL-1", "MASS-1", "ROT-1"),
    42: ("ROT-2", "VOL-1", "BUB-1"), 43: ("BUB-1", "VOL-1", "MASS-1"), 44: ("ROT-1", "VOL-1", "VOL-1"),
    45: ("ROT-2", "BUB-1", "ROT-2"), 46: ("VOL-1", "MASS-1", "ROT-2"),
}
WANDER = {  # drifts of PUMP-07, percent
    "39B": .6, "39C": -.9, "40B": -1.4, "40C": 1.2, "41B": 1.9, "41C": -2.1, "42B": 2.4, "42C": -1.7, "43B": -2.9,
    "43C": 3.1, "44B": 3.4, "44C": -3.6, "45B": -4.2, "45C": 6.4, "46B": -7.1,
}
TREND_START, TREND_A_WEEK, TREND_LIMIT = 0.0062, 0.004, 0.05  # PUMP-04 above nominal, and what it gains


def trend_level(moment):
    weeks = (moment - local(FIRST_DAY, "00:00")) / datetime.timedelta(weeks=1)
    return 1 + TREND_START + TREND_A_WEEK * weeks


def trend_crossing():
    weeks = (TREND_LIMIT - TREND_START) / TREND_A_WEEK
    return local(FIRST_DAY, "00:00") + datetime.timedelta(weeks=weeks)


def pumps_of(week, shift):
    if shift == "A":
        return [1, 2, 3, 4, 5, 6]
    if shift == "B":
        return [7, 8, 9, 10, 11, 12]
    others = [1, 2, 3, 5, 6, 8, 9, 10, 11, 12]
    turn = [others[(4 * (week - 39) + k) % len(others)] for k in range(5)]
    return [4, 7, *turn[:4]] if week < 46 else [4, *turn]  # PUMP-07 was withdrawn after its Thursday


def plan_of(week, shift, place, number):
    monday = FIRST_DAY + datetime.timedelta(weeks=week - 39)
    day = last_day = monday + datetime.timedelta(days={"A": 0, "B": 3, "C": 5}[shift])
    if shift == "C":
        last_day += datetime.timedelta(days=1)
    site, first, start, stop, after = {"C": ("ST", "20:50", "21:40", "05:30", "06:00")}.get(
        shift, ("TF", "05:40", "06:25", "14:20", "14:52"))
    name = f"{site}{week}{shift}-{place}"
    chance, turn = Chance(name), place - 1
    plan = Plan(name, f"{site}{week}{shift}", f"PUMP-{number:02d}", CALIBRATOR_OF[week]["ABC".index(shift)],
                pre_at=local(day, first) + 6 * turn * MINUTE,
                started=local(day, start) + (4 * turn + chance.whole(0, 3)) * MINUTE,
                stopped=local(last_day, stop) + (4 * turn + chance.whole(0, 3)) * MINUTE,
                post_at=local(last_day, after) + 6 * turn * MINUTE,
                level=chance.normal(1, .004), drift=chance.normal(-.2, 1, 2.4), n=3 if (week + turn) % 5 == 0 else 5)
    plan.sampler = WELD if number in (11, 12) else RESPIRABLE
    if number == 4:
        plan.level, plan.drift = trend_level(plan.pre_at) * chance.normal(1, .0005), chance.normal(0, .5, 2)
        plan.calibrator, plan.n = plan.calibrator.replace("ROT-1", "VOL-1").replace("ROT-2", "VOL-1"), 5
    if number == 7:
        plan.drift = WANDER[f"{week}{shift}"]
    return plan


# --- troubles --------------------------------------------------------------------------------------------------------

def around(mean, steps=(-1, 1, 0, 2, -2)):
    """Five indications with exactly this mean."""
    return [round(mean + step / 1000, 3) for step in steps]


def scattered(mean, relative_sd):
    steps = (-1.2, .9, 1.1, -.5, -.3)  # mean 0, sd 0.97468
    return [round(mean * (1 + step * relative_sd / .97468), 3) for step in steps]


def on(month, day, clock, hours_behind=None):
    return local(datetime.date(2026, month, day), clock, hours_behind)


# sample: (changes to its plan, expected verdict, rules that speak, what was done)
TROUBLES = {
    "TF39A-2": (dict(n=5, pre_shown=around(2.0), post_shown=around(2.092)), "valid", (),
                "drift +4.6 %, near the limit"),
    "TF39A-6": (dict(has_pre=False), "undecided", (DRIFT, FEW_PRE), "no pre reading"),
    "TF39B-2": (dict(n=5, void_replicate=4), "valid", (), "a replicate struck out (void, with a note); four remain"),
    "TF40A-1": (dict(stopped=on(9, 28, "10:30"), has_post=False), "void", (BLANK, LATE),
                "first of two samples in one bracket (readings name only the pump); its post set came hours later; the "
                "laboratory found quartz on a blank of its batch, above its limit"),
    "TF41A-5": (dict(states=()), "valid", (),
                "no conditions of its own: the mean of the sets' stands in, with a remark"),
    "TF41B-3": (dict(post_at=on(10, 8, "20:31")), "qualified", (LATE,), "post reading six hours after the stop"),
    "TF42B-2": (dict(stopped=on(10, 15, "11:40"), post_at=on(10, 15, "11:45")), "void", (OVERLAP,),
                "overlaps TF42B-7 on the same pump by 25 minutes"),
    "TF42B-4": (dict(has_post=False, note="pump handed out again before it was read"), "void", (NO_POST, DRIFT),
                "no post reading"),
    "ST42C-3": (dict(stopped=on(10, 18, "00:28"), post_at=on(10, 18, "00:50"), note="heading cleared for blasting"),
                "qualified", (SHORT,), "shorter than three hours"),
    "TF43A-5": (dict(fault="yes", note="inlet found half closed with mud on the 11:00 round"), "void", (FAULT,),
                "inlet obstructed"),
    "TF43B-2": (dict(pre_shown=around(2.0), post_shown=around(1.902)), "valid", (), "drift -4.9 %, near the limit"),
    "TF43B-3": (dict(post_shown=scattered(1.992, .025), n=5), "valid", (),
                "post replicates scatter by 2.5 %: inside the 3 % of the override, beyond the pack's 2 %"),
    "TF43B-5": (dict(pre_at=on(10, 22, "06:16"), pre_shown=[1.503] * 8, n=5), "valid", (),
                "eight identical pre replicates: too good to be true"),
    "TF44A-5": (dict(), "valid", (), "near the laboratory's limit: less the blanks its dust is less than that"),
    "TF44A-6": (dict(level=.935, sampler=CYCLONE), "void", (FLOW, SET_FLOW, HELD),
                "pump set 6.5 % below the flow of its sampler, a cyclone on trial: by the model of its cut the "
                "concentration by the nominal volume is hardly off, that by the actual one by 7 %"),
    "TF44B-2": (dict(calibrator="VOL-2"), "qualified", (OVERDUE,), "VOL-2 was due on 2026-10-13"),
    "TF44B-3": (dict(calibrator="VOL-2"), "qualified", (OVERDUE,), "VOL-2 was due on 2026-10-13"),
    "ST44C-1": (dict(field=("VOL-1", "BUB-1", 217)), "valid", (),
                "night shift through the clock change; compared in the hour that came twice"),
    "ST44C-3": (dict(stopped=on(11, 1, "01:40", 7), post_at=on(11, 1, "01:52", 7)), "valid", (),
                "stopped and read in the second hour from 01:00, with its offset"),
    "ST44C-4": (dict(stopped=on(11, 1, "01:20", 6), post_at=on(11, 1, "01:35", 6)), "valid", (),
                "stopped and read in the first hour from 01:00, with its offset"),
    "ST44C-5": (dict(post_shown=scattered(1.988, .036), n=5), "qualified", (SCATTER,),
                "post replicates scatter by 3.6 %, beyond the override's 3 %"),
    "TF45A-1": (dict(), "qualified", (FIELD,), "VOL-1 reads it 6 % below ROT-2 during sampling: the first sign"),
    "TF45A-3": (dict(post_calibrator="VOL-1", drift=-.3), "void", (DRIFT, HELD, OTHER),
                "set with ROT-2, read afterwards with VOL-1: the 6 % of ROT-2 looks like drift"),
    "TF45B-4": (dict(copied_from="TF43A-2", n=5), "valid", (),
                "both sets are copies of those of TF43A-2, 17 days earlier"),
    "ST45C-2": (dict(calibrator="VOL-1"), "void", (DRIFT, HELD), "PUMP-07 wanders beyond 5 %"),
    "ST45C-3": (dict(), "qualified", (FIELD,), "VOL-1 reads it 6 % below ROT-2 during sampling"),
    "TF46A-1": (dict(warm_up=5), "qualified", (WARM,), "five minutes of warm-up"),
    "TF46A-2": (dict(states=("temperature",), reads_pressure=False), "valid", (),
                "no pressure anywhere: standard atmosphere at the site's altitude, with a remark"),
    "TF46A-3": (dict(pre_shown=around(2.0), post_shown=around(1.9), n=5), "valid", (),
                "drift exactly -5 %: on the limit, which is inclusive"),
    "TF46B-1": (dict(), "void", (DRIFT, HELD), "PUMP-07 wanders beyond 5 %; withdrawn the next day"),
    "TF46B-6": (dict(fault="yes", stopped=on(11, 12, "13:05"), post_at=on(11, 12, "13:24"),
                     note="pump found stopped; time of the last round taken as its stop"), "void", (FAULT,),
                "pump stopped by itself"),
}
EXTRA = {  # a second sample on the same pump: (the first, its changes, expected verdict, rules, what)
    "TF40A-7": ("TF40A-1", dict(started=on(9, 28, "10:42"), has_pre=False, stopped=on(9, 28, "14:26")), "valid", (),
                "second of two samples in one bracket"),
    "TF42B-7": ("TF42B-2", dict(pre_at=on(10, 15, "11:06"), started=on(10, 15, "11:15"), drift=-.7, level=1.002),
                "void", (OVERLAP,), "overlaps TF42B-2 on the same pump by 25 minutes"),
}
PAUSED = ("TF41A-1", "TF41A-2", "TF41A-3", "TF45B-5", "TF45B-6")  # half an hour each, the crew in the refuge
COMPARED = {  # two calibrators on one pump, one after the other, minutes from the start
    "ST39C-1": ("MASS-1", "VOL-1", 200), "ST42C-1": ("BUB-1", "VOL-1", 200), "ST43C-1": ("MASS-1", "VOL-1", 200),
    "TF45A-1": ("ROT-2", "VOL-1", 180), "ST45C-3": ("ROT-2", "VOL-1", 210), "ST46C-2": ("ROT-2", "VOL-1", 210),
}


def all_plans():
    plans = []
    for week, shift in ((w, s) for w in CALIBRATOR_OF for s in "ABC"):
        batch = [plan_of(week, shift, k, pump) for k, pump in enumerate(pumps_of(week, shift), 1)]
        extras = [dataclasses.replace(p, name=name, **changes)
                  for name, (first, changes, *_) in EXTRA.items() for p in batch if p.name == first]
        plans += [dataclasses.replace(p, **TROUBLES.get(p.name, ({},))[0]) for p in batch] + extras
    for plan in plans:
        plan.paused = 30 if plan.name in PAUSED else 0
        plan.field = COMPARED.get(plan.name, plan.field)
    return plans


# --- what was planted -------------------------------------------------------------------------------------------------

def leaned_on_rot2(plan):
    """Between ROT-2's last good certificate and the one that found it out."""
    day = (plan.pre_at - 6 * 60 * MINUTE).date().isoformat()
    return "ROT-2" in (plan.calibrator, plan.post_calibrator) and ROT2_GOOD <= day < ROT2_FOUND


def planted(plans):
    told = {name: trouble[-3:] for name, trouble in {**TROUBLES, **EXTRA}.items()}
    for plan in plans:
        remarks = [told[plan.name][2]] if plan.name in told else []
        remarks += ["paused for 30 minutes"] if plan.paused else []
        remarks += ["compared during sampling: {} and {}".format(*plan.field)] if plan.name in COMPARED else []
        verdict, rules, _ = told.get(plan.name, ("valid", (), ""))
        lookback = f"ROT-2/{ROT2_FOUND}" if leaned_on_rot2(plan) else ""
        if remarks or lookback:
            yield [plan.name, verdict, ";".join(rules), "; ".join(remarks), lookback]


def planted_instruments():
    crossing = stamp(trend_crossing())
    return [
        ["instrument", "what", "date", "figure", "unit"],
        ["PUMP-04", "pre flow gains steadily", "", 100 * TREND_A_WEEK, "% of nominal a week"],
        ["PUMP-04", "pre flow above nominal as the first day begins", FIRST_DAY, 100 * TREND_START,
         "% of nominal"],
        ["PUMP-04", "pre flow crosses +5 % of nominal", crossing, 100 * TREND_LIMIT, "% of nominal"],
        ["PUMP-07", "wanders; drift beyond 5 % on 45C and 46B; withdrawn", "2026-11-13", -7.1, "% drift, true"],
        ["ROT-2", "knocked: shows too much from here on", stamp(ROT2_KNOCKED), 6, "%"],
        ["ROT-2", "last good certificate", ROT2_GOOD, 0.9, "% worst as found"],
        ["ROT-2", "found out of tolerance, adjusted", ROT2_FOUND, 6, "% as found"],
        ["VOL-2", "certificate overdue when used on 2026-10-29", "2026-10-13", 16, "d"],
    ]
