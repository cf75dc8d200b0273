# SPDX-License-Identifier: MIT
"""Statistics by SciPy 1.10 and NumPy 1.24: what the tests of tests/statistics expect beyond printed tables.

Where SciPy's own inverse of Student's t is good to a few 1e-9 only, the point is found by root search.
"""
import math
from fractions import Fraction

import numpy
from scipy import integrate, optimize, special, stats

FLOW_RATES = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)  # NIST/SEMATECH e-Handbook 6.3.2.2
MEANS = (324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
         324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350)  # 6.3.2.3
AVERAGED = (52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
            49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)  # 6.3.2.4
URANIUM = (199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)  # 1.3.5.17.1
MONTHS, ERRORS = (0, 12, 24, 37, 49, 60), (0.05, 0.21, 0.30, 0.52, 0.61, 0.83)
SETS_OF_THREE = numpy.array([[2.010, 2.012, 2.009], [2.011, 2.008, 2.010], [2.013, 2.010, 2.011], [2.009, 2.011, 2.012],
                             [2.008, 2.010, 2.007], [2.012, 2.013, 2.011], [2.010, 2.009, 2.012], [2.011, 2.010, 2.010],
                             [2.014, 2.012, 2.015], [2.010, 2.011, 2.008]])


def t_quantile(p, dof):
    if math.isinf(dof):
        return stats.norm.ppf(p)
    return optimize.brentq(lambda x: stats.t.sf(x, dof) - (1 - p), 0, 5000, xtol=1e-14, rtol=1e-14)


# --- distributions ----------------------------------------------------------------------------------------------------

def normal():
    yield from (stats.norm.cdf(-6), stats.norm.cdf(-30), stats.norm.ppf(0.95), stats.norm.ppf(0.75))


def student_t():
    yield from (t_quantile(0.975, 4), t_quantile(0.995, 16), t_quantile(0.975, math.inf), stats.t.cdf(2, 4))


def chi_squared():
    yield 1.96 * math.sqrt(12 / stats.chi2.ppf(0.05, 12))


def binomial():
    yield stats.binom.sf(34, 100, 0.2)


def d2(n):
    return integrate.quad(lambda x: 1 - stats.norm.cdf(x) ** n - stats.norm.sf(x) ** n, -9, 9, epsabs=1e-13)[0]


def d3(n):
    """The square of the range has the mean 2 ∫∫ (1 - F(y)^n - (1 - F(x))^n + (F(y) - F(x))^n) over x < y."""
    nodes, weights = numpy.polynomial.legendre.leggauss(200)
    low = 8 * nodes[:, None]
    high = (8 + low) / 2 + (8 - low) / 2 * nodes[None, :]
    f, g = stats.norm.cdf(low), stats.norm.cdf(high)
    rows = (1 - g ** n - (1 - f) ** n + (g - f) ** n) @ weights * ((8 - low) / 2)[:, 0]
    return math.sqrt(2 * 8 * weights @ rows - d2(n) ** 2)


def c4(n):
    return math.sqrt(2 / (n - 1)) * math.exp(math.lgamma(n / 2) - math.lgamma((n - 1) / 2))


def factors(n):
    """A2, A3, B3, B4, D3, D4 by their definitions."""
    low, spread = math.sqrt(1 - c4(n) ** 2) / c4(n), d3(n) / d2(n)
    return {"A2": 3 / (d2(n) * math.sqrt(n)), "A3": 3 / (c4(n) * math.sqrt(n)), "B3": max(0, 1 - 3 * low),
            "B4": 1 + 3 * low, "D3": max(0, 1 - 3 * spread), "D4": 1 + 3 * spread}


def chart_constants():
    for n in (3, 5, 7, 15):
        yield c4(n)
        yield from (factor for factor in factors(n).values() if factor > 0)


# --- charts -----------------------------------------------------------------------------------------------------------

def moving(values):
    return numpy.abs(numpy.diff(values)).mean()


def individuals(values):
    mean, away = numpy.mean(values), 3 * moving(values) / d2(2)
    return mean - away, mean + away


