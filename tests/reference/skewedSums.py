"""Reference chances for sums with exponential and curvilinear trapezoidal sources, on a line and in the plane (scipy, numpy; no characteristic function).

Closed laws where there are any: gamma (equal exponentials), exponentially modified normal, asymmetric Laplace (two opposite exponentials). Everything else
is integrated directly: the outer sources by adaptive quadrature over their probability or density, the innermost by its closed distribution function.
An exponential source of mean m deviates by m (E - 1) from its estimate. A curvilinear trapezoid of half-width A and top ratio b is A H U with H uniform on
b to 1 and U uniform on -1 to 1 (JCGM 101:2008, 6.4.3): it is integrated over H with the closed law of the rectangle.
Run by hand: python3 skewedSums.py > skewedSums.json   (about two minutes)
"""
import json
import math

import numpy as np
from scipy import integrate, stats


def quad(f, breaks, tolerance=1e-14):
    breaks = sorted(set(breaks))
    return sum(integrate.quad(f, low, high, epsabs=tolerance, epsrel=1e-13, limit=300)[0] for low, high in zip(breaks, breaks[1:]) if high > low)


def exponential(mean):
    return {"shape": "exponential", "mean": mean}


def normal(sigma):
    return {"shape": "normal", "standardDeviation": sigma}


def rectangular(half):
    return {"shape": "rectangular", "halfWidth": half}


def triangular(half):
    return {"shape": "triangular", "halfWidth": half}


def arcsine(half):
    return {"shape": "arcsine", "halfWidth": half}


def curved(half, top):
    return {"shape": "curvilinearTrapezoidal", "halfWidth": half, "topRatio": top}


def student(scale, degrees):
    return {"shape": "scaledT", "scale": scale, "degreesOfFreedom": degrees}


def term(distribution, coefficient=1):
    return {"coefficient": coefficient, "distribution": distribution}


def cdf_of(t):
    """Closed distribution function of one term, and where it is not smooth."""
    c, d = t["coefficient"], t["distribution"]
    a = abs(c)
    shape = d["shape"]
    if shape == "exponential":
        m = a * d["mean"]
        if c > 0:
            return (lambda x: -math.expm1(-(x + m) / m) if x > -m else 0.0), [-m]
        return (lambda x: math.exp((x - m) / m) if x < m else 1.0), [m]
    if shape == "normal":
        s = a * d["standardDeviation"]
        return (lambda x: 0.5 * math.erfc(-x / s / math.sqrt(2))), [k * s for k in (-8, -4, -2, 0, 2, 4, 8)]
    if shape == "rectangular":
        h = a * d["halfWidth"]
        return (lambda x: min(1.0, max(0.0, (x + h) / (2 * h)))), [-h, h]
    if shape == "triangular":
        h = a * d["halfWidth"]
        law = stats.triang(0.5, loc=-h, scale=2 * h)
        return (lambda x: float(law.cdf(x))), [-h, 0, h]
    if shape == "arcsine":
        h = a * d["halfWidth"]
        return (lambda x: 0.5 + math.asin(min(1.0, max(-1.0, x / h))) / math.pi), [-h, h]
    if shape == "scaledT":
        s, n = a * d["scale"], d["degreesOfFreedom"]
        from scipy.special import stdtr
        return (lambda x: float(stdtr(n, x / s))), [k * s for k in (-20, -5, -2, 0, 2, 5, 20)]
    raise ValueError(shape)


