# SPDX-License-Identifier: MIT
"""Records over time, decision risk and the worked uncertainty budget, by SciPy 1.10 and NumPy 1.24."""
import datetime
import math

import numpy
from scipy import optimize, stats

import computed_statistics as statistics
from computed_corrections import FIVE_READINGS
from computed_statistics import Line, gradient_of, s_of_mean, t_quantile


def decision_risk():
    yield stats.norm.cdf((-5.40 + 5.47) / 0.05)
    yield stats.norm.cdf((509.7 - 490) / 8.6)
    yield stats.norm.cdf((16.3 - 13.6) / 1.8) - stats.norm.cdf((12.5 - 13.6) / 1.8)
    yield 100 / (1 - 0.02 * stats.norm.ppf(0.999))
    yield from (stats.norm.cdf(1), stats.norm.sf(1))
    yield from (stats.t.sf(2, 4), 2 * stats.t.sf(1, 4))
    for guard in (0.5, 0.83, 1.5):  # worst at many degrees of freedom below 1, at one above
        yield max(stats.norm.sf(guard * stats.norm.ppf(0.975)), stats.t.sf(guard * t_quantile(0.975, 1), 1))
    for readings in FIVE_READINGS.values():  # of the worked budget, through a factor of 1.002 known to 0.005
        yield math.hypot(0.005 * numpy.mean(readings), 1.002 * s_of_mean(readings), 1.002 * 0.001 / math.sqrt(12))


def drift_ahead():
    yield t_quantile(0.975, 10)
    yield 2 * stats.t.sf(2.5, 10)
    yield from (stats.t.sf(1, 10), stats.t.sf(5, 10))


def control_chart():
    yield from statistics.individuals(statistics.FLOW_RATES)
    yield from (statistics.moving(statistics.FLOW_RATES), statistics.factors(3)["A3"], statistics.factors(3)["B4"])
    yield float(list(statistics.in_sums(statistics.MEANS, 325, statistics.Fraction("0.3175")))[19][0])


def forecast():
    line = statistics.AS_FOUND
    yield from (line.b[1], math.sqrt(line.covariance[1, 1]), t_quantile(0.975, 4))
    yield stats.theilslopes(statistics.ERRORS, statistics.MONTHS)[0]
    yield 2 / math.factorial(6)  # two of the orders of six values rise or fall throughout
    yield from statistics.crossings(line, 0.95)
    yield from (line.at(72) + sign * t_quantile(0.975, 4) * line.u_at(72, line.s) for sign in (-1, 1))
    yield line.meets(1.6, t_quantile(0.975, 4), line.s, 60, 200)
    yield statistics.mann_kendall([1, 1, 1, 1, 1, 1, 2, 1, 2, 2])[2]


def interval_advice():
    errors = [100 * (found / 2 - 1) for found in (2.000, 2.007, 2.004, 2.013, 2.012, 2.019)]
    line = Line(range(0, 301, 60), errors)
    yield line.meets(2, t_quantile(0.975, 4), line.s, 300, 900) - 300
    months = [(datetime.date(2026, month, 6) - datetime.date(2026, 1, 6)).days for month in range(1, 8)]
    found = (2.0060, 2.0079, 2.0101, 2.0119, 2.0141, 2.0159, 2.0180)
    line = Line(months, [100 * (flow / 2 - 1) for flow in found])
    yield line.meets(1, t_quantile(0.975, 5), line.s, months[-1], 900) - months[-1]


def use_log():
    yield 2 * math.hypot(0.014 / 2, 0.004 / math.sqrt(4))


# --- the worked budget ------------------------------------------------------------------------------------------------

# Volume at reference conditions, from r1, r2, their display steps, the factor of the calibrator, the way of the flow
# between the checks, start, stop, pressure, kelvin; uncertainties and degrees of freedom in that order.
AT = numpy.array([2.0112, 1.9584, 0, 0, 1.002, 0, 0, 0, 98.60, 296.15])
HALF_WAY = 1.002 * (2.0112 - 1.9584) / 2
STEP, MINUTE = 0.0005 / math.sqrt(3), 0.5 / math.sqrt(3)
U = numpy.array([s_of_mean(FIVE_READINGS["pre"]), s_of_mean(FIVE_READINGS["post"]), STEP, STEP, 0.005,
                 HALF_WAY / math.sqrt(3), MINUTE, MINUTE, 0.3 / math.sqrt(3), 2 / math.sqrt(3)])
