# SPDX-License-Identifier: MIT
"""Corrections of a reading, drift and volume: what the tests of tests/correction and tests/assessment expect.

The formulas are those of reference_arithmetic.py, which names their sources; what only one room needs stands here.
"""
import math
import statistics

from computed_aerosols import taken, through
from reference_arithmetic import drift, saturation_kpa, standard_atmosphere_kpa

ATM = 101.325  # kPa
FIVE_READINGS = {"pre": (2.013, 2.008, 2.011, 2.015, 2.009), "post": (1.957, 1.962, 1.955, 1.960, 1.958)}


def kelvin(celsius):
    return celsius + 273.15


def at_reference(flow, celsius, kpa, reference_celsius=25, reference_kpa=ATM):
    """40 CFR 50 Appendix J, section 11.1, 2015 edition: the same amount of an ideal gas."""
    return flow * kpa / reference_kpa * kelvin(reference_celsius) / kelvin(celsius)


def reference_conditions():
    for flow, celsius, kpa in ((2.0, 30, 95.0), (2.0, 10, 84.5), (1.7, -5, ATM)):
        yield from (at_reference(flow, celsius, kpa, *at) for at in ((25, ATM), (20, ATM), (0, ATM), (25, 100)))
    yield from (1 / kelvin(25), 1 / ATM)  # change by a kelvin, by a kilopascal


def rotameter_flow(shown, scale, use):
    return shown * math.sqrt(scale[1] / use[1] * kelvin(use[0]) / kelvin(scale[0]))


def rotameter():
    for shown, scale, use in ((2.0, (20, ATM), (5, 84.5)), (2.0, (25, ATM), (35, ATM)), (2.0, (23, 100), (23, 80)),
                              (1.7, (21.1, ATM), (30, 83.3))):
        actual = rotameter_flow(shown, scale, use)
        yield from (actual, 100 * (actual / shown - 1), rotameter_flow(shown, use, scale), at_reference(actual, *use),
                    450 * actual)


def mass_meter():
    for shown, standard, use in ((2.0, (25, ATM), (30, 95)), (2.0, (0, ATM), (25, ATM)), (1.85, (0, ATM), (22, 84.5)),
                                 (2.0, ((70 - 32) / 1.8, ATM), (35, 79.5))):
        yield at_reference(shown, *standard, *use)


def orifice():
    for flow, start, end in ((2.0, (20, ATM), (35, ATM)), (2.0, (25, ATM), (5, 84.5)), (7.4, (21, 101.3), (32, 98.0))):
        at_end = flow * math.sqrt(kelvin(end[0]) / kelvin(start[0]))
        yield from (at_end, at_reference(flow, *start), at_reference(at_end, *end))
    # the inputs of 40 CFR 1065.642(c): a venturi's standard flow at its calibration, the root of the temperatures after
    at_calibration = 0.4895 * ATM / 99.654 * 302.52 / 293.15
    in_use = at_calibration * math.sqrt(353.15 / 302.52)
    yield in_use * 98836 / (8.314472 * 353.15)


def goff_kpa(celsius):
    """40 CFR 1065.645(a), 2015 edition, the equation over water."""
    t = kelvin(celsius)
    return 10 ** (10.79574 * (1 - 273.16 / t) - 5.028 * math.log10(t / 273.16)
                  + 1.50475e-4 * (1 - 10 ** (-8.2969 * (t / 273.16 - 1)))
                  + 0.42873e-3 * (10 ** (4.76955 * (1 - 273.16 / t)) - 1) - 0.2138602)


def vapour_pressure():
    for celsius in (0, 5, 9.5, 10, 15, 20, 23, 25, 30, 35, 40):
        yield from (saturation_kpa(kelvin(celsius)), goff_kpa(celsius))


def bubble():
    for flow, celsius, kpa in ((2.0, 23, 100), (2.0, 30, 84.5), (1.7, 20, ATM)):
        vapour = saturation_kpa(kelvin(celsius))
        as_shown, dry = at_reference(flow, celsius, kpa), at_reference(flow, celsius, kpa - vapour)
        yield from (vapour, dry, as_shown, 100 * (as_shown / dry - 1))
        yield from (flow * (kpa - vapour) / (kpa - humidity * vapour) for humidity in (0, 0.3, 0.5, 0.8))


def altitude():
    yield from map(standard_atmosphere_kpa, (304.8, 500, 1000, 1500, 1524, 2000, 2500, 3000, 3048))
    yield 1 - (ATM - 260 * ATM / 760) / standard_atmosphere_kpa(3048)  # the rule of 26 mmHg a 1000 ft, at 10 000 ft
    assert abs(standard_atmosphere_kpa(431) / ATM - 0.95) < 1e-4


