#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Values of the elementary functions and of those behind the distributions, by mpmath 1.2.1 with 400 bits, rounded once.

    python3 elementary_values.py elementary|special [COUNT [SEED]]

Prints COUNT arguments a function (60), by chance and hard ones, a line each: function, one to three arguments, value; all
as hexadecimal doubles, so that nothing is lost. What is printed without more words lies in tests/quantity/data and
tests/statistics/data. Never calls the program. For a long search:

    python3 tests/support/elementary_values.py elementary 100000 7 >values.txt
    DRIFTWARDEN_ELEMENTARY_VALUES=values.txt build/dev/tests/quantity_test --gtest_filter='Elementary.*'
"""
import random
import sys

import mpmath
from mpmath import mp, mpf

mp.prec = 400


def nearest(value):
    """The double nearest to a number that 300 bits tell from a tie; true division of integers rounds once."""
    mp.prec = 300
    value = +value
    mp.prec = 400
    sign, mantissa, exponent, _ = value._mpf_
    if not mantissa:
        return float(value)
    top = int(mantissa) << max(int(exponent), 0)
    try:
        size = top / (1 << max(-int(exponent), 0))
    except OverflowError:
        size = float("inf")
    return -size if sign else size


# --- arguments ----------------------------------------------------------------------------------------------------------

def any_size(low, high):
    return random.choice((1, -1)) * random.uniform(1, 2) * 2.0 ** random.randint(low, high)


def one_of(*makers):
    return random.choice(makers)()


def uniform(low, high):
    return lambda: random.uniform(low, high)


def size(low, high):
    return lambda: any_size(low, high)


def above_zero(low, high):
    return lambda: abs(any_size(low, high))


def whole(low, high):
    return lambda: float(random.randint(low, high))


def close_to_one(low, high):
    return lambda: 1 + any_size(low, high)


def base_and_power():
    """Also such whose power lies on a double or in the middle between two."""
    return one_of(lambda: (random.uniform(.5, 2), random.uniform(-20, 20)), lambda: (random.uniform(.9, 1.1), random.uniform(-500, 500)),
                  lambda: (random.uniform(.7, 1.1), 5.255876), lambda: (random.uniform(.8, 1.2), -0.5),
                  lambda: (float(random.randint(1, 200)), float(random.randint(-20, 20))), lambda: (10.0, random.uniform(-300, 300)),
                  lambda: (random.randint(1, 2 ** 18) / 1024, 3.0), lambda: (random.randint(1, 2 ** 27) / 1024, 2.0),
                  lambda: (random.randint(1, 2 ** 26) / 1024, 0.5), lambda: (float(random.randint(1, 2 ** 17) ** 2), 1.5),
                  lambda: (abs(any_size(-300, 300)), random.uniform(-3, 3)), lambda: (random.random(), float(random.randint(2, 60))))


def legs():
    return one_of(lambda: (random.random(), random.random()), lambda: (any_size(-1000, 1000), any_size(-1000, 1000)),
                  lambda: (float(random.randint(1, 9999)), float(random.randint(1, 9999))),
                  lambda: (any_size(-1073, -1000), any_size(-1073, -1000)))


EPS = 2.0 ** -52
ELEMENTARY = {
    "exp": (mpmath.exp, lambda: one_of(uniform(-745.1, 709.7), uniform(-745.1, -700), uniform(-1, 1), uniform(-.01, .01), size(-80, 9)),
            [0.0, EPS, EPS / 2, 3 * EPS / 2, -EPS / 4, -3 * EPS / 4, 709.782712893384, -708.3964185322641]),
    "expm1": (mpmath.expm1, lambda: one_of(uniform(-40, 709.7), uniform(-1, 1), uniform(-.01, .01), size(-70, 6)),
              [EPS, -EPS, 3 * EPS, 1e-300, -50.0, 0.005]),
    "log": (mpmath.log, lambda: one_of(above_zero(-1073, 1023), uniform(.9, 1.1), uniform(.5, 2), close_to_one(-52, -5), whole(1, 99999)),
            [1.0, 1 + EPS, 1 - EPS, 1 - EPS / 2, 1 + 6 * EPS, 1 - 6 * EPS, 5e-324, 1.7976931348623157e308]),
    "log1p": (mpmath.log1p, lambda: one_of(above_zero(-70, 1000), uniform(-.999, 1), uniform(-.01, .01), size(-62, -3)),
              [EPS, -EPS, EPS / 2, -EPS / 2, 1e-300, -1 + EPS / 2]),
    "log10": (mpmath.log10, lambda: one_of(above_zero(-1073, 1023), uniform(.9, 1.1), whole(1, 99999),
                                           lambda: 10.0 ** random.randint(0, 22)), [1.0, 1000.0, 1 + EPS, 0.1]),
    "pow": (mpmath.power, base_and_power, [(1.5, 33.0), (17.0, 13.0), (28.0, 19.0), (2.0, -1074.0), (0.0, 2.0)]),
    "hypot": (lambda a, b: mpmath.sqrt(a * a + b * b), legs, [(3.0, 4.0), (1.0, 0.0), (5e-324, 0.0), (1e308, 1e308)]),
    "sin": (mpmath.sin, lambda: one_of(uniform(-4, 4), uniform(-1e5, 1e5), size(-70, 2)), [3.141592653589793, 710.0]),
    "cos": (mpmath.cos, lambda: one_of(uniform(-4, 4), uniform(-1e5, 1e5), size(-70, 2)), [1.5707963267948966, 0.0]),
    "asin": (mpmath.asin, lambda: one_of(uniform(-1, 1), size(-70, -1), lambda: 1 - abs(any_size(-52, -10))), [1.0, -1.0, 0.5]),
    "acos": (mpmath.acos, lambda: one_of(uniform(-1, 1), size(-70, -1), lambda: 1 - abs(any_size(-52, -10))), [1.0, -1.0, 0.5]),
}


def t_below(dof, t):
    tail = mpmath.betainc(dof / 2, mpf(1) / 2, 0, dof / (dof + t * t), regularized=True) / 2
    return 1 - tail if t > 0 else tail


def gamma_share(a, low, high):
    return mpmath.gammainc(a, low, high, regularized=True)


SPECIAL = {
    "erfc": (mpmath.erfc, uniform(-4, 10)),
    "gamma": (mpmath.gamma, lambda: one_of(whole(1, 25), uniform(0.5, 30))),
    "gamma_ratio": (lambda x, d: mpmath.gamma(x) / mpmath.gamma(x + d), lambda: (random.randint(1, 60) / 2, 0.5)),
    "gamma_below": (lambda a, x: gamma_share(a, 0, x), lambda: (random.randint(1, 60) / 2, random.uniform(.1, 60))),
    "gamma_above": (lambda a, x: gamma_share(a, x, mpmath.inf), lambda: (random.randint(1, 60) / 2, random.uniform(.1, 60))),
    "beta_below": (lambda a, b, x: mpmath.betainc(a, b, 0, x, regularized=True),
                   lambda: (random.randint(1, 60) / 2, random.randint(1, 60) / 2, random.random())),
    "student_t_cdf": (t_below, lambda: (one_of(whole(1, 40), uniform(.5, 90)), random.uniform(-6, 6))),
}


def lines(functions, count):
    for name, (function, make, *hard) in functions.items():
        given = [x if isinstance(x, tuple) else (x,) for x in [*(hard[0] if hard else []), *(make() for _ in range(count))]]
        for x in given:
            yield " ".join([name, *(part.hex() for part in x), nearest(function(*map(mpf, x))).hex()])


if __name__ == "__main__":
    random.seed(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    table, wanted = {"elementary": (ELEMENTARY, 60), "special": (SPECIAL, 25)}[sys.argv[1]]
    print("\n".join(lines(table, int(sys.argv[2]) if len(sys.argv) > 2 else wanted)))
