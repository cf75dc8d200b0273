# SPDX-License-Identifier: MIT
"""Plans a random book: records with figures in L/min, °C, kPa and minutes, and local times in the book's zone. What a
seed gives never changes; how the records are then written is written_book's own choice."""
import datetime
import zoneinfo

HALF = datetime.timedelta(minutes=30)
ZONES = {  # with a day near a change of the clocks, and a rule instead of a name
    "America/Denver": (datetime.date(2026, 10, 30), None),
    "Europe/Berlin": (datetime.date(2026, 3, 27), "CET-1CEST,M3.5.0,M10.5.0/3"),
    "Australia/Lord_Howe": (datetime.date(2026, 4, 3), None),
    "America/New_York": (datetime.date(2026, 3, 6), "EST5EDT,M3.2.0,M11.1.0"),
    "Asia/Kathmandu": (datetime.date(2026, 6, 1), None),
    "UTC": (datetime.date(2026, 2, 26), None),
}
PRINCIPLES = ("volumetric", "bubble", "rotameter", "mass", "orifice")
# What somebody wrote into a cell that asks for a figure or for a time.
NO_FIGURE = ("1.9x", "<2", "about 2", "2.0 2.0")
NO_TIME = ("noon", "2026-13-01T07:00", "07:15")
METHODS = (None, None, "site method 7", "PM2.5", "TSP", "NMAM 7601", "NMAM 7603")


class Unreadable(str):
    """A cell to be written as it is."""


class LessThan(float):
    """A figure behind a sign."""