def control_limits():
    yield from individuals(FLOW_RATES)
    yield factors(2)["D4"] * moving(FLOW_RATES)
    yield math.sqrt(2) * stats.norm.ppf(0.75)
    means, spreads = SETS_OF_THREE.mean(1), SETS_OF_THREE.std(1, ddof=1)
    centre, of_three = means.mean(), factors(3)
    mean_s = spreads.mean()
    yield mean_s
    yield from (centre + sign * of_three["A3"] * mean_s for sign in (-1, 1))
    yield of_three["B4"] * mean_s
    yield from (factors(2)["A3"], factors(4)["A3"], factors(4)["B4"])
    yield from individuals(means)


def in_sums(values, target, slack):
    high = low = total = Fraction(0)
    for value in map(lambda x: Fraction(str(x)), values):
        high, low = max(Fraction(0), high + value - target - slack), max(Fraction(0), low + target - slack - value)
        total += value - target
        yield high, low, total


def run_length_of_cusum(slack, far, shift, points=120):
    """Mean run length of one upper sum, by its integral equation (Page 1954), Gauss-Legendre nodes."""
    nodes, weights = numpy.polynomial.legendre.leggauss(points)
    z, w = far / 2 * (nodes + 1), far / 2 * weights
    kernel = stats.norm.pdf(z[None, :] - z[:, None] + slack - shift) * w[None, :]
    at_zero = stats.norm.cdf(slack - shift - z)
    matrix = numpy.eye(points + 1)
    matrix[:points, :points] -= kernel
    matrix[:points, points] -= at_zero
    matrix[points, :points] -= stats.norm.pdf(z + slack - shift) * w
    matrix[points, points] -= stats.norm.cdf(slack - shift)
    return numpy.linalg.solve(matrix, numpy.ones(points + 1))[points]


def cusum():
    sums = list(in_sums(MEANS, 325, Fraction("0.3175")))
    yield from (float(sums[19][0]), float(sums[19][2]), float(sums[7][1]))
    yield from (run_length_of_cusum(0.5, far, 1) for far in (4, 5))


def run_length_of_ewma(weight, width, shift, points=120):
    """Mean run length of an average between two fixed limits, by its integral equation (Crowder 1987)."""
    nodes, weights = numpy.polynomial.legendre.leggauss(points)
    far = width * math.sqrt(weight / (2 - weight))
    z, w = far * nodes, far * weights

    def kernel(start):
        return stats.norm.pdf((z - (1 - weight) * start) / weight - shift) / weight * w
    lengths = numpy.linalg.solve(numpy.eye(points) - numpy.array([kernel(start) for start in z]), numpy.ones(points))
    return 1 + kernel(0) @ lengths


def ewma():
    average = Fraction(50)
    for value in AVERAGED:
        average = Fraction("0.3") * Fraction(str(value)) + Fraction("0.7") * average
    yield float(average)

    def limit(t):
        return 3 * 2.0539 * math.sqrt(0.3 / 1.7 * (1 - 0.7 ** (2 * t)))
    yield 50 + limit(math.inf)
    yield from (50 + limit(1), 50 + limit(2), 50 + limit(20), 50 - limit(1))
    yield run_length_of_ewma(0.2, 2.962, 1)


def signals(z, pattern):
    """Places, from one, at which a pattern of |z| beyond a line on one side is complete; rules of 2 of 3 and 4 of 5 need
    the newest point beyond as well."""
    line, needed, window = pattern
    return [i + 1 for i in range(window - 1, len(z)) for side in (1, -1)
            if side * z[i] > line and sum(side * value > line for value in z[i - window + 1:i + 1]) >= needed]


def run_rules():
    averaged, means = (numpy.array(AVERAGED) - 50) / 2.0539, (numpy.array(MEANS) - 325) / 0.635
    beyond, run_of_8, run_of_9, two_of_three, four_of_five = (3, 1, 1), (0, 8, 8), (0, 9, 9), (2, 2, 3), (1, 4, 5)
    yield f"Indices{{{', '.join(map(str, signals(averaged, four_of_five)))}}} : Indices{{}}"
    for name, pattern in (("beyond", beyond), ("run_of_8", run_of_8), ("run_of_9", run_of_9),
                          ("two_of_three", two_of_three), ("four_of_five", four_of_five)):
        assert pattern == four_of_five or not signals(averaged, pattern)
        yield f"signals_of({name}, z)), (Indices{{{', '.join(map(str, signals(means, pattern)))}}})"
    out = 2 * stats.norm.sf(3)
    yield out
    yield from (2 * 0.5 ** n for n in (7, 8, 9))
    yield from (2 / math.factorial(n) for n in (6, 7))
    yield (2 * stats.norm.cdf(1) - 1) ** 15
    yield (2 * stats.norm.sf(1)) ** 8 - 2 * stats.norm.sf(1) ** 8


