"""Reference chances for lib/uncertainty/linearDistribution.ts, by direct numerical convolution (no characteristic function).

Every law is F(z) = integral of p1(x1) F2(z - x1) dx1 and so on, term after term: adaptive Gauss-Kronrod quadrature (scipy, mpmath) with the
break points of each density named; the twelve-term law convolves analytic (normal-containing) distribution functions held as
splines of degree 7 with Gauss rules. Sums of equal rectangles come from the Irwin-Hall polynomial in exact fractions.
Run by hand: python3 linearDistribution.py > linearDistribution.json   (about two minutes)
"""
import json
import math
from fractions import Fraction

import numpy as np
from numpy.polynomial.legendre import leggauss
from scipy import integrate, stats
from scipy.interpolate import make_interp_spline
import mpmath as mp

mp.mp.dps = 25


def scipy_law(kind, *a):
    """cdf, pdf, knots of a term; knots None for unbounded."""
    if kind == "normal":
        return stats.norm(scale=a[0]).cdf, stats.norm(scale=a[0]).pdf, None, a[0]
    if kind == "scaledT":
        d = stats.t(a[1], scale=a[0])
        return d.cdf, d.pdf, None, a[0]
    if kind == "rectangular":
        h = a[0]
        return (lambda x: np.clip((np.asarray(x) + h) / (2 * h), 0, 1)), (lambda x: np.where(np.abs(x) < h, 1 / (2 * h), 0.0)), [-h, h], h
    if kind == "triangular":
        return scipy_law("trapezoidal", a[0], 0.0)
    if kind == "trapezoidal":
        h, b = a
        top = 1 / (h * (1 + b))

        def pdf(x):
            x = np.abs(x)
            return np.where(x < b * h, top, np.where(x < h, top * (h - x) / (h - b * h), 0.0))

        def cdf(x):
            x = np.asarray(x, float)
            y = np.abs(x)
            tail = np.where(y < b * h, 0.5 - top * y, np.where(y < h, top * (h - y) ** 2 / (2 * (h - b * h)), 0.0))
            return np.where(x < 0, tail, 1 - tail)
        return cdf, pdf, [-h, -b * h, b * h, h], h
    if kind == "arcsine":
        h = a[0]
        return (lambda x: np.where(np.asarray(x) >= h, 1.0, np.where(np.asarray(x) <= -h, 0.0, 0.5 + np.arcsin(np.clip(np.asarray(x) / h, -1, 1)) / np.pi))), None, [-h, h], h
    raise ValueError(kind)


def weigh(term, f, breaks):
    """integral of f(x) p(x) dx over one term's density."""
    kind = term[0]
    if kind == "arcsine":
        h = term[1]
        angles = sorted({-math.pi / 2, math.pi / 2, *(math.asin(b / h) for b in breaks if abs(b) < h)})
        return sum(integrate.quad(lambda t: f(h * math.sin(t)) / math.pi, lo, hi, epsabs=1e-14, epsrel=1e-13, limit=400)[0] for lo, hi in zip(angles, angles[1:]))
    _, pdf, knots, size = scipy_law(*term)
    if knots is None:
        # x = size sinh(v): even algebraic tails become exponential ones; the ends are cut where the rest is below 1e-16.
        if kind == "normal":
            points = sorted({-9 * size, 9 * size, *(k * size for k in range(-8, 9, 2)), *(b for b in breaks if abs(b) < 9 * size)})
            return sum(integrate.quad(lambda x: f(x) * pdf(x), lo, hi, epsabs=1e-15, epsrel=1e-13, limit=400)[0] for lo, hi in zip(points, points[1:]))
        far = math.asinh(10 ** (17 / term[2]))
        points = sorted({-far, far, *(far * k / 12 for k in range(-11, 12)), *(math.asinh(b / size) for b in breaks if abs(math.asinh(b / size)) < far)})
        return sum(integrate.quad(lambda v: f(size * math.sinh(v)) * pdf(size * math.sinh(v)) * size * math.cosh(v), lo, hi, epsabs=1e-15, epsrel=1e-13, limit=400)[0]
                   for lo, hi in zip(points, points[1:]))
    points = sorted({*knots, *(b for b in breaks if knots[0] < b < knots[-1])})
    return sum(integrate.quad(lambda x: f(x) * float(pdf(x)), lo, hi, epsabs=1e-15, epsrel=1e-13, limit=400)[0] for lo, hi in zip(points, points[1:]) if hi > lo)


