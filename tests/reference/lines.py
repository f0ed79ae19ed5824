"""Reference values for lib/uncertainty/straightLine, uncertainLine and oneWayAnalysis: the normal equations in exact fractions of the doubles.

Square roots are taken of exact fractions with 50 digits (Python's own fractions and decimal; scipy.stats.linregress and f_oneway agree to what
doubles allow and are asserted below).

Run by hand: python3 lines.py > lines.json
"""
import json
import random
from decimal import Decimal, getcontext
from fractions import Fraction

from scipy import stats

getcontext().prec = 50


def root(square):
    return float((Decimal(square.numerator) / Decimal(square.denominator)).sqrt())


def line(points, reference, places):
    t = [Fraction(a) for a, _ in points]
    y = [Fraction(b) for _, b in points]
    n = len(points)
    tm, ym = sum(t) / n, sum(y) / n
    spread = sum((a - tm) ** 2 for a in t)
    slope = sum((a - tm) * (b - ym) for a, b in zip(t, y)) / spread
    variance = sum((b - ym - slope * (a - tm)) ** 2 for a, b in zip(t, y)) / (n - 2)
    way = Fraction(reference) - tm
    return {
        "points": points,
        "reference": reference,
        "slope": float(slope),
        "intercept": float(ym + slope * way),
        "standardUncertaintyOfSlope": root(variance / spread),
        "standardUncertaintyOfIntercept": root(variance * (Fraction(1, n) + way**2 / spread)),
        "correlation": root(way**2 / spread / (Fraction(1, n) + way**2 / spread)) * (1 if way > 0 else -1),
        "residualStandardDeviation": root(variance),
        "values": [
            {
                "at": at,
                "value": float(ym + slope * (Fraction(at) - tm)),
                "standardUncertainty": root(variance * (Fraction(1, n) + (Fraction(at) - tm) ** 2 / spread)),
            }
            for at in places
        ],
    }


def groups(readings):
    all_of_them = [Fraction(x) for group in readings for x in group]
    count, J = len(all_of_them), len(readings)
    mean = sum(all_of_them) / count
    means = [sum(map(Fraction, group)) / len(group) for group in readings]
    between = sum(len(group) * (m - mean) ** 2 for group, m in zip(readings, means)) / (J - 1)
    within = sum((Fraction(x) - m) ** 2 for group, m in zip(readings, means) for x in group) / (count - J)
    share = (count - Fraction(sum(len(group) ** 2 for group in readings), count)) / (J - 1)
    mean_of_means = sum(means) / J
    return {
        "groups": readings,
        "between": float(between),
        "within": float(within),
        "standardDeviationBetween": root(max(Fraction(0), between - within) / share),
        "whenGroupsDiffer": {"mean": float(mean_of_means), "standardUncertainty": root(sum((m - mean_of_means) ** 2 for m in means) / (J - 1) / J)},
        "whenGroupsAgree": {"mean": float(mean), "standardUncertainty": root(sum((x - mean) ** 2 for x in all_of_them) / (count - 1) / count)},
    }


random.seed(7)
rounded = lambda x, digits: round(x, digits)
lines = [
    line([[t, rounded(3.5 - 0.02 * t + random.gauss(0, 0.01), 4)] for t in range(10)], 0, [0, 4.5, 30]),
    # Machine coordinates far from zero, scatter in the last decimal of the display.
    line([[rounded(-812.345 + 7.5 * k, 3), rounded(-1204.001 + 0.0004 * k + random.gauss(0, 0.002), 3)] for k in range(8)], -1000, [-812.345, -1000, 0]),
    # Places that repeat, and a reference far away.
    line([[t, rounded(0.3 * t + random.gauss(0, 1), 2)] for t in [1, 1, 1, 5, 5, 9]], 1e6, [1, 5, 1e6]),
    # Micrometres in metres.
    line([[k * 1e-3, rounded(1e-6 * k * k + random.gauss(0, 1e-7), 9)] for k in range(6)], 2e-3, [0, 0.01]),
    line([[2.0, 1.0], [2.5, 1.5], [2.25, 1.0]], 2.2, [2.25, 3]),
]
analyses = [
    groups([[rounded(412.607 + d + random.gauss(0, 0.001), 4) for _ in range(n)] for d, n in [(0, 3), (0.004, 5), (-0.001, 1), (0.002, 7)]]),
    groups([[rounded(1e6 + d + random.gauss(0, 0.01), 3) for _ in range(4)] for d in (0, 0.02, 0.01)]),
    groups([[rounded(random.gauss(0, 1), 2) for _ in range(n)] for n in (2, 2, 9)]),
]
for case in lines:
    found = stats.linregress(*zip(*case["points"]))
    assert abs(found.slope / case["slope"] - 1) < 1e-6 and abs(found.stderr / case["standardUncertaintyOfSlope"] - 1) < 1e-4
for case in analyses:
    found = stats.f_oneway(*case["groups"])
    assert abs(found.statistic / (case["between"] / case["within"]) - 1) < 1e-4
print(json.dumps({"lines": lines, "analyses": analyses}, indent=0))
