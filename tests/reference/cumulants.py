"""Cumulants of order 2, 4, 6 and 8 from moments by quadrature of the densities, 30 digits (mpmath), which cumulantsOf is compared with.

Even cumulants of a symmetric distribution from its moments: k4 = m4 - 3 m2², k6 = m6 - 15 m4 m2 + 30 m2³,
k8 = m8 - 28 m6 m2 - 35 m4² + 420 m4 m2² - 630 m2⁴.
Run by hand: python3 cumulants.py > cumulants.json
"""
import json
from mpmath import mp, mpf, quad, exp, sqrt, pi, gamma, inf, sin

mp.dps = 30
a = mpf("1.3")


def over(density, ends):
    return lambda n: 2 * quad(lambda x: x**n * density(x), ends)


def student(nu):
    scale = gamma((nu + 1) / 2) / (sqrt(nu * pi) * gamma(nu / 2))
    # x = tan(angle)·sqrt(nu) would do; mpmath's own map of the half line does too.
    return lambda n: a**n * 2 * quad(lambda t: t**n * scale * (1 + t * t / nu) ** (-(nu + 1) / 2), [0, 1, 10, 100, 10**4, inf])


def trapezoid(top):
    height = 1 / (a * (1 + top))
    edge = a * top
    flat, slope = (lambda x: height), (lambda x: height * (a - x) / (a - edge))
    return lambda n: 2 * (quad(lambda x: x**n * flat(x), [0, edge]) + quad(lambda x: x**n * slope(x), [edge, a]))


def arcsine(n):
    # x = a sin θ with θ uniform.
    return quad(lambda t: (a * sin(t)) ** n, [0, 2 * pi]) / (2 * pi)


def curvilinear(top):
    # A U H with U uniform on -1 to 1 and H uniform on top to 1: the moments factorise.
    return lambda n: a**n * quad(lambda u: u**n, [0, 1]) * quad(lambda h: h**n, [top, 1]) / (1 - top)


cases = [
    ({"shape": "normal", "standardDeviation": 1.3}, over(lambda x: exp(-x * x / (2 * a * a)) / (a * sqrt(2 * pi)), [0, 5, 30])),
    ({"shape": "rectangular", "halfWidth": 1.3}, over(lambda x: 1 / (2 * a), [0, a])),
    ({"shape": "triangular", "halfWidth": 1.3}, over(lambda x: (a - x) / (a * a), [0, a])),
    ({"shape": "trapezoidal", "halfWidth": 1.3, "topRatio": 0.4}, trapezoid(mpf("0.4"))),
    ({"shape": "curvilinearTrapezoidal", "halfWidth": 1.3, "topRatio": 0.3}, curvilinear(mpf("0.3"))),
    ({"shape": "curvilinearTrapezoidal", "halfWidth": 1.3, "topRatio": 0}, curvilinear(mpf(0))),
    ({"shape": "arcsine", "halfWidth": 1.3}, arcsine),
    ({"shape": "scaledT", "scale": 1.3, "degreesOfFreedom": 12}, student(mpf(12))),
    ({"shape": "scaledT", "scale": 1.3, "degreesOfFreedom": 24.5}, student(mpf("24.5"))),
]


def cumulants(moment):
    m2, m4, m6, m8 = (moment(n) for n in (2, 4, 6, 8))
    return {
        "second": float(m2),
        "fourth": float(m4 - 3 * m2**2),
        "sixth": float(m6 - 15 * m4 * m2 + 30 * m2**3),
        "eighth": float(m8 - 28 * m6 * m2 - 35 * m4**2 + 420 * m4 * m2**2 - 630 * m2**4),
    }


print(json.dumps([{"distribution": source, "cumulants": cumulants(moment)} for source, moment in cases], indent=1))