# --- replicates -------------------------------------------------------------------------------------------------------

def grubbs(n, alpha):
    t = t_quantile(1 - alpha / n, n - 2)
    return (n - 1) / math.sqrt(n) * math.sqrt(t ** 2 / (n - 2 + t ** 2))


def outliers():
    yield (max(URANIUM) - numpy.mean(URANIUM)) / numpy.std(URANIUM, ddof=1)
    for n in (3, 4, 8, 30):
        yield from (grubbs(n, alpha) for alpha in (0.05, 0.01, 0.025, 0.005))


def chance_beyond(n, ratio, neighbours, left_out):
    """Tail of Dixon's ratios for the smallest of n normal values, by double quadrature of their joint density."""
    between = n - 2 - left_out
    ways = n * (n - 1) * (1, n - 2)[left_out]

    def density(x, w):
        below = stats.norm.cdf(x)
        inside = stats.norm.cdf(x + w * (1 - ratio)) - below
        return stats.norm.pdf(x) * stats.norm.pdf(x + w) * below ** left_out * inside ** between
    assert neighbours == 1
    x, wx = numpy.polynomial.legendre.leggauss(400)
    w, ww = 7 * (x + 1), 7 * wx
    grid = density(10 * x[:, None], w[None, :])
    return ways * (10 * wx) @ grid @ ww


def dixon():
    yield chance_beyond(10, 0.5, 1, 1)
    yield chance_beyond(10, 0.01 / 0.022, 1, 0)
    yield optimize.brentq(lambda ratio: chance_beyond(10, ratio, 1, 1) - 0.025, 0.4, 0.7)


def identical(spread_in_steps, n):
    """Chance that n normal readings show alike, averaged over where the level lies between two steps of the display."""
    def alike(level):
        steps = numpy.arange(-60, 61)
        shown = stats.norm.cdf((steps + 0.5 - level) / spread_in_steps) - stats.norm.cdf((steps - 0.5 - level) / spread_in_steps)
        return (shown ** n).sum()
    return integrate.quad(alike, 0, 1, epsabs=1e-13, epsrel=1e-12)[0]


def identical_replicates():
    yield from (identical(spread, n) for spread in (2, 1, 5) for n in (2, 3, 5))
    yield from (identical(0.5, n) for n in (2, 3, 5))
    yield stats.binom.sf(3, 30, identical(2, 3))


def partitions(total, places, largest):
    if total == 0 or places == 0:
        if total == 0:
            yield ()
        return
    for first in range(min(total, largest), 0, -1):
        for rest in partitions(total - first, places - 1, first):
            yield (first, *rest)


def at_least_as_uneven(counts):
    """The chance that digits drawn alike are as uneven as these or more, counted over all ways to share them out."""
    readings, ways = sum(counts), 0
    for shares in partitions(readings, 10, readings):
        if sum(n * n for n in shares) >= sum(n * n for n in counts):
            orders = math.factorial(10) // math.prod(math.factorial(shares.count(n)) for n in set(shares))
            orders //= math.factorial(10 - len(shares))
            ways += orders * math.factorial(readings) // math.prod(map(math.factorial, shares))
    return ways / 10 ** readings


def terminal_digits():
    yield at_least_as_uneven((6, 1, 2, 1, 1, 5, 1, 1, 1, 1))
    yield stats.chisquare((18, 7, 9, 8, 6, 17, 8, 9, 10, 8)).pvalue
    yield stats.binom.sf(34, 100, 0.2)
    even = stats.chisquare((11, 9, 10, 12, 8, 10, 9, 11, 10, 10)).pvalue
    yield from (even, 1 - even)
    yield stats.chisquare((20, 21, 19, 20, 20)).pvalue


