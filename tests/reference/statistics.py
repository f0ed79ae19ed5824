"""Reference values for lib/uncertainty/special/*Quantile and lib/uncertainty/toleranceFactor: mpmath with 30 digits.

Quantiles: the double nearest to p is inverted by bisection of a regularised incomplete function, so nothing depends on a root finder's tolerance.
Tolerance factors: one-sided by the distribution of x̄ + k s as an integral over s, two-sided as an integral over x̄ (ISO 16269-6).
Run by hand: python3 statistics.py > statistics.json
"""
import json
from mpmath import mp, mpf, betainc, gammainc, erfc, erfinv, exp, gamma, log, log1p, loggamma, quad, sqrt, pi, inf, findroot

mp.dps = 30


def bisect(chance, p, low, high):
    """x = exp(v) with chance(x) = p, chance rising; both tails by relative error through the smaller of p and 1 - p."""
    low, high = mpf(low), mpf(high)
    for _ in range(90):
        middle = (low + high) / 2
        if chance(exp(middle)) < p:
            low = middle
        else:
            high = middle
    return exp((low + high) / 2)


def fisher(p, a, b):
    """Bisection on the tail that is smaller, since 1 - p of a double p is exact in 30 digits."""
    p, a, b = mpf(p), mpf(a), mpf(b)

    def lower(x):
        u, w = a * x / (b + a * x), b / (b + a * x)
        return betainc(a / 2, b / 2, 0, u, regularized=True) if u < 0.5 else 1 - betainc(b / 2, a / 2, 0, w, regularized=True)
    return float(bisect(lower, p, -700 if min(a, b) < 1 else -80, 700 if min(a, b) < 1 else 80))


def chi_square(p, nu):
    p, a = mpf(p), mpf(nu) / 2
    return float(2 * bisect(lambda x: gammainc(a, 0, x, regularized=True), p, -800, 12))


def student(p, nu):
    """Lower quantile for p < 1/2."""
    p, nu = mpf(p), mpf(nu)
    if nu < 500:
        tail = lambda t: betainc(nu / 2, mpf(1) / 2, 0, nu / (nu + t * t), regularized=True) / 2
    else:  # the series converges too slowly: the density itself, relative to that at t, since quad's tolerance is absolute
        peak = exp(loggamma((nu + 1) / 2) - loggamma(nu / 2)) / sqrt(nu * pi)
        exponent = lambda x: -(nu + 1) / 2 * log1p(x * x / nu)
        tail = lambda t: peak * exp(exponent(t)) * quad(lambda x: exp(exponent(t + x) - exponent(t)), [0, 0.1, 0.3, 1, 3, 8, 40])
    return float(-bisect(lambda t: -tail(t), -p, -10, 700 if nu < 500 else 5))


def normal(p):
    p = mpf(p)
    mp.dps = 60
    z = findroot(lambda v: log(erfc(v / sqrt(2)) / 2) - log(p), sqrt(-2 * log(p)) if p < 0.1 else mpf(0.5))
    mp.dps = 30
    return float(-z)


def phi(z):
    return erfc(-z / sqrt(2)) / 2


def solve(confidence, c, start):
    return findroot(lambda k: confidence(k) - c, (start, start * mpf("1.01")), solver="secant", tol=mpf(10) ** -30)


def tolerance_one(n, p, c, start):
    n, p, c, nu = mpf(n), mpf(p), mpf(c), mpf(n) - 1
    z = sqrt(2) * erfinv(2 * p - 1)
    # Density of w = s/sigma.
    f = lambda w: 2 * (nu / 2) ** (nu / 2) / gamma(nu / 2) * w ** (nu - 1) * exp(-nu * w * w / 2)
    ends = [0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 2, 3, 5, 12]
    return float(solve(lambda k: quad(lambda w: f(w) * phi(sqrt(n) * (k * w - z)), ends), c, start))


def tolerance_both(n, p, c, start):
    n, p, c, nu = mpf(n), mpf(p), mpf(c), mpf(n) - 1

    def reach(z):
        return findroot(lambda r: phi(z + r) - phi(z - r) - p, z + sqrt(2) * erfinv(p))

    cache = {}

    def cached(z):
        if z not in cache:
            cache[z] = reach(z)
        return cache[z]

    def confidence(k):
        g = lambda z: 2 * sqrt(n / (2 * pi)) * exp(-n * z * z / 2) * gammainc(nu / 2, nu * cached(z) ** 2 / (2 * k * k), inf, regularized=True)
        return quad(g, [0, 1 / sqrt(n), 2 / sqrt(n), 4 / sqrt(n), 7 / sqrt(n), 11 / sqrt(n)], maxdegree=6)
    return float(solve(confidence, c, start))


P = [1e-12, 1e-6, 0.001, 0.025, 0.1, 0.45, 0.5, 0.75, 0.95, 0.999, 1 - 1e-9]
ONE = [(2, 0.9, 0.95, 20.58), (3, 0.95, 0.95, 7.66), (5, 0.9, 0.95, 3.407), (10, 0.99, 0.99, 5.07), (30, 0.95, 0.9, 2.08), (200, 0.999, 0.95, 3.4)]
BOTH = [(2, 0.9, 0.95, 31.1), (5, 0.95, 0.95, 5.08), (10, 0.9, 0.99, 3.6), (43, 0.9, 0.99, 2.22), (200, 0.99, 0.95, 2.8)]
print(json.dumps({
    "normalFarQuantile": [[p, normal(p)] for p in [5e-324, 1e-310, 1e-200, 1e-50, 1e-20, 1e-8, 0.02, 0.2]],
    "studentQuantile": [[p, nu, student(p, nu)] for nu in [0.2, 0.7, 1, 2, 4, 9, 33.5, 1e3, 1e6, 1e9] for p in [1e-100, 1e-40, 1e-12, 1e-4, 0.025, 0.2, 0.4]
                        if not (nu < 0.5 and p < 1e-50)],
    "chiSquareQuantile": [[p, nu, chi_square(p, nu)] for nu in [0.1, 0.5, 1, 2, 7, 40, 500, 2e4] for p in [1e-30, *P] if not (nu < 0.5 and p < 1e-9)],
    "fisherQuantile": [[p, a, b, fisher(p, a, b)] for a, b in [(1, 1), (1, 10), (2, 12), (5, 2), (9, 40), (10, 10), (24, 984), (0.5, 3), (100, 7.5), (200, 300)] for p in P],
    "toleranceOneSided": [[n, p, c, tolerance_one(n, p, c, mpf(s))] for n, p, c, s in ONE],
    "toleranceTwoSided": [[n, p, c, tolerance_both(n, p, c, mpf(s))] for n, p, c, s in BOTH],
}, indent=0))
