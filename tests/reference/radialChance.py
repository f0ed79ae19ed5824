"""Chances within a disc for clouds that are hard on series and quadratures, by nested adaptive quadrature (scipy), which radialChance
and radialDistribution are compared with.

A normal pair is split into one coordinate and the other given it; bounded sources are integrated over their widths.
Run by hand: python3 radialChance.py > radialChance.json
"""
import json
from math import sqrt
from scipy.integrate import quad
from scipy.stats import norm, t

OPTIONS = dict(epsabs=1e-11, epsrel=1e-11, limit=400)


def edge_points(low, high, places):
    return sorted(p for p in places if low < p < high) or None



def box_normal_cdf(x, half, sigma):
    """Distribution function of a rectangle of half-width `half` plus a normal."""
    def i(u):  # integral of the normal's distribution function
        return u * norm.cdf(u) + norm.pdf(u)
    return sigma / (2 * half) * (i((x + half) / sigma) - i((x - half) / sigma))


def box_student_cdf(x, half, scale, nu):
    return quad(lambda u: t.cdf((x - u) / scale, nu), -half, half, points=edge_points(-half, half, [x - 8 * scale, x, x + 8 * scale]), **OPTIONS)[0] / (2 * half)


def chords(mx, my, r, cdf, density, low, high, places=()):
    """P within r where X - mx has this cdf and Y - my this density between low and high."""
    def f(y):
        c = r * r - (my + y) ** 2
        return density(y) * (cdf(sqrt(c) - mx) - cdf(-sqrt(c) - mx)) if c > 0 else 0.0
    low, high = max(low, -r - my), min(high, r - my)
    return quad(f, low, high, points=edge_points(low, high, places), **OPTIONS)[0]


def correlated_with_box(mx, my, cov, half, r):
    """A correlated normal pair plus a rectangle along X."""
    xx, xy, yy = cov
    slope, rest = xy / yy, sqrt(xx - xy * xy / yy)
    sy = sqrt(yy)
    def f(y):  # y: the normal part of Y
        c = r * r - (my + y) ** 2
        if c <= 0:
            return 0.0
        m = mx + slope * y
        return norm.pdf(y / sy) / sy * (box_normal_cdf(sqrt(c) - m, half, rest) - box_normal_cdf(-sqrt(c) - m, half, rest))
    low, high = max(-10 * sy, -r - my), min(10 * sy, r - my)
    return quad(f, low, high, points=edge_points(low, high, [k * sy for k in range(-6, 7)]), **OPTIONS)[0]


def case(mean, terms, radius, chance):
    return {"mean": mean, "terms": [{"coefficient": c, "distribution": d} for c, d in terms], "radius": radius, "chance": chance}


def N(s):
    return {"shape": "normal", "standardDeviation": s}


def R(h):
    return {"shape": "rectangular", "halfWidth": h}


def T(s, nu):
    return {"shape": "scaledT", "scale": s, "degreesOfFreedom": nu}


flat = lambda half: (lambda y: 1 / (2 * half))
cases = [
    case([0.001, 0.002], [([1, 1], N(0.01)), ([1, -1], N(0.001)), ([1, 0], R(0.002))], 0.02,
         correlated_with_box(0.001, 0.002, (0.01**2 + 0.001**2, 0.01**2 - 0.001**2, 0.01**2 + 0.001**2), 0.002, 0.02)),
    case([0.001, 0.002], [([1, 0.98], N(0.01)), ([0, sqrt(1 - 0.98**2)], N(0.01)), ([1, 0], R(0.002))], 0.012,
         correlated_with_box(0.001, 0.002, (1e-4, 0.98e-4, 1e-4), 0.002, 0.012)),
    case([0, 0], [([1, 1], N(0.01)), ([1, -1], N(0.0015)), ([1, 0], R(0.04))], 0.05,
         correlated_with_box(0, 0, (0.01**2 + 0.0015**2, 0.01**2 - 0.0015**2, 0.01**2 + 0.0015**2), 0.04, 0.05)),
    case([0.004, 0.002], [([1, 0], N(0.0004)), ([1, 0], R(0.02)), ([0, 1], R(0.02))], 0.02,
         chords(0.004, 0.002, 0.02, lambda x: box_normal_cdf(x, 0.02, 0.0004), flat(0.02), -0.02, 0.02, [-0.0142, 0.0102, -0.018, 0.014])),
    case([0, 0], [([1, 0], N(0.0002)), ([1, 0], R(0.02)), ([0, 1], R(0.05))], 0.025,
         chords(0, 0, 0.025, lambda x: box_normal_cdf(x, 0.02, 0.0002), flat(0.05), -0.05, 0.05, [-0.015, 0.015])),
    case([0.004, 0.002], [([1, 0], T(0.0004, 4)), ([1, 0], R(0.02)), ([0, 1], R(0.02))], 0.02,
         chords(0.004, 0.002, 0.02, lambda x: box_student_cdf(x, 0.02, 0.0004, 4), flat(0.02), -0.02, 0.02, [-0.0142, 0.0102])),
]
print(json.dumps(cases, indent=1))
