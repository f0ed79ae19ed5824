"""Chebyshev coefficients that lib/uncertainty/special/besselJ.ts carries, and 30-digit values that its test reads.

J0 and J1(x)/x on [0, 8] in t = x²/32 - 1; beyond 8 the auxiliary functions P and (x/8) Q of Hankel's form (DLMF 10.17.3, 10.18)
in t = 128/x² - 1. Run by hand: python3 besselCoefficients.py > besselJ.json
"""
import json
from mpmath import mp, mpf, besselj, bessely, sqrt, pi, cos, sin

mp.dps = 40


def chebyshev(f, count):
    nodes = [cos(pi * (mpf(j) + mpf(1) / 2) / count) for j in range(count)]
    values = [f(t) for t in nodes]
    out = []
    for k in range(count):
        c = 2 * sum(v * cos(k * pi * (mpf(j) + mpf(1) / 2) / count) for j, v in enumerate(values)) / count
        out.append(c / 2 if k == 0 else c)
    while abs(out[-1]) < mpf(10) ** -17:
        out.pop()
    return [float(c) for c in out]


def near(order):
    return lambda t: (lambda x: besselj(0, x) if order == 0 else besselj(1, x) / x)(sqrt(32 * (t + 1)))


def auxiliary(order, which):
    def f(t):
        w = (t + 1) / 2
        x = 8 / sqrt(w)
        chi = x - (2 * order + 1) * pi / 4
        a = sqrt(pi * x / 2)
        if which == "P":
            return a * (besselj(order, x) * cos(chi) + bessely(order, x) * sin(chi))
        return a * (bessely(order, x) * cos(chi) - besselj(order, x) * sin(chi)) * x / 8
    return f


points = [0, 1e-9, 0.1, 0.5, 1, 2, 2.404825557695773, 3.8317, 5, 6.5, 7.999, 8, 8.001, 9.5, 12, 17.3, 25, 40, 99.5, 1000.25, 54321.5]
print(json.dumps({
    "coefficients": {
        "near0": chebyshev(near(0), 24), "near1": chebyshev(near(1), 24),
        "farP0": chebyshev(auxiliary(0, "P"), 24), "farQ0": chebyshev(auxiliary(0, "Q"), 24),
        "farP1": chebyshev(auxiliary(1, "P"), 24), "farQ1": chebyshev(auxiliary(1, "Q"), 24),
    },
    "values": [[x, float(besselj(0, mpf(x))), float(besselj(1, mpf(x)))] for x in points],
}, indent=1))