def matching(spread_in_steps, n):
    """Chance that two sets of n normal readings of one level show alike, averaged over where it lies in a step."""
    level = (numpy.arange(2000) + 0.5) / 2000
    steps = numpy.arange(-60, 61)[:, None]
    shown = stats.norm.cdf((steps + 0.5 - level) / spread_in_steps) - stats.norm.cdf((steps - 0.5 - level) / spread_in_steps)
    return ((shown ** 2).sum(axis=0) ** n).mean()


def duplicated_blocks():
    yield from (matching(2, 1), matching(2, 5), matching(1, 3), matching(0.5, 5), matching(0.5, 10))
    for length in (5, 6, 8):
        yield 79800 * 0.08 ** length


def mean_and_spread():
    flow = numpy.array(FLOW_RATES) - numpy.mean(FLOW_RATES)
    yield (flow[1:] * flow[:-1]).sum() / (flow ** 2).sum()
    yield numpy.std((2.013, 2.008, 2.011, 2.015, 2.009), ddof=1)


def median():
    wafers = (95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682)
    yield from (numpy.quantile(wafers, 0.9, method=rank) for rank in ("weibull", "linear", "median_unbiased"))


# --- lines and trends -------------------------------------------------------------------------------------------------

class Line:
    """Least squares with NumPy."""

    def __init__(self, x, y, origin=False):
        x, y = numpy.array(x, float), numpy.array(y, float)
        design = x[:, None] if origin else numpy.column_stack([numpy.ones_like(x), x])
        unscaled = numpy.linalg.inv(design.T @ design)
        self.b = unscaled @ (design.T @ y)
        residual = y - design @ self.b
        self.dof = len(x) - design.shape[1]
        self.s = math.sqrt((residual ** 2).sum() / self.dof)
        self.covariance = unscaled * self.s ** 2
        self.origin = origin

    def at(self, x):
        return (numpy.array([x]) if self.origin else numpy.array([1, x])) @ self.b

    def u_at(self, x, of_one_more=0.0):
        v = numpy.array([x]) if self.origin else numpy.array([1, x])
        return math.sqrt(v @ self.covariance @ v + of_one_more ** 2)

    def meets(self, limit, factor, of_one_more, low, high):
        """Where the line and factor times its uncertainty meet the limit."""
        return optimize.brentq(lambda x: self.at(x) + factor * self.u_at(x, of_one_more) - limit, low, high, xtol=1e-12)


AS_FOUND = Line(MONTHS, ERRORS)
RATE = Line((12,) * 4, (0.42, 0.53, 0.38, 0.07), origin=True)


def line_fit():
    yield from (*AS_FOUND.b, *numpy.sqrt(AS_FOUND.covariance.diagonal()), AS_FOUND.s, AS_FOUND.at(72))
    yield stats.linregress(MONTHS, ERRORS).pvalue
    yield from (RATE.b[0], RATE.s, math.sqrt(RATE.covariance[0, 0]))


def crossings(line, level):
    t = t_quantile((1 + level) / 2, line.dof)
    return (line.meets(1, 0, 0, 0, 500), line.meets(1, t, line.s, 0, 90), line.meets(1, -t, line.s, 70, 500))


def limit_crossing():
    t = t_quantile(0.975, 4)
    yield from (AS_FOUND.at(72) + sign * t * AS_FOUND.u_at(72, AS_FOUND.s) for sign in (-1, 1))
    yield from crossings(AS_FOUND, 0.95)
    yield crossings(AS_FOUND, 0.90)[1]
    yield RATE.meets(0.95, 0, 0, 0, 500)
    yield RATE.meets(0.95, t_quantile(0.975, 3), RATE.s, 0, 500)


def mann_kendall(values):
    n = len(values)
    s = sum(numpy.sign(later - values[i]) for i in range(n) for later in values[i + 1:])
    ties = [values.count(value) for value in set(values)]
    variance = (n * (n - 1) * (2 * n + 5) - sum(g * (g - 1) * (2 * g + 5) for g in ties)) / 18
    z = (s - numpy.sign(s)) / math.sqrt(variance)
    return variance, z, 2 * stats.norm.sf(abs(z))