class Plan:
    def __init__(self, random):
        self.random = random
        self.zone_name, (self.first_day, self.zone_rule) = random.choice(list(ZONES.items()))
        self.zone = zoneinfo.ZoneInfo(self.zone_name)
        self.days = random.randint(2, 5)
        self.altitude = random.choice((None, "1500 m", "4921 ft", "0.2 km"))
        self.site_kpa = 101.3 if self.altitude is None or "0.2" in self.altitude else 84.6
        self.lacks = random.choice((0, 0, 0.05, 0.3))  # how often a temperature or pressure is not written down
        self.instruments, self.certificates, self.samples, self.readings, self.decisions = [], [], [], [], []
        self.services = []
        self.nominal = random.choice((1.7, 2.0, 2.2, 16.67))
        self.plan_calibrators()
        self.plan_pumps()
        for day in range(self.days):
            self.plan_day(self.first_day + datetime.timedelta(days=day), day)
        self.plan_services()
        random.shuffle(self.readings)

    def chance(self, p):
        return self.random.random() < p

    def moment(self, day, hour, minute):
        """An instant, so that no clock change can make it ambiguous."""
        local = datetime.datetime(day.year, day.month, day.day, tzinfo=self.zone)
        return local.timestamp() + hour * 3600 + minute * 60

    def plan_calibrators(self):
        self.calibrators = []
        for number, principle in enumerate(self.random.choices(PRINCIPLES, k=self.random.randint(1, 4)), 1):
            name = f"{principle[:3].upper()}-{number}"
            scale = principle in ("rotameter", "mass") or self.chance(0.5)
            if principle in ("rotameter", "mass") and self.chance(self.lacks / 3):
                scale = False
            low, high = self.random.choice(((None, None), (self.nominal * 0.3, self.nominal * 1.5),
                                            (self.nominal * 0.9, self.nominal * 1.02)))
            self.instruments.append({
                "instrument": name, "kind": "calibrator", "principle": principle,
                "serial": self.random.choice((None, f"S{number}77")), "low": low, "high": high,
                "resolution": self.random.choice((None, 0.001, 0.01, 0.005)),
                "scale temperature": self.random.choice((20, 25, 21.11)) if scale else None,
                "scale pressure": 101.325 if scale and principle != "orifice" else None,
                "read at": self.random.choice((None, "centre", "top")) if principle == "rotameter" else None,
                "interval": self.random.choice((None, 10 * 1440, 365 * 1440))})
            self.calibrators.append((name, principle))
            self.plan_certificates(name)

    def plan_certificates(self, name):
        """None to four, one of which may begin on a day of the book."""
        for number in range(self.random.choice((0, 1, 2, 3, 4))):
            day = self.first_day + datetime.timedelta(
                days=self.random.choice((-400, -200, -30, 0, 1, 1, 2, 2, 3)) + number)
            said = {"certificate": f"{name}/{number}", "instrument": name, "calibrated": day,
                    "due": self.random.choice((None, day + datetime.timedelta(days=self.random.choice((1, 30, 365))))),
                    "temperature": self.random.choice((None, 20, 23.4)), "pressure": self.random.choice((None, 101.3)),
                    "issuer": self.random.choice((None, "bench of the site")),
                    "standard": self.random.choice((None, "a laboratory's, not of this book")), "coverage factor": self.random.choice((None, 2, 2.13)),
                    "tolerance": self.random.choice((None, 0.02))}
            uncertainty = self.random.choice((None, 0.005, 0.012))
            spans = sorted(self.random.sample((0.4, 0.6, 0.8, 0.95, 1.0, 1.05, 1.3, 2.0), self.random.choice((1, 2, 3, 5))))
            has_found, has_left = self.random.choice(((True, False), (False, True), (True, True)))
            for span in spans:
                self.plan_point({**said, "expanded uncertainty": uncertainty and uncertainty * self.random.choice((1, 1.5))},
                                span, has_found, has_left)
                said = {**said, "due": None, "tolerance": None} if self.chance(0.5) else said

    def plan_point(self, said, span, has_found, has_left):
        """In one row, or what was found and what was left in a row each, each with a reference of its own."""
        reference = round(self.nominal * span, 4)
        found = {"as found": self.off(reference, 0.02)} if has_found else {}
        left = {"as left": self.off(reference, 0.008)} if has_left else {}
        said = {**said, "nominal": round(self.nominal * span, 3), "reference": reference}
        other = {"reference as found": self.off(reference, 0.003)} if found and self.chance(0.2) else {}
        if found and left and self.chance(0.3):
            self.certificates += [{**said, **found, **other, "reference": self.off(reference, 0.003)}, {**said, **left}]
        else:
            self.certificates.append({**said, **found, **left, **other})

    def plan_services(self):
        for instrument in self.random.sample(self.instruments, self.random.choice((0, 0, 1, 2)) % (len(self.instruments) + 1)):
            self.services.append({"serviced": int(self.moment(self.first_day, self.random.randint(-90, 40) * 24, 0)),
                                  "instrument": instrument["instrument"], "what": "cleaned",
                                  "by": self.random.choice((None, "site hygienist"))})

    def off(self, figure, share):
        return round(figure * (1 + self.random.gauss(0, share)), 4)

    def plan_pumps(self):
        self.pumps = [f"PUMP-{n:02}" for n in range(1, self.random.randint(2, 4))]
        for pump in self.pumps:
            self.instruments.append({"instrument": pump, "kind": "pump", "serial": self.random.choice((None, "P1"))})

    def plan_day(self, day, number):
        batch = f"B{number}"
        for pump in self.pumps:
            for run in range(self.random.choice((1, 1, 2))):
                self.plan_run(day, pump, run, batch)
        for blank in range(self.random.choice((0, 0, 1, 2))):
            self.samples.append({"sample": f"{batch}-BL{blank}", "batch": batch, "kind": "blank",
                                 "analysis": self.random.choice((None, "quartz"))})

    def plan_run(self, day, pump, run, batch):
        """One or two samples on a pump between a pre and a post check."""
        start = self.moment(day, self.random.choice((6, 7)) + 9 * run + self.random.choice((0, 0, 8)), self.random.randint(0, 59))
        length = self.random.choice((120, 240, 300, 470)) + self.random.randint(0, 30)
        if self.chance(0.25):  # so that a set runs over midnight, before the start or after the stop
            start = self.moment(day, 24, self.random.choice((15, -43 - length)))
        by_pump = self.chance(0.4)
        count = 2 if self.chance(0.2) else 1
        if count == 2:
            by_pump = True
        flow = self.nominal * (1 + self.random.gauss(0, 0.02))
        names = []
        for half in range(count):
            name = f"{batch}-{pump[-2:]}{'abc'[run]}{half}"
            begin = start + half * length / count * 60 + (self.random.choice((0, -600, 900)) if half else 0)
            names.append(self.plan_sample(name, batch, pump, begin, begin + length / count * 60))
        self.plan_checks(names, pump, by_pump, start, start + (length + 40) * 60 * 1.0, flow)

    def plan_sample(self, name, batch, pump, begin, end):
        begin, end = int(begin // 60 * 60), int(end // 60 * 60)
        fitting = {2.0: "respirable-parallel-impactor", 1.7: "nylon-cyclone-10mm"}.get(self.nominal)
        sampler, nominal = self.random.choice((
            (fitting, None), (fitting, None), (None, self.nominal), (None, None), ("own-cassette", self.nominal),
            ("own-impacter", None), ("own-impactor", self.random.choice((None, self.nominal))),
            (self.random.choice(("respirable-parallel-impactor", "nylon-cyclone-10mm")), None)))
        self.samples.append({
            "sample": name, "batch": self.random.choice((batch, batch, None)), "kind": self.random.choice((None, "sample")),
            "pump": pump, "sampler": sampler, "nominal": nominal, "method": self.random.choice(METHODS),
            "analysis": self.random.choice((None, "quartz", "quartz", "quarts")), "started": begin, "stopped": end,
            "paused": self.random.choice((None, None, 0, 12.5, 30)), "warm-up": self.random.choice((None, 10, 15, 20)),
            "vacuum": (None, 57.6, 60.25)[len(self.samples) % 3],
            "leak": (0.08, None, 0.0795, 0)[len(self.samples) % 4], "interruptions": (10, 11, None, 0, 3)[len(self.samples) % 5],
            "pressure drop": (None, 3.1, 3.4)[len(self.samples) % 3], "pulsation": (0.2, 0.21, None, 0)[len(self.samples) % 4],
            "temperature": self.maybe(self.random.uniform(-5, 35), 1), "pressure": self.maybe(self.site_kpa + self.random.uniform(-6, 2), 2),
            "fault": self.random.choice((None, "no", "no", "yes") if self.chance(0.3) else (None, "no"))})
        return name

    def maybe(self, figure, decimals):
        return None if self.chance(self.lacks) else round(figure, decimals)

    def plan_checks(self, names, pump, by_pump, start, end, flow):
        drift = self.random.choice((0, 0, 0, self.random.gauss(0, 0.02), self.random.gauss(0, 0.02), -0.05, 0.051))
        is_exact = self.chance(0.15)  # so that a figure may lie on its limit
        share = {"pre": 1, "field": 1 + drift * self.random.choice((0.5, 2)), "post": 1 + drift}
        calibrator = self.random.choice(self.calibrators)
        for stage, at in (("pre", start - 60 * self.random.randint(8, 60)), ("field", (start + end) / 2), ("post", end + 60)):
            if self.chance({"pre": 0.04, "field": 0.75, "post": 0.04}[stage]):
                continue
            if self.chance(0.15):
                calibrator = self.random.choice(self.calibrators)
            for name in ([None] if by_pump else names):
                whose = {"sample": name, "pump": pump if name is None or self.chance(0.3) else None}
                self.plan_sets(stage, at, (start, end - 42 * 60), calibrator, whose, flow * share[stage], is_exact)

    def plan_sets(self, stage, at, run, calibrator, whose, flow, is_exact):
        """Mostly one set; at times a second one farther away from the sample, or one that is struck out."""
        away = {"pre": -1, "field": 1, "post": 1}[stage]
        self.at_bench = self.random.uniform(5, 32), self.site_kpa + self.random.uniform(-1, 1)
        self.plan_set(stage, at, calibrator, whose, flow, is_exact, self.chance(0.08))
        if self.chance(0.05):  # on the wrong side of the start or the stop, but not of both: that is a fault
            wrong_side = {"pre": min(at + 60 * 150, run[1]), "post": max(at - 60 * 150, run[0]), "field": at - 60 * 150}
            self.plan_set(stage, wrong_side[stage], calibrator, whose, flow * 1.01, is_exact, False)
        if self.chance(0.15):
            other = self.random.choice(self.calibrators)
            self.plan_set(stage, at + away * 60 * self.random.choice((45, 50, 20)), other, whose, flow * 0.98, is_exact,
                          self.chance(0.2))

    def plan_set(self, stage, at, calibrator, whose, flow, is_exact, is_struck_out):
        name, principle = calibrator
        count = self.random.choice((1, 2, 3, 3, 5))
        apart = self.random.choice((1, 1, 2, 9, 30)) if count < 4 else 1
        set_name = f"{stage}-{self.random.randint(1, 99)}" if self.chance(0.15) else None
        t, p = self.at_bench
        for n in range(count):
            # The last reading of a pre set and the first of a post set lie at `at`.
            taken = at + 60 * apart * (n - (count - 1 if stage == "pre" else 0)) * (3 if set_name else 1)
            void = is_struck_out or self.chance(0.05)
            self.readings.append({
                "taken": int(taken // 60 * 60) + self.random.choice((0, 0, 7)), "stage": stage, **whose, "calibrator": name,
                "reading": round(flow, 3) if is_exact else round(self.shown(flow, principle, t, p), 4),
                "temperature": self.maybe(t + 0.1 * n, 1), "pressure": self.maybe(p, 2),
                "humidity": self.maybe(0.45, 2) if principle == "bubble" else None, "replicate": n + 1, "set": set_name,
                "by": self.random.choice((None, "site hygienist")), "void": "yes" if void else None,
                "note": self.random.choice(("float stuck", "float stuck", None)) if void else None})

    def decide(self, findings):
        """Rulings on some findings, given as (sample, rule), a few of them twice and a few about what was not found."""
        samples = self.random.sample(sorted({subject for subject, _ in findings}), min(4, len({s for s, _ in findings})))
        chosen = self.random.sample(findings, min(len(findings), 6)) + [f for f in findings if f[0] in samples]
        for subject, rule in chosen + chosen[:3] + [(self.samples[0]["sample"], "common-practice/fault")]:
            at = self.moment(self.first_day, self.random.randint(0, 24 * 20), 0)
            self.decisions.append({"decided": int(at), "by": "site hygienist", "subject": subject, "rule": rule,
                                   "ruling": self.random.choice(("uphold", *["overrule"] * 5)), "reason": "Looked at, \"twice\"."})

    def plan_results(self, random):
        """In half of the books, what the laboratory found on most samples and blanks, by mass or by two weights."""
        self.results = []
        for analyte in random.choice(((), ("dust",), ("dust", "quartz"))):
            rows = [self.found(random, sample, analyte) for sample in self.samples if random.random() < 0.8]
            self.results += rows
        self.balances = []
        if self.results and random.random() < 0.6:
            self.plan_weighing_room(random)
        random.shuffle(self.results)

    def plan_weighing_room(self, random):
        """A balance with certificates, on which most weights were taken, and control filters of some batches."""
        self.instruments.append({"instrument": "BAL-1", "kind": "balance", "interval": random.choice((None, 60 * 24 * 365))})
        for number, age in enumerate(random.choice(((400,), (400, 6), (3,), ()))):
            day = self.first_day - datetime.timedelta(days=age)
            due, k = random.choice((None, day + datetime.timedelta(days=390))), random.choice((None, 2, 2.1))
            for weight in random.choice(((10, 20), (5, 14, 50))):
                self.balances.append({"certificate": f"BAL-1/{number}", "instrument": "BAL-1", "calibrated": day, "due": due,
                                      "nominal": weight, "reference": weight + random.choice((0, 0.001)), "as left": weight,
                                      "expanded uncertainty": random.choice((0.003, 0.004, 0.006, None)),
                                      "coverage factor": k})
        for row in self.results:
            if row["before"] is not None and random.random() < 0.8:
                tare = self.first_day - datetime.timedelta(days=random.choice((1, 5, 20)))
                row |= {"balance": "BAL-1", "weighed before": random.choice((None, tare)),
                        "weighed after": random.choice((None, *[self.first_day + datetime.timedelta(days=9)] * 3))}
        batches = sorted({s["batch"] for s in self.samples if s.get("batch")})
        for number in range(random.randint(0, 5) if batches else 0):
            before = round(random.uniform(13, 15), 3)
            self.results.append({"sample": f"CF-{number}", "analyte": "dust", "amount": None, "before": before,
                                 "after": round(before + random.choice((-0.003, 0, 0.002, 0.006)), 3), "kind": "control",
                                 "batch": random.choice(batches)})

    def found(self, random, sample, analyte):
        limit = random.choice((None, 0.03, 0.03, 0.05))
        most = 0.04 if sample.get("kind") == "blank" else 0.6
        row = {"sample": sample["sample"], "analyte": analyte, "amount": round(random.uniform(0, most), 4), "before": None,
               "after": None, "limit": limit, "expanded uncertainty": random.choice((None, 0.05, 0.08)),
               "coverage factor": random.choice((None, 2, 2.13))}
        how = random.random()
        if how < 0.1:
            return {**row, "amount": LessThan(random.choice((0.03, 0.04)))}
        if how < 0.2 and limit is not None:
            return {**row, "amount": Unreadable("nd")}
        if how < 0.5:
            before = round(random.uniform(13, 15), 3)
            return {**row, "amount": None, "before": before, "after": round(before + random.uniform(-0.002, most), 3)}
        return row

    def spoil(self, random):
        """In a book of four, up to three figures or times that nobody can read."""
        columns = {"samples": ("started", "stopped", "paused", "warm-up", "nominal", "temperature", "pressure"),
                   "readings": ("taken", "reading", "temperature", "pressure", "humidity")}
        for _ in range(random.choice((0, 0, 0, random.randint(1, 3)))):
            table = random.choice(("samples", "readings"))
            row, column = random.choice(getattr(self, table)), random.choice(columns[table])
            if row.get(column) is not None:
                row[column] = Unreadable(random.choice(NO_TIME if column in ("started", "stopped", "taken") else NO_FIGURE))

    def shown(self, flow, principle, t, p):
        """Roughly what a calibrator shows, so that limits are met as well as missed."""
        density = p / 101.325 * 298.15 / (t + 273.15)
        factor = {"rotameter": density ** 0.5, "mass": density, "orifice": (298.15 / (t + 273.15)) ** 0.5}.get(principle, 1)
        return flow * factor * (1 + self.random.gauss(0, 0.003))