def nested(terms, z):
    """P(sum <= z): the last term by its cdf, the others by quadrature."""
    *outer, last = terms
    cdf, _, knots, size = scipy_law(*last)
    inner_breaks = knots if knots is not None else [k * size for k in (-12, -4, -1, 0, 1, 4, 12)]
    if not outer:
        return float(cdf(z))
    if len(outer) == 1:
        return weigh(outer[0], lambda x: float(cdf(z - x)), [z - b for b in inner_breaks])
    second = scipy_law(*outer[1])
    second_knots = second[2] if second[2] is not None else [0.0]
    outer_breaks = [z - b - k for b in inner_breaks for k in second_knots]
    return weigh(outer[0], lambda x: weigh(outer[1], lambda y: float(cdf(z - x - y)), [z - x - b for b in inner_breaks]), outer_breaks)


def irwin_hall(n, half, z):
    """P(sum of n rectangles of half-width `half` <= z), exact fractions."""
    x = (Fraction(z) / Fraction(half) + n) / 2
    total = Fraction(0)
    for k in range(n + 1):
        if x - k > 0:
            total += (-1) ** k * math.comb(n, k) * (x - k) ** n
    return float(total / math.factorial(n))


SMALL = {
    "normal and rectangle": ([("normal", 0.5), ("rectangular", 1.0)], [0, 0.3, 0.9, 1.4, 2, 3]),
    "small normal, dominating rectangle": ([("rectangular", 1.0), ("normal", 0.02)], [0, 0.5, 0.95, 0.99, 1, 1.01, 1.06, 1.1]),
    "tiny normal, dominating rectangle": ([("rectangular", 1.0), ("normal", 1e-6)], [0, 0.5, 0.999998, 0.9999995, 1, 1.000001, 1.000003]),
    "two unequal rectangles": ([("rectangular", 1.0), ("rectangular", 0.3)], [0, 0.5, 0.7, 0.9, 1.2, 1.299]),
    "rectangle and triangle": ([("rectangular", 1.0), ("triangular", 0.7)], [0, 0.2, 0.5, 1, 1.5, 1.69]),
    "trapezoid and rectangle": ([("trapezoidal", 1.0, 0.4), ("rectangular", 0.5)], [0, 0.3, 0.8, 1.2, 1.45]),
    "two trapezoids": ([("trapezoidal", 1.0, 0.4), ("trapezoidal", 0.8, 0.9)], [0, 0.3, 0.8, 1.2, 1.7]),
    "arcsine and rectangle": ([("arcsine", 1.0), ("rectangular", 0.4)], [0, 0.3, 0.6, 0.9, 1.2, 1.39]),
    "two arcsines": ([("arcsine", 1.0), ("arcsine", 0.6)], [0, 0.3, 0.4, 0.8, 1.2, 1.59]),
    "two equal arcsines": ([("arcsine", 1.0), ("arcsine", 1.0)], [0.01, 0.3, 0.8, 1.2, 1.9]),
    "arcsine and normal": ([("arcsine", 1.0), ("normal", 0.05)], [0, 0.3, 0.9, 1, 1.1, 1.2]),
    "arcsine and t of 3.7": ([("arcsine", 1.0), ("scaledT", 0.4, 3.7)], [0, 0.3, 1, 2, 5, 20, 100]),
    "t of 1 and rectangle": ([("rectangular", 1.0), ("scaledT", 0.3, 1)], [0, 0.5, 1, 1.5, 4, 12, 80, 1000]),
    "t of 1 and normal": ([("normal", 1.0), ("scaledT", 0.5, 1)], [0, 0.5, 1, 2.5, 6, 15, 90, 2000]),
    "t of 2 and normal": ([("normal", 1.0), ("scaledT", 0.5, 2)], [0, 0.5, 1, 2.5, 6, 15, 90, 2000]),
    "t of 0.6 and normal": ([("normal", 1.0), ("scaledT", 0.5, 0.6)], [0, 0.5, 1, 2.5, 6, 15, 90]),
    "t of 5 and normal": ([("normal", 1.0), ("scaledT", 0.7, 5)], [0, 0.5, 1, 2.5, 4, 6, 9, 15, 30, 90]),
    "t of 30 and rectangle": ([("rectangular", 1.0), ("scaledT", 0.7, 30)], [0, 0.5, 1, 2.5, 4, 6]),
    "tiny t of 1, dominating rectangle": ([("rectangular", 1.0), ("scaledT", 1e-5, 1)], [0, 0.5, 0.9999, 1, 1.0001, 1.01, 3]),
    "t of 1, t of 2 and normal": ([("normal", 0.4), ("scaledT", 0.5, 1), ("scaledT", 0.8, 2)], [0.5, 2, 6, 40]),
    "t of 2, t of 4.5 and rectangle": ([("rectangular", 0.8), ("scaledT", 0.5, 2), ("scaledT", 0.8, 4.5)], [0.5, 2, 6]),
    "arcsine, rectangle and small normal": ([("arcsine", 1.0), ("rectangular", 0.5), ("normal", 0.01)], [0, 0.4, 0.5, 1, 1.45, 1.5]),
    "three rectangles": ([("rectangular", 1.0), ("rectangular", 0.5), ("rectangular", 0.2)], [0, 0.3, 0.7, 1.2, 1.6]),
}