def chance(terms, z):
    """P(sum <= z): all terms but the last by quadrature."""
    first, *rest = terms
    if not rest:
        if first["distribution"]["shape"] == "curvilinearTrapezoidal":
            return over_curved(first, z, lambda y: 1.0 if y >= 0 else 0.0, [0.0])
        return cdf_of(first)[0](z)
    inner = lambda y: chance(rest, y)
    breaks = cdf_of(rest[0])[1] if len(rest) == 1 else [sum(abs(b) * s for b, s in zip(signs, sizes(rest))) for signs in corners(len(rest))]
    c, d = first["coefficient"], first["distribution"]
    if d["shape"] == "exponential":
        m = c * d["mean"]
        # x = m (e - 1), e from 0; beyond 45 there is e^-45.
        places = [1 + (z - b) / m for b in breaks]
        return quad(lambda e: math.exp(-e) * inner(z - m * (e - 1)), [0, 0.5, 2, 5, 10, 20, 45] + [p for p in places if 0 < p < 45])
    if d["shape"] == "rectangular":
        h = abs(c) * d["halfWidth"]
        return quad(lambda x: inner(z - x) / (2 * h), [-h, h] + [z - b for b in breaks if -h < z - b < h])
    if d["shape"] == "normal":
        s = abs(c) * d["standardDeviation"]
        return quad(lambda x: inner(z - x) * math.exp(-0.5 * (x / s) ** 2) / s / math.sqrt(2 * math.pi), [k * s for k in range(-9, 10, 3)] + [z - b for b in breaks if abs(z - b) < 9 * s])
    if d["shape"] == "curvilinearTrapezoidal":
        return over_curved(first, z, inner, breaks)
    raise ValueError(d["shape"])


def sizes(terms):
    return [max(abs(b) for b in cdf_of(t)[1] or [0]) for t in terms]


def corners(n):
    return [[(k >> i & 1) * 2 - 1 for i in range(n)] for k in range(2 ** n)]


def over_curved(t, z, inner, breaks):
    """Over the density of the curvilinear trapezoid, (1/(2A(1-b))) ln(A/max(|x|, bA)), with its breaks."""
    a, b = abs(t["coefficient"]) * t["distribution"]["halfWidth"], t["distribution"]["topRatio"]

    def density(x):
        x = abs(x) / a
        if x >= 1:
            return 0.0
        return math.log(1 / max(x, b, 1e-300)) / (2 * a * (1 - b))

    return quad(lambda x: density(x) * inner(z - x), [-a, -b * a, 0.0, b * a, a] + [z - p for p in breaks if -a < z - p < a])


def direct(name, *terms, at):
    return {"name": name, "terms": list(terms), "chances": [[z, chance(list(terms), z)] for z in at]}


def closed(name, terms, law, at):
    return {"name": name, "terms": terms, "chances": [[z, float(law(z))] for z in at]}


def equal(n, m, coefficient=1):
    return [term(exponential(m), coefficient) for _ in range(n)]