def robust_trend():
    months, errors = tuple(range(0, 109, 12)), (0.10, 0.15, 0.15, 0.22, 0.30, 0.28, 1.40, 0.41, 0.41, 0.50)
    yield stats.theilslopes(ERRORS, MONTHS)[0]
    slope, _, low, high = stats.theilslopes(errors, months, 0.95)
    yield from (slope, high)
    assert abs(low - 0.003) < 1e-12
    yield from mann_kendall(ERRORS)[:2]
    yield from mann_kendall(errors)[1:]


# --- risk -------------------------------------------------------------------------------------------------------------

def bivariate_normal():
    yield from (special.owens_t(0.5, 0.3), special.owens_t(1.2, 0.9), special.owens_t(0.7, 4), special.owens_t(2.5, 1.5))
    for x, y, rho in ((1, -0.5, 0.3), (0.2, 0.1, 0.99), (-1.5, 2, -0.6), (0, 1, 0.6)):
        yield integrate.quad(lambda t: stats.norm.pdf(t) * stats.norm.cdf((y - rho * t) / math.sqrt(1 - rho ** 2)), -12, x,
                             epsabs=1e-15, limit=400)[0]


def resistors(acceptance):
    """JCGM 106:2012 clause 9: within ± 0.2, s 0.12, u 0.04; by quadrature."""
    def accepted(x):
        passes = stats.norm.cdf((acceptance - x) / 0.04) - stats.norm.cdf((-acceptance - x) / 0.04)
        return stats.norm.pdf(x / 0.12) / 0.12 * passes
    exact = {"epsabs": 1e-16, "epsrel": 1e-13, "limit": 500}
    within = 1 - 2 * stats.norm.sf(0.2 / 0.12)
    yield 2 * integrate.quad(accepted, 0.2, 2, **exact)[0]
    yield within - 2 * integrate.quad(accepted, 0, 0.2, points=[acceptance] if acceptance < 0.2 else None, **exact)[0]


def global_risk():
    yield 2 * stats.norm.sf(0.2 / 0.12)
    yield from (*resistors(0.18), *resistors(0.2))


# --- intervals --------------------------------------------------------------------------------------------------------

def calibration_interval():
    interval = 11.25
    for factor in (1.25, 1.25, 1.25, 1, 0.6, 1.25):  # the last six of ten steps
        interval *= factor
        yield interval
    yield 90 / (310 / 150)


def reliability():
    yield 365 * math.log(0.9) / math.log(0.75)
    groups = ((3, 20, 19), (6, 30, 27), (9, 25, 21), (12, 40, 32), (18, 20, 13), (24, 15, 8))

    def slope(a):  # of the log likelihood of exp(-a t)
        return sum(-t * good + (n - good) * t * math.exp(-a * t) / -math.expm1(-a * t) for t, n, good in groups)
    likely = optimize.brentq(slope, 1e-4, 1, xtol=1e-14)
    yield from (likely, -math.log(0.9) / likely)


# --- uncertainty ------------------------------------------------------------------------------------------------------

def welch(parts):
    u = math.sqrt(sum(c ** 2 for c, _ in parts))
    return u, u ** 4 / sum(c ** 4 / dof for c, dof in parts)


def welch_satterthwaite():
    yield welch(((25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)))[1]
    yield welch(((0.1, math.inf), (0.6, 6), (0.6, 8), (0.55, 3)))[1]


def sampled_litres(q):
    """The invented volume of propagation_test.cpp, from its eleven inputs."""
    r1, r2, d1, d2_, c, drift, t1, t2, kpa, cycle, thermometer = q
    return (c * (r1 + d1 + r2 + d2_) / 2 + drift) * (480 + t1 + t2) * (kpa / 101.325) * (293.15 / (296.15 + cycle + thermometer))


