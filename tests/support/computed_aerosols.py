# SPDX-License-Identifier: MIT
"""Sampling conventions, preselectors and what a flow does to the mass: what the tests of tests/aerosol expect.

With SciPy's normal distribution and root finder. Integrals are by Gauss and Legendre's rule, where the program takes the
trapezoidal one.
"""
import csv
import math
import pathlib

import numpy
from scipy.optimize import brentq, least_squares, minimize_scalar
from scipy.special import ndtr

SIZES = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 16, 18, 20, 25, 30, 40, 100)  # µm
AEROSOLS = ((2, 2), (5, 1.5), (5, 2), (10, 2), (10, 2.5), (15, 2), (20, 3))  # mass median diameter, µm, and spread
FOUR = ((3, 1.8), (5, 2), (10, 2.5), (20, 3))
DEVIATIONS = ((0.5, 0.95), (0.5, 1.05), (0.75, 0.95), (0.75, 1.05), (1, 0.95), (1, 1.05), (1, 0.9), (1, 1.1),
              (1.13, 0.95), (-0.5, 1.05))  # exponent, flow as a ratio of the nominal one
MEDIANS = {"inhalable": math.inf, "thoracic": 11.64, "respirable": 4.25, "high-risk": 2.5}  # µm
THREE = ("inhalable", "thoracic", "respirable")
AT, WEIGHT = numpy.polynomial.legendre.leggauss(50)


def penetration(d, cut, spread):
    return ndtr(numpy.log(cut / d) / math.log(spread))


def share(convention, d):
    """ISO 7708 and EN 481."""
    return (1 + numpy.exp(-0.06 * d)) / 2 * penetration(d, MEDIANS[convention], 1.5)


def mean(function, mmad, gsd):
    """Over the mass of a lognormal aerosol."""
    def piece(left):
        z = left + (1 + AT) / 2
        return (WEIGHT * numpy.exp(-z * z / 2) * function(mmad * gsd ** z)).sum() / math.sqrt(8 * math.pi)
    return math.fsum(piece(left) for left in range(-9, 9))


def taken(convention, mmad, gsd):
    return mean(lambda d: share(convention, d), mmad, gsd)


def taken_by_all(convention, mmads, gsd):
    """taken() of many median diameters at once."""
    z = numpy.linspace(-9, 9, 181)[:, None]
    return (numpy.exp(-z * z / 2) * share(convention, mmads * gsd ** z)).sum(0) / 10 / math.sqrt(2 * math.pi)


def through(cut, mmad, gsd, spread=1.25):
    """Closed form: one normal variable below another."""
    return ndtr(math.log(cut / mmad) / math.hypot(math.log(spread), math.log(gsd)))


def slip(d, mean_free_path=0.0664):
    """C. N. Davies 1945."""
    return 1 + 2 * mean_free_path / d * (1.257 + 0.4 * math.exp(-1.1 * d / (2 * mean_free_path)))


def with_slip(d):
    return d * math.sqrt(slip(d))


def slip_slope(d, step=1e-4):
    """By a difference in logarithms."""
    return math.log(slip(d * math.exp(step)) / slip(d * math.exp(-step))) / (2 * step)


def without_slip(a):
    return brentq(lambda d: with_slip(d) - a, a / 1000, a, xtol=1e-15, rtol=1e-15)


def jet_velocity(flow, area_mm2, count=1):
    return flow / 60 / count / area_mm2 * 1000


def jet_cut(velocity, width_mm, stokes):
    return without_slip(math.sqrt(9 * 1.81e-5 * width_mm / 1000 * stokes / 1000 / velocity) * 1e6)


def masses_between(modes, ends):
    """Of aerosols (mass, median diameter, spread), in the intervals between sizes."""
    below = sum(mass * ndtr(numpy.log(ends / median) / math.log(spread)) for mass, median, spread in modes)
    return numpy.diff(below)


def table_d3():
    """40 CFR 53.43, Table D-3: the two modes it must have been made of, and the end of its last interval.

    The table names neither; intervals that reach half way to the next size, and two modes, give all 37 masses to the
    printed digits.
    """
    path = pathlib.Path(__file__).parent.parent / "aerosol/data/cfr_40_53_43_table_d3.csv"
    rows = numpy.array([[float(cell) for cell in row] for row in list(csv.reader(open(path, encoding="utf-8")))[2:]])
    size, effectiveness, mass, expected = rows.T
    assert max(abs(effectiveness * mass - expected)) < 0.5e-3 + 1e-9 and abs(expected.sum() - 143.889) < 1e-9
    halfway = (size[1:-1] + size[2:]) / 2

    def off(figures):
        ends = numpy.concatenate(([1e-9, 1.0], halfway, figures[6:]))
        return masses_between(figures[:6].reshape(2, 3), ends) - mass

    found = least_squares(off, (75, 0.5, 2, 225, 14, 2, 50), x_scale=(75, 0.5, 2, 225, 14, 2, 50), xtol=1e-15, ftol=1e-15)
    assert max(abs(off(found.x))) < 0.5e-3
    yield from found.x