FEW = 4  # degrees of freedom of the two means; the rest is known as well as can be


def flow(q):
    return q[4] * (q[0] + q[2] + q[1] + q[3]) / 2 + q[5]


def volume(q):
    return flow(q) * (480 - q[6] + q[7])


def reference(q):
    return volume(q) * (q[8] / 101.325) * (293.15 / q[9])


def drift(q):
    return (q[1] + q[3]) / (q[0] + q[2]) - 1  # the calibrator's factor cancels


def combined(figure, u=U):
    parts = gradient_of(figure, AT) * u
    total = math.sqrt((parts ** 2).sum())
    return parts, total, total ** 4 / ((parts[:2] ** 4) / FEW).sum()


def budget():
    parts, u, dof = combined(reference)
    yield reference(AT)
    yield from (*parts, u, dof)
    yield from combined(volume)[1:]
    yield combined(flow)[1]
    yield from combined(drift)[1:]
    yield t_quantile(0.975, math.floor(combined(drift)[2]))
    # two calibrators of like uncertainty: their parts add up in the drift and average in the volume
    ratio = 1.9584 / 2.0112
    yield math.hypot(combined(drift)[1], ratio * 0.005 / 1.002 * math.sqrt(2))
    one = gradient_of(reference, AT) * U
    each = reference(AT) / (2.0112 + 1.9584) * 0.005 / 1.002
    yield math.sqrt((numpy.delete(one, 4) ** 2).sum() + (each * 2.0112) ** 2 + (each * 1.9584) ** 2)
    yield from (HALF_WAY, 2 * HALF_WAY)


def budget_monte_carlo():
    yield from (s_of_mean(FIVE_READINGS["pre"]), s_of_mean(FIVE_READINGS["post"]))


def expanded(parts):
    """u, effective degrees of freedom and U of (u, degrees of freedom) pairs that are independent."""
    u = math.sqrt(sum(one ** 2 for one, _ in parts))
    few = sum(one ** 4 / dof for one, dof in parts)
    dof = u ** 4 / few if few else math.inf
    return u, dof, (t_quantile(0.975, math.floor(dof)) if few else stats.norm.ppf(0.975)) * u


def laboratory_figures():
    """0.532 mg known to 5 %, less the mean of two blanks, in 887.25 L known to u = 4.4 L."""
    found, blanks, litres = 0.05 * 0.532 / 2, (0.007, 0.005), 887.25
    s = numpy.std(blanks, ddof=1)
    blank = s * math.sqrt(1 + 1 / 2)
    net = 0.532 - numpy.mean(blanks)
    yield from (s, blank, expanded([(found, math.inf)])[2])
    yield from expanded([(found, math.inf), (blank, 1)])
    yield 1000 * net / litres
    u, dof, _ = expanded([(found, math.inf), (blank, 1)])
    yield from expanded([(1000 * u / litres, dof), (1000 * net / litres ** 2 * 4.4, 12)])
    # The same weighed on a balance that states no more, less the mean change of two control filters.
    found = math.hypot(*weights())
    control = numpy.std((0.002, 0.004), ddof=1) * math.sqrt(1 + 1 / 2)
    u, dof, _ = expanded([(found, math.inf), (control, 1)])
    yield from (found, 15.842 - 15.310 - numpy.mean((0.002, 0.004)), control, u, dof)


def weights():
    """u of 15.31 mg by a certificate of 0.0030 mg at 10 mg and 0.0050 mg at 20 mg, of 15.842 mg by one of twice as much."""
    return [numpy.interp(weight, (10, 20), (0.0030 * times, 0.0050 * times)) / 2 for weight, times in ((15.310, 1), (15.842, 2))]


def concentration():
    yield from (0.002 * math.sqrt(1 + 1 / 3), 2 / 4 * 0.03 / math.sqrt(3))


ROOMS = {"verdict/decision_risk": decision_risk, "verdict/drift_ahead": drift_ahead,
         "history/control_chart": control_chart,
         "history/forecast": forecast, "history/interval_advice": interval_advice, "history/use_log": use_log,
         "assessment/budget": budget, "assessment/budget_monte_carlo": budget_monte_carlo,
         "assessment/laboratory_figures": laboratory_figures, "assessment/weighing": weights, "assessment/concentration": concentration}