def propagation():
    yield welch(((25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)))[0]
    yield t_quantile(0.995, 16)
    readings = numpy.array([[5.007, 4.994, 5.005, 4.990, 4.999], [0.019663, 0.019639, 0.019640, 0.019685, 0.019678],
                            [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]])  # JCGM 100:2008, table H.2
    (v, i, phase), covariance = readings.mean(1), numpy.cov(readings) / 5
    z, r, x = v / i, v / i * math.cos(phase), v / i * math.sin(phase)
    yield from (r, x, z)
    for value, by_phase in ((r, -x), (x, r), (z, 0)):
        gradient = numpy.array([value / v, -value / i, by_phase])
        yield math.sqrt(gradient @ covariance @ gradient)
        yield math.sqrt((gradient ** 2 * covariance.diagonal()).sum())
    few = welch(((0.010 / math.sqrt(3), 2), (0.004, math.inf)))
    yield from (*few, t_quantile(0.975, 4) * few[0], 2 * few[0])
    yield from (math.hypot(3.9, 0.97, 0.5), math.hypot(3.9, 0.97, 0.5, 5))
    solution = 1000 * 100.28 * 0.9999 / 100
    flask = math.hypot(0.1 / math.sqrt(6), 0.02, 0.084 / math.sqrt(3))
    yield solution * math.hypot(0.05 / 100.28, 0.0001 / math.sqrt(3) / 0.9999, flask / 100)
    yield 2 * stats.norm.ppf(0.975)
    # the half-width of 95 % of a sum of four rectangular inputs, from the density of that sum on (-4√3, 4√3)
    yield optimize.brentq(lambda h: sum_of_four(h) - 0.975, 3, 5)
    yield stats.norm.ppf(0.975)
    start = numpy.array([2.0112, 1.9584, 0, 0, 1.002, 0, 0, 0, 98.60, 0, 0])
    display, half = 0.0005 / math.sqrt(3), 1.002 * (2.0112 - 1.9584) / 2
    u = numpy.array([s_of_mean((2.013, 2.008, 2.011, 2.015, 2.009)), s_of_mean((1.957, 1.962, 1.955, 1.960, 1.958)), display,
                     display, 0.005, half / math.sqrt(3), 0.5 / math.sqrt(3), 0.5 / math.sqrt(3), 0.3 / math.sqrt(3),
                     2 / math.sqrt(2), 0.25])
    by = gradient_of(sampled_litres, start)
    yield sampled_litres(start)
    yield math.sqrt(((by * u) ** 2).sum())
    yield 2 * math.sqrt(((by * u) ** 2).sum())
    half_each = sampled_litres(start) / (2.0112 + 1.9584) * 0.005 / 1.002
    two = [*numpy.delete(by * u, 4), half_each * 2.0112, half_each * 1.9584]
    yield math.sqrt(sum(part ** 2 for part in two))


def sum_of_four(x):
    """Distribution function of the sum of four rectangular inputs of variance 1 (Irwin and Hall)."""
    place = (x / math.sqrt(12) + 2)
    return sum((-1) ** k * math.comb(4, k) * (place - k) ** 4 for k in range(int(place) + 1)) / 24


def s_of_mean(readings):
    return numpy.std(readings, ddof=1) / math.sqrt(len(readings))


def gradient_of(function, at):
    """Central differences, refined once (Richardson)."""
    def slope(i, h):
        step = numpy.zeros_like(at)
        step[i] = h
        return (function(at + step) - function(at - step)) / (2 * h)
    return numpy.array([(4 * slope(i, 5e-4) - slope(i, 1e-3)) / 3 for i in range(len(at))])


def distribution_shape():
    yield from (1 / math.sqrt(3), 1 / math.sqrt(6), 1 / math.sqrt(2))


ROOMS = {"statistics/" + name: values for name, values in {
    "normal_distribution": normal, "student_t": student_t, "chi_squared": chi_squared, "binomial": binomial,
    "chart_constants": chart_constants, "control_limits": control_limits, "cusum": cusum, "ewma": ewma,
    "run_rules": run_rules, "outliers": outliers, "dixon": dixon,
    "identical_replicates": identical_replicates, "terminal_digits": terminal_digits,
    "duplicated_blocks": duplicated_blocks, "mean_and_spread": mean_and_spread,
    "median": median, "line_fit": line_fit, "limit_crossing": limit_crossing, "robust_trend": robust_trend,
    "bivariate_normal": bivariate_normal, "global_risk": global_risk,
    "calibration_interval": calibration_interval, "reliability": reliability,
    "welch_satterthwaite": welch_satterthwaite, "propagation": propagation,
    "distribution_shape": distribution_shape}.items()}