def corrected_reading():
    yield rotameter_flow(2.0, (20, ATM), (5, 84.5))
    yield at_reference(2.0, 25, ATM, 30, 95)
    yield 2.0 * math.sqrt(308.15 / 293.15)
    vapour = saturation_kpa(kelvin(23))
    yield from (2.0 * (100 - vapour) / (100 - humidity * vapour) for humidity in (0.5, 0))


def interpolated_error(curve, shown):
    if shown <= curve[0][0]:
        return curve[0][1]
    for (a, e_a), (b, e_b) in zip(curve, curve[1:]):
        if shown <= b:
            return e_a + (e_b - e_a) * (shown - a) / (b - a)
    return curve[-1][1]


def indication_for(flow, curve, low=0.0, high=10.0):
    """By halving, and not by solving: the corrected flow grows with the indication here."""
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if middle / (1 + interpolated_error(curve, middle)) < flow else (low, middle)
    return low


def expected_indication():
    yield rotameter_flow(2.0, (20, ATM), (5, 84.5))
    yield 2.02
    sloping = ((1.0, 0.01), (2.0, 0.03), (3.0, -0.01))
    yield from (indication_for(flow, sloping) for flow in (1.5, 2.5, 0.5))


def field_sheet():
    factor = rotameter_flow(1, (20, ATM), (15, 85))
    yield from (flow / factor for flow in (2.0, 1.9, 2.1))


def supposed_errors():
    yield (-0.002 + 0.06) / 2
    yield 2.0 * (1 - 0.002) / (1 + 0.06)


def calibrator_knowledge():
    yield rotameter_flow(2.0, (20, ATM), (5, 84.5))
    yield standard_atmosphere_kpa(1500)
    yield rotameter_flow(2.0, (20, ATM), (5, standard_atmosphere_kpa(1500)))
    yield 2.0 * math.sqrt(308.15 / 293.15)


def drifts():
    for post in (1.905, 1.904, 1.900, 2.103):
        yield from (100 * drift(2.0, post, base, None) for base in ("pre", "post", "mean"))
    yield drift(2.1, 1.998, "pre", 2.0)
    yield drift(2.1, 1.998, "nominal", 2.0)
    yield (2.1 + 1.998) / 2 / 2.0 - 1


def cut_size():
    yield from ((flow / 2.0) ** -0.5 - 1 for flow in (1.9, 2.1))


def mass_at_sets():
    for flow in (1.6, 2.2):
        change = through(4 * (flow / 2) ** -0.75, 5, 2) / through(4, 5, 2)
        yield from (100 * (change - 1), 100 * (change * flow / 2 - 1))


def mass_by_volume():
    """The bias at 1.9 L/min by volumes that were formed with other flows."""
    by_actual = through(4 * 0.95 ** -0.75, 5, 2) / taken("respirable", 5, 2)
    yield from (by_actual * 1.9 / formed_with - 1 for formed_with in (1.9, 1.95, 1.85, 2))


def mass_change():
    """What 1.9 for 2.0 L/min does to a lognormal aerosol of 5 µm, 2 behind a cyclone of 4 µm, 1.25, n = 0.75."""
    cut = 4 * 0.95 ** -0.75
    change = through(cut, 5, 2) / through(4, 5, 2)
    yield from (cut, 100 * (change - 1), 100 * (0.95 * change - 1), 100 * (through(cut, 5, 2) / taken("respirable", 5, 2) - 1))


def reading_set():
    pre = FIVE_READINGS["pre"]
    yield from (statistics.mean(pre), statistics.stdev(pre), standard_atmosphere_kpa(1500))


def sample_assessment():
    yield at_reference(2.0, 10, 84.5)
    yield standard_atmosphere_kpa(1500)


def sampled_volume():
    yield from (480 * (2.0 + 1.904) / 2, 480 * 1.904)


ROOMS = {"correction/reference_conditions": reference_conditions, "correction/rotameter": rotameter,
         "correction/mass_meter": mass_meter, "correction/orifice": orifice, "correction/bubble": bubble,
         "correction/vapour_pressure": vapour_pressure, "correction/altitude": altitude,
         "correction/corrected_reading": corrected_reading, "correction/expected_indication": expected_indication,
         "correction/supposed_errors": supposed_errors, "report/field_sheet": field_sheet,
         "assessment/calibrator_knowledge": calibrator_knowledge, "assessment/drift": drifts,
         "assessment/cut_size": cut_size, "assessment/mass_change": mass_change, "assessment/reading_set": reading_set,
         "assessment/sample_assessment": sample_assessment, "assessment/sampled_volume": sampled_volume,
         "verdict/measured": mass_by_volume, "verdict/remarks": mass_at_sets}
