"""Reference chances of sums of many Student's t terms, for lib/uncertainty/linearDistribution.ts and radialDistribution.ts.

Along a line: the inversion integral P(Z > z) = 1/2 - (1/pi) int phi(s) sin(sz)/s ds (Gil-Pelaez 1951) on Gauss-Legendre panels, phi from Bessel functions
of the second kind (scipy 1.17). No far law, no trapezoid rule, nothing that repeats: the panels go to where phi is below 1e-17. In the plane, with
independent sums along the axes: P(r) = int f(y) P(|X| < sqrt(r^2 - y^2)) dy, both factors by the same integral.
Run by hand: python3 studentSums.py > studentSums.json   (some seconds)
"""
import json

import numpy as np
from numpy.polynomial.legendre import leggauss
from scipy import special

nodes, weights = leggauss(16)


def phi(s, terms, normal):
    logarithm = -((normal * s) ** 2) / 2
    for scale, nu, times in terms:
        y = np.sqrt(nu) * scale * s
        with np.errstate(all="ignore"):
            own = np.log(special.kve(nu / 2, y)) - y + nu / 2 * np.log(y) - special.gammaln(nu / 2) - (nu / 2 - 1) * np.log(2)
        if nu > 50:
            # Bessel functions of high order overflow near 0: there two cumulants are good to 1e-14.
            variance = nu / (nu - 2)
            own = np.where(scale * s < 0.02, -variance * (scale * s) ** 2 / 2 + 6 * variance**2 / (nu - 4) * (scale * s) ** 4 / 24, own)
        logarithm = logarithm + times * own
    return np.exp(logarithm)


def spectrum(terms, normal, farthest):
    """Nodes, weights and values of phi for arguments up to `farthest`, and where they begin."""
    cut = 1.0
    while phi(np.array([cut]), terms, normal)[0] > 1e-17:
        cut *= 1.1
    width = min(3 / farthest, cut)
    start = 1e-6 * width
    edges = np.concatenate([np.geomspace(start, width, 30), np.arange(2 * width, cut + width, width)])
    middle, half = (edges[1:] + edges[:-1]) / 2, (edges[1:] - edges[:-1]) / 2
    s = (middle[:, None] + half[:, None] * nodes).ravel()
    return s, (half[:, None] * weights).ravel() * phi(s, terms, normal), start


def tail(z, terms, normal):
    s, w, start = spectrum(terms, normal, z)
    return 0.5 - (np.sum(w * np.sin(s * z) / s) + start * z) / np.pi


def within_radius(radius, nu, times, normal, ratio):
    """Sums along X, and `ratio` times such sums along Y."""
    s, w, start = spectrum([(1, nu, times)], normal, radius / ratio)
    u, v = leggauss(300)
    angle = (u + 1) * np.pi / 4
    # Along Y the sum is narrow: x = radius cos(angle) moves slowly where it matters.
    y = radius * np.sin(angle) ** 3
    element = v * np.pi / 4 * 3 * radius * np.sin(angle) ** 2 * np.cos(angle)
    x = np.sqrt((radius - y) * (radius + y))
    density = np.array([(np.sum(w * np.cos(s * t)) + start) / np.pi for t in y / ratio]) / ratio
    between = np.array([2 * (np.sum(w * np.sin(s * t) / s) + start * t) / np.pi for t in x])
    return 2 * np.sum(element * density * between)


line = []
for terms, normal, places in [
    ([(1, 12, 40)], 0, [20, 32, 40]),
    ([(1, 20, 5)], 0.5, [7, 12, 15]),
    ([(1, 30, 5)], 0, [7, 11, 14]),
    ([(1, 60, 2)], 0, [5, 7, 9]),
    ([(1, 60, 40)], 0, [12, 19, 32]),
    ([(1, 100, 3)], 0, [5, 9, 11]),
    ([(1, 200, 3)], 0.5, [5, 8, 11]),
    ([(1, 5, 12)], 0, [10, 20, 60]),
    ([(1, 100, 2), (0.5, 9, 1), (0.3, 3, 1)], 0, [4, 7, 12, 40]),
]:
    chances = [[z, float(tail(z, terms, normal))] for z in places]
    line.append({"terms": [{"scale": a, "degreesOfFreedom": b, "times": c} for a, b, c in terms], "normal": normal, "tails": chances})

plane = []
for nu, times, normal, ratio, radii in [
    (12, 40, 0.5, 1, [10, 25, 45]),
    (20, 12, 0, 0.05, [4, 12, 20]),
    (30, 40, 3, 1, [10, 25, 45]),
    (100, 5, 0, 0.05, [2, 8, 14]),
    (200, 2, 0, 0.05, [2, 6, 9]),
    (5, 2, 0, 0.05, [2, 4, 6]),
]:
    chances = [[r, float(within_radius(r, nu, times, normal, ratio))] for r in radii]
    plane.append({"degreesOfFreedom": nu, "times": times, "normal": normal, "ratio": ratio, "chances": chances})

print(json.dumps({"line": line, "plane": plane}, indent=1))