TWELVE = [("normal", 1.0), ("normal", 0.8), ("normal", 0.5), ("normal", 1.2), ("rectangular", 2.0), ("rectangular", 1.5), ("rectangular", 0.8),
          ("triangular", 2.5), ("triangular", 1.0), ("arcsine", 1.2), ("scaledT", 1.1, 9), ("scaledT", 0.9, 5)]


def twelve(points):
    sigma = math.sqrt(sum(t[1] ** 2 for t in TWELVE if t[0] == "normal"))
    grid = np.linspace(-34, 34, 1361)
    values = stats.norm.cdf(grid / sigma)
    for term in TWELVE:
        if term[0] in ("normal", "scaledT"):
            continue
        spline = make_interp_spline(grid, values, k=7)

        def light(y, spline=spline):
            return np.where(y < grid[0], 0.0, np.where(y > grid[-1], 1.0, spline(np.clip(y, grid[0], grid[-1]))))
        if term[0] == "arcsine":
            m = 64
            nodes, weights = term[1] * np.cos(np.pi * (np.arange(m) + 0.5) / m), np.full(m, 1 / m)
        else:
            h = term[1]
            x, w = leggauss(24)
            panels = [(-h, 0), (0, h)]
            nodes = np.concatenate([(lo + hi) / 2 + (hi - lo) / 2 * x for lo, hi in panels])
            weights = np.concatenate([(hi - lo) / 2 * w for lo, hi in panels]) * scipy_law(*term)[1](nodes)
        values = sum(w * light(grid - x) for x, w in zip(nodes, weights))
    density = make_interp_spline(grid, values, k=7).derivative()
    # The light part's density is analytic and gone at the ends: the trapezoid rule is exact to rounding.
    light_density = density(grid) * (grid[1] - grid[0])
    t9, t5 = [stats.t(t[2], scale=t[1]) for t in TWELVE if t[0] == "scaledT"]

    def with_one(y):
        return float(np.dot(light_density, t9.cdf(y - grid)))
    out = []
    for z in points:
        x, w = leggauss(40)
        edges = np.concatenate([-np.geomspace(4000, 2, 28), np.linspace(-1.5, 1.5, 7), np.geomspace(2, 4000, 28)])
        edges = np.unique(np.concatenate([edges, z + np.linspace(-24, 24, 33)]))
        total = float(t5.sf(edges[-1])) * 0 + float(t5.cdf(edges[0]))
        for lo, hi in zip(edges, edges[1:]):
            nodes = (lo + hi) / 2 + (hi - lo) / 2 * x
            total += (hi - lo) / 2 * sum(wj * t5.pdf(v) * with_one(z - v) for wj, v in zip(w, nodes))
        out.append([z, total])
    return out


def entry(name, terms, chances):
    keys = {"normal": ["standardDeviation"], "rectangular": ["halfWidth"], "triangular": ["halfWidth"], "trapezoidal": ["halfWidth", "topRatio"],
            "arcsine": ["halfWidth"], "scaledT": ["scale", "degreesOfFreedom"]}
    return {"name": name, "terms": [{"shape": t[0], **dict(zip(keys[t[0]], t[1:]))} for t in terms], "chances": chances}


sets = [entry(name, terms, [[z, nested(terms, z)] for z in points]) for name, (terms, points) in SMALL.items()]
sets += [entry(f"{n} equal rectangles", [("rectangular", 0.5)] * n, [[z, irwin_hall(n, 0.5, z)] for z in points])
         for n, points in ((3, [0, 0.25, 1, 1.25]), (7, [0, 0.5, 1.5, 2.5, 3.25]), (8, [0, 0.5, 1.5, 2.5, 3.25]), (20, [0, 1, 3, 5, 7]), (60, [0, 2, 6, 10, 13]))]
sets.append(entry("twelve mixed terms", TWELVE, twelve([0, 1, 3, 6, 9, 12, 16, 20, 26])))
print(json.dumps(sets, indent=1))