line = [
    closed("one exponential", [term(exponential(2.5))], lambda z: stats.expon(scale=2.5).cdf(z + 2.5), [-2.49, -2, -0.5, 0, 1, 5, 20]),
    closed("one exponential, reversed", [term(exponential(2.5), -1)], lambda z: stats.expon(scale=2.5).sf(2.5 - z), [-20, -5, -1, 0, 0.5, 2, 2.49]),
    *(closed(f"{n} equal exponentials", equal(n, 1 / math.sqrt(n)), lambda z, n=n: stats.gamma(n).cdf(n + z * math.sqrt(n)), [-2, -1, -0.3, 0, 0.7, 2, 4]) for n in (2, 3, 5, 20, 300)),
    *(closed(f"exponential with normal {s}", [term(exponential(1)), term(normal(s))], lambda z, s=s: stats.exponnorm(1 / s, loc=-1, scale=s).cdf(z), [-2, -1, -0.9, -0.3, 0, 0.7, 2, 6]) for s in (0.001, 0.03, 0.3, 1, 4)),
    closed("exponential reversed with normal 0.5", [term(exponential(1), -1), term(normal(0.5))], lambda z: stats.exponnorm(2, loc=-1, scale=0.5).sf(-z), [-6, -2, -0.7, 0, 0.3, 1, 2]),
    closed("two opposite exponentials", [term(exponential(1)), term(exponential(1), -1)], lambda z: stats.laplace.cdf(z), [-9, -3, -1, -0.1, 0, 0.5, 2, 7]),
    closed("two opposite exponentials, unequal", [term(exponential(1)), term(exponential(1), -0.25)],
           lambda z: stats.laplace_asymmetric(0.5, loc=-0.75, scale=0.5).cdf(z), [-2, -1, -0.75, -0.5, 0, 0.5, 2, 7]),
    direct("exponential with rectangle 1", term(exponential(1)), term(rectangular(1)), at=[-1.9, -1, -0.4, 0, 0.3, 1, 3, 9]),
    direct("exponential with rectangle 0.01", term(exponential(1)), term(rectangular(0.01)), at=[-1.005, -0.99, -0.5, 0, 1, 5]),
    direct("exponential 0.02 with rectangle 1", term(exponential(0.02)), term(rectangular(1)), at=[-1.01, -0.98, -0.5, 0, 0.97, 1, 1.05]),
    direct("exponential with arcsine 1", term(exponential(1), -1), term(arcsine(1)), at=[-5, -2, -0.5, 0, 0.4, 1, 1.8]),
    direct("exponential with triangle 2", term(exponential(1)), term(triangular(2)), at=[-2.5, -1, 0, 0.5, 2, 6]),
    direct("exponential with t, 3 degrees", term(exponential(1)), term(student(0.5, 3)), at=[-6, -2, -1, -0.3, 0, 1, 4, 12]),
    direct("exponential with t, 1 degree", term(exponential(1)), term(student(0.5, 1)), at=[-60, -2, -1, -0.3, 0, 1, 4, 120]),
    direct("exponential, rectangle and normal 0.2", term(exponential(1)), term(rectangular(0.8)), term(normal(0.2)), at=[-1.5, -0.7, 0, 0.5, 2, 5]),
    direct("two unequal exponentials and normal 0.3", term(exponential(1)), term(exponential(0.4), -1), term(normal(0.3)), at=[-1.5, -0.7, 0, 0.5, 2, 5]),
    *(direct(f"curvilinear trapezoid, top {b}", term(curved(1.5, b)), at=[-1.4, -0.9, -0.3, 0.01, 0.5, 1.2]) for b in (0, 0.3, 0.95)),
    direct("curvilinear trapezoid with normal 0.2", term(curved(1, 0.4)), term(normal(0.2)), at=[-1.2, -0.6, -0.1, 0.3, 0.9, 1.5]),
    direct("curvilinear trapezoid with normal 0.002", term(curved(1, 0.4)), term(normal(0.002)), at=[-0.999, -0.6, -0.1, 0.3, 0.9, 1.001]),
    direct("curvilinear trapezoid with rectangle", term(curved(1, 0.4)), term(rectangular(0.7)), at=[-1.6, -0.6, -0.1, 0.3, 0.9, 1.5]),
    direct("curvilinear trapezoid with exponential", term(curved(1, 0.5)), term(exponential(0.6)), at=[-1.5, -0.6, -0.1, 0.3, 0.9, 3]),
]


def radial(name, mean, terms, inside, at):
    return {"name": name, "mean": mean, "terms": terms, "chances": [[r, float(inside(r))] for r in at]}


def vector(distribution, x, y):
    return {"coefficient": [x, y], "distribution": distribution}


def by_axes(mean, cdf_x, cdf_y, breaks_y, density_y=None):
    """x and y independent: over the density of y (by quadrature in its derivative) the chance of the chord."""
    def inside(r):
        def chord(y):
            half = math.sqrt(max(0.0, r * r - y * y))
            return cdf_x(half - mean[0]) - cdf_x(-half - mean[0])
        # y = r sin v removes the square root at both ends.
        ends = [-math.pi / 2, -0.8, 0, 0.8, math.pi / 2] + [math.asin((b + mean[1]) / r) for b in breaks_y if abs(b + mean[1]) < r]
        return quad(lambda v: chord(r * math.sin(v)) * density_y(r * math.sin(v) - mean[1]) * r * math.cos(v), ends, 1e-12)
    return inside


def with_round_normal(mean, sigma, vectors):
    """A round normal, moved by exponentials along their vectors."""
    def place(x, y, left, r):
        if not left:
            return float(stats.ncx2.cdf((r / sigma) ** 2, 2, (x * x + y * y) / sigma ** 2))
        (a, b), *rest = left
        return quad(lambda e: math.exp(-e) * place(x + a * (e - 1), y + b * (e - 1), rest, r), [0, 0.3, 1, 2, 4, 8, 16, 32], 1e-11)
    return lambda r: place(mean[0], mean[1], vectors, r)


