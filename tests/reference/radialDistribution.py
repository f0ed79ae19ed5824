"""Reference chances for lib/uncertainty/radialDistribution.ts, without any characteristic function or chord.

With an isotropic normal part of standard deviation s the chance within r, given the other sources, is the noncentral chi-square's
(scipy.stats.ncx2, two degrees of freedom); the other sources are integrated out by tensor Gauss rules (trapezoid in theta for the arcsine,
trapezoid in v for t = sinh v), refined until two sizes agree to 1e-10. Without a normal part one source is taken by its own distribution function and
the others by adaptive quadrature. Run by hand: python3 radialDistribution.py > radialDistribution.json   (about three minutes)
"""
import itertools
import json
import math

import numpy as np
from numpy.polynomial.legendre import leggauss
from scipy import integrate, stats


def nodes(term, n):
    kind, *a = term
    if kind == "rectangular":
        x, w = leggauss(n)
        return a[0] * x, w / 2
    if kind == "triangular":
        x, w = leggauss(n)
        x = (x + 1) / 2
        return np.concatenate([a[0] * x, -a[0] * x]), np.concatenate([w * (1 - x), w * (1 - x)]) / 2
    if kind == "arcsine":
        return a[0] * np.cos(np.pi * (np.arange(n) + 0.5) / n), np.full(n, 1 / n)
    if kind == "scaledT":
        m = 4 * n
        far = math.asinh(10 ** (13.0 / a[1])) if a[1] < 6 else math.asinh(200.0)
        v = np.linspace(-far, far, 2 * m + 1)
        w = stats.t(a[1]).pdf(np.sinh(v)) * np.cosh(v) * (v[1] - v[0])
        return a[0] * np.sinh(v), w
    raise ValueError(kind)


def smooth(mean, sigma, sources, r, n):
    rules = [nodes(t, n if t[0] == "scaledT" else n if len(sources) < 3 else min(n, 100)) for _, t in sources]
    x, y = np.array([mean[0]]), np.array([mean[1]])
    w = np.array([1.0])
    for (vector, _), (pos, weight) in zip(sources, rules):
        x = (x[:, None] + vector[0] * pos[None, :]).ravel()
        y = (y[:, None] + vector[1] * pos[None, :]).ravel()
        w = (w[:, None] * weight[None, :]).ravel()
    near = x * x + y * y < (r + 12 * sigma) ** 2
    return float(np.dot(w[near], stats.ncx2.cdf(r * r / sigma ** 2, 2, (x[near] ** 2 + y[near] ** 2) / sigma ** 2)))


def refined(mean, sigma, sources, r):
    n = 16 if len(sources) < 4 else 12
    last = smooth(mean, sigma, sources, r, n)
    while True:
        n = int(n * 1.5)
        now = smooth(mean, sigma, sources, r, n)
        if abs(now - last) < 1e-10:
            return now
        if n > 6000:
            raise ValueError(f"not converged: {now} {last}")
        last = now


def interval_chance(term, lo, hi):
    kind, *a = term
    if kind == "rectangular":
        return max(0.0, min(hi, a[0]) - max(lo, -a[0])) / (2 * a[0])
    if kind == "arcsine":
        f = lambda x: 0.5 + math.asin(max(-1, min(1, x / a[0]))) / math.pi
        return f(hi) - f(lo)
    if kind == "scaledT":
        d = stats.t(a[1], scale=a[0])
        return d.cdf(hi) - d.cdf(lo)
    raise ValueError(kind)


def bounded(mean, sources, r):
    """The last source exactly, the others by adaptive quadrature with breaks."""
    *outer, (vector, term) = sources
    size = math.hypot(*vector)
    d = (vector[0] / size, vector[1] / size)

    def last(x, y):
        along, off = x * d[0] + y * d[1], x * d[1] - y * d[0]
        if abs(off) >= r:
            return 0.0
        half = math.sqrt(r * r - off * off)
        return interval_chance(term, (-along - half) / size, (-along + half) / size)

    def over(k, x, y):
        if k == len(outer):
            return last(x, y)
        v, t = outer[k]
        if t[0] == "arcsine":
            f = lambda a: over(k + 1, x + v[0] * t[1] * math.sin(a), y + v[1] * t[1] * math.sin(a)) / math.pi
            lo, hi = -math.pi / 2, math.pi / 2
        else:
            f = lambda a: over(k + 1, x + v[0] * a, y + v[1] * a) / (2 * t[1])
            lo, hi = -t[1], t[1]
        if k == len(outer) - 1:
            # Where the disc's edge is touched or the last source's end crosses it, the integrand is not smooth.
            grid = np.linspace(lo, hi, 65)
            return sum(integrate.quad(f, p, q, epsabs=1e-11, epsrel=1e-9, limit=200)[0] for p, q in zip(grid, grid[1:]))
        xs, ws = leggauss(6)
        grid = np.linspace(lo, hi, 41)
        return sum((q - p) / 2 * sum(w * f((p + q) / 2 + (q - p) / 2 * z) for z, w in zip(xs, ws)) for p, q in zip(grid, grid[1:]))

    return over(0, *mean)