def convention():
    for d in SIZES:
        yield from (100 * share(name, d) for name in THREE)
    yield 100 * share("high-risk", 2.5)
    for aerosol in AEROSOLS:
        yield from (taken(name, *aerosol) for name in THREE)
    yield from (taken("respirable", 5, gsd) for gsd in (2, 3, 10))
    yield taken("high-risk", 5, 2)


def size_distribution():
    yield from (through(4, 5, 2, spread) for spread in (1.25, 1.5))
    yield from table_d3()


def penetrating():
    yield from (penetration(d, 4, 1.25) for d in (3, 5))
    yield from (through(4, *aerosol) for aerosol in FOUR)


def slipping():
    yield from map(slip, (0.5, 1, 2.5, 4, 10))
    yield from map(with_slip, (0.02, 0.5, 4))
    yield from map(slip_slope, (0.5, 4))


def cut_law():
    for exponent, ratio in DEVIATIONS:
        yield from (4 * ratio ** -exponent, 100 * (ratio ** -exponent - 1))
    yield from (6.17 * flow ** -0.75 for flow in (1.7, 2))
    yield from (without_slip(with_slip(2.5) * (1.9 / 2) ** -n) for n in (0.5, -0.5))
    yield from (n / (1 + slip_slope(d) / 2) for n, d in ((0.5, 4), (-0.5, 2.5)))
    yield from (jet_cut(jet_velocity(flow, math.pi / 4 * 2.63 ** 2), 2.63, 0.24) for flow in (1.8, 1.9, 2, 2.1, 2.2))


def sampled_mass():
    for exponent, ratio in DEVIATIONS:
        for aerosol in FOUR:
            change = through(4 * ratio ** -exponent, *aerosol) / through(4, *aerosol)
            yield from (100 * (change - 1), 100 * (change * ratio - 1))
    for aerosol in FOUR:
        respirable = taken("respirable", *aerosol)
        yield 100 * (through(4, *aerosol) / respirable - 1)
        at_flow = through(4 * 0.95 ** -0.75, *aerosol)
        yield from (100 * (at_flow * volume / respirable - 1) for volume in (1, 0.95, 0.95 / 0.975))


def aerosol_family():
    """By a search far finer than the program's grid."""
    own, wide = (1, 15, 2), (3, 20, 1.8)  # median diameters, and the least spread
    yield from (100 * taken("respirable", 15, 2), 100 * taken("respirable", 15, 3))
    for family, cut, spread, name, exponents in (
            (own, 4, 1.25, "respirable", (0.75,)), (own, 4, 1.25, "respirable", (0.5, 1.15)), (own, 10, 1.2, "thoracic", (0.75,)),
            (wide, 4, 1.25, "respirable", (0.75,)), (wide, 4, 1.25, "respirable", (0.5, 1.15)),
            (wide, 10, 1.2, "thoracic", (0.75,))):
        mmads, gsds = numpy.geomspace(family[0], family[1], 401), numpy.geomspace(family[2], 3, 61)
        width = numpy.hypot(math.log(spread), numpy.log(gsds))[:, None]
        nominal = ndtr(numpy.log(cut / mmads) / width)
        agreed = numpy.array([taken_by_all(name, mmads, gsd) for gsd in gsds])
        at_flow = [ndtr(numpy.log(cut * 0.95 ** -n / mmads) / width) for n in exponents]
        for figures in ([at / nominal - 1 for at in at_flow], [nominal / agreed - 1], [at / agreed - 1 for at in at_flow]):
            yield from (100 * min(f.min() for f in figures), 100 * max(f.max() for f in figures))
    greatest = minimize_scalar(lambda mmad: 1 - through(12, mmad, 1.5, 1.1) / taken("thoracic", mmad, 1.5),
                               bounds=(8, 11), method="bounded", options={"xatol": 1e-9})
    yield from (greatest.x, -greatest.fun)


def level_lines():
    """Where lines of equal error end on a map from 0.5 to 30 µm and 1.5 to 3.5, as shares of its sides."""
    def error(mmad, gsd, volume):
        return through(4 * 0.95 ** -0.75, mmad, gsd) / through(4, mmad, gsd) * volume - 1
    for level, volume in ((0.05, 1), (0, 0.95)):
        mmad = brentq(lambda m: error(m, 3.5, volume) - level, 0.5, 30)
        yield math.log(mmad / 0.5) / math.log(60)
    for level, volume in ((0.1, 1), (0.05, 0.95)):
        yield (brentq(lambda g: error(30, g, volume) - level, 1.5, 3.5) - 1.5) / 2


ROOMS = {"aerosol/convention": convention, "aerosol/size_distribution": size_distribution,
         "aerosol/penetration": penetrating, "aerosol/slip": slipping, "aerosol/cut_law": cut_law,
         "aerosol/sampled_mass": sampled_mass, "aerosol/aerosol_family": aerosol_family,
         "plot/mass_pictures": level_lines}