en = lambda s: stats.exponnorm(1 / s, loc=-1, scale=s)
plane = [
    radial("exponential on X, round normal", [0.3, -0.2], [vector(exponential(1), 1, 0), vector(normal(0.5), 1, 0), vector(normal(0.5), 0, 1)],
           with_round_normal([0.3, -0.2], 0.5, [(1, 0)]), [0.2, 0.7, 1.2, 2, 4]),
    radial("exponential askew, round normal", [0.3, -0.2], [vector(exponential(0.5), -1.2, 1), vector(normal(0.6), 1, 0), vector(normal(0.6), 0, 1)],
           with_round_normal([0.3, -0.2], 0.6, [(-0.6, 0.5)]), [0.2, 0.7, 1.2, 2, 4]),
    radial("two exponentials askew, round normal", [-0.5, 0.4], [vector(exponential(1), -0.6, 0.5), vector(exponential(1), 0.3, 0.8), vector(normal(0.4), 1, 0), vector(normal(0.4), 0, 1)],
           with_round_normal([-0.5, 0.4], 0.4, [(-0.6, 0.5), (0.3, 0.8)]), [0.3, 0.8, 1.5, 3]),
    radial("far from the origin, askew", [40, -20], [vector(exponential(1), -0.6, 0.5), vector(normal(0.4), 1, 0), vector(normal(0.4), 0, 1)],
           with_round_normal([40, -20], 0.4, [(-0.6, 0.5)]), [41, 43.5, 44.5, 45, 46]),
    radial("long cloud, askew", [0.5, 0.3], [vector(exponential(1), 6, 5), vector(normal(0.4), 1, 0), vector(normal(0.4), 0, 1)],
           with_round_normal([0.5, 0.3], 0.4, [(6, 5)]), [0.5, 2, 6, 10, 40]),
    radial("exponential askew, small round normal", [0.3, -0.2], [vector(exponential(1), -0.6, 0.5), vector(normal(0.02), 1, 0), vector(normal(0.02), 0, 1)],
           with_round_normal([0.3, -0.2], 0.02, [(-0.6, 0.5)]), [0.3, 0.7, 1.2, 2]),
    radial("exponential on X, exponential on Y", [0.2, 0.1], [vector(exponential(1), 1, 0), vector(exponential(0.7), 0, 1)],
           by_axes([0.2, 0.1], lambda x: float(stats.expon.cdf(x + 1)), None, [-0.7], lambda y: math.exp(-(y + 0.7) / 0.7) / 0.7 if y > -0.7 else 0.0), [0.4, 0.9, 1.5, 3, 6]),
    radial("exponential on X, rectangle on Y", [0.2, 0.1], [vector(exponential(1), -1, 0), vector(rectangular(0.7), 0, 1)],
           by_axes([0.2, 0.1], lambda x: float(stats.expon.sf(1 - x)), None, [-0.7, 0.7], lambda y: 1 / 1.4 if abs(y) < 0.7 else 0.0), [0.4, 0.9, 1.5, 3, 6]),
    radial("both on X, normal on Y", [0.2, 0.1], [vector(exponential(1), 1, 0), vector(normal(0.3), 1, 0), vector(normal(0.8), 0, 1)],
           by_axes([0.2, 0.1], lambda x: float(en(0.3).cdf(x)), None, [-4, -2, 0, 2, 4], lambda y: math.exp(-0.5 * (y / 0.8) ** 2) / 0.8 / math.sqrt(2 * math.pi)), [0.4, 0.9, 1.5, 3, 6]),
    radial("curvilinear trapezoid on X, normal on Y", [0.2, 0.1], [vector(curved(1, 0.4), 1, 0), vector(normal(0.8), 0, 1)],
           by_axes([0.2, 0.1], lambda x: chance([term(curved(1, 0.4))], x) if abs(x) < 1 else float(x > 0), None, [-4, -2, 0, 2, 4],
                   lambda y: math.exp(-0.5 * (y / 0.8) ** 2) / 0.8 / math.sqrt(2 * math.pi)), [0.4, 0.9, 1.5]),
]

print(json.dumps({"line": line, "plane": plane}, indent=1))