SMOOTH = {
    "round normal off centre": ((3, 4), 1.0, [], [0.5, 3, 5, 6, 8]),
    "two rectangles at 50 degrees and normal": ((0.2, -0.1), 0.4, [((1, 0.2), ("rectangular", 1.0)), ((-0.3, 0.8), ("rectangular", 1.2))], [0.2, 0.7, 1.2, 1.8, 2.4]),
    "t of 5, rectangle and normal": ((0, 0), 0.6, [((1, 0), ("scaledT", 0.8, 5)), ((0.4, 1), ("rectangular", 1.0))], [0.3, 1, 2, 4, 8, 20]),
    "t of 1 and normal": ((0.5, 0.2), 0.6, [((0.6, 0.8), ("scaledT", 0.5, 1))], [0.3, 1, 2, 5, 12, 60]),
    "two t of 1 square to each other and normal": ((0.3, 0), 0.5, [((1, 0), ("scaledT", 0.4, 1)), ((0, 1), ("scaledT", 0.3, 1))], [0.3, 1, 2, 5, 12]),
    "t of 2, t of 4 and normal": ((0, 0.4), 0.5, [((1, 0.3), ("scaledT", 0.4, 2)), ((-0.2, 1), ("scaledT", 0.6, 4))], [0.3, 1, 2, 5, 12, 30]),
    "t of 3, arcsine, triangle and normal": ((0.4, 0.1), 0.5, [((1, 0.3), ("scaledT", 0.4, 3)), ((-0.2, 1), ("arcsine", 0.9)), ((0.5, 0.5), ("triangular", 1.4))], [0.3, 1, 2, 3.5, 8]),
    "long cloud: rectangle 12 times the rest": ((0.5, 0.3), 0.3, [((0.8, 0.6), ("rectangular", 6.0)), ((-0.6, 0.8), ("rectangular", 0.6))], [0.3, 1, 3, 5.5, 6.3, 7]),
    "long cloud: t of 9, 15 times the rest": ((0.1, 0.3), 0.2, [((0.8, 0.6), ("scaledT", 3.0, 9)), ((-0.6, 0.8), ("rectangular", 0.4))], [0.3, 1, 3, 8, 15, 30]),
    "long cloud: t of 2, 20 times the rest": ((0.1, 0.3), 0.2, [((0.8, 0.6), ("scaledT", 4.0, 2)), ((-0.6, 0.8), ("rectangular", 0.4))], [0.3, 1, 3, 8, 15, 60]),
    "far off centre": ((40, -25), 0.7, [((1, 0.2), ("rectangular", 1.0)), ((-0.3, 0.8), ("scaledT", 0.6, 6))], [43, 45, 47, 49, 51]),
    "very far off centre": ((4000, -2500), 0.7, [((1, 0.2), ("rectangular", 1.0)), ((-0.3, 0.8), ("scaledT", 0.6, 6))], [4714, 4716, 4717, 4718, 4720]),
    "rectangle dominating a small normal": ((0.2, 0), 0.02, [((1, 0.5), ("rectangular", 1.0)), ((0.02, -0.03), ("rectangular", 1.0))], [0.15, 0.2, 0.6, 1, 1.3, 1.34]),
    "two rectangles dominating a small normal": ((0.2, 0), 0.02, [((1, 0.5), ("rectangular", 1.0)), ((-0.2, 0.7), ("rectangular", 1.0))], [0.1, 0.5, 0.9, 1.2, 1.5, 1.6]),
    "four sources and normal": ((0.3, 0.3), 0.6, [((1, 0), ("rectangular", 0.8)), ((0.5, 0.7), ("rectangular", 0.9)), ((0, 1), ("arcsine", 0.7)), ((0.6, -0.5), ("triangular", 1.1))], [0.4, 1, 1.8, 2.6, 3.4]),
}
BOUNDED = {
    "two rectangles": ((0.2, -0.1), [((1, 0.2), ("rectangular", 1.0)), ((-0.3, 0.8), ("rectangular", 1.2))], [0.2, 0.7, 1.2, 1.5]),
    "rectangle and arcsine": ((0.2, -0.1), [((1, 0.2), ("arcsine", 1.0)), ((-0.3, 0.8), ("rectangular", 1.2))], [0.2, 0.7, 1.2, 1.5]),
    "arcsine and t of 2": ((0.1, 0.1), [((1, 0), ("arcsine", 1.0)), ((0.1, 0.8), ("scaledT", 0.5, 2))], [0.2, 0.7, 1.5, 5]),
    "three rectangles": ((0.2, -0.1), [((1, 0.2), ("rectangular", 1.0)), ((0.5, -0.6), ("rectangular", 0.7)), ((-0.3, 0.8), ("rectangular", 1.2))], [0.2, 0.9, 1.5, 2.1]),
}


def entry(name, mean, sources, chances):
    keys = {"normal": ["standardDeviation"], "rectangular": ["halfWidth"], "triangular": ["halfWidth"], "arcsine": ["halfWidth"], "scaledT": ["scale", "degreesOfFreedom"]}
    return {"name": name, "mean": mean, "terms": [{"coefficient": v, "distribution": {"shape": t[0], **dict(zip(keys[t[0]], t[1:]))}} for v, t in sources], "chances": chances}


out = []
for name, (mean, sigma, sources, radii) in SMOOTH.items():
    normals = [((1, 0), ("normal", sigma)), ((0, 1), ("normal", sigma))]
    out.append(entry(name, mean, normals + sources, [[r, refined(mean, sigma, sources, r)] for r in radii]))
for name, (mean, sources, radii) in BOUNDED.items():
    out.append(entry(name, mean, sources, [[r, bounded(mean, sources, r)] for r in radii]))
print(json.dumps(out, indent=1))
