"""Reference values for lib/uncertainty/special/: tails by mpmath with 40 digits, quantiles by scipy, far quantiles by mpmath's root finder.

Run by hand: python3 specialFunctions.py > specialFunctions.json
"""
import json
from mpmath import mp, mpf, erfc, sqrt, betainc, gammainc, loggamma, besselk, gamma, findroot, log
from scipy import stats

mp.dps = 40


def student_tail(t, nu):
    t, nu = mpf(t), mpf(nu)
    return betainc(nu / 2, mpf(1) / 2, 0, nu / (nu + t * t), regularized=True) / 2


def student_far_quantile(p, nu):
    """The t with upper tail p, for p so small that scipy's own root finder loses digits."""
    start = mpf(float(stats.t.isf(max(p, 1e-12), nu)))
    return findroot(lambda v: log(student_tail(mp.exp(v), nu) / mpf(p)), log(start))


def characteristic(s, nu):
    s, nu = mpf(s), mpf(nu)
    if s == 0:
        return mpf(1)
    mu, z = nu / 2, sqrt(nu) * s
    return besselk(mu, z) * z ** mu / (2 ** (mu - 1) * gamma(mu))


P = [1e-9, 1e-6, 0.001, 0.0013498980316300945, 0.025, 0.1, 0.3, 0.45, 0.6, 0.75, 0.9, 0.975, 0.995, 0.9999]
print(json.dumps({
    "sineIntegral": [[x, float(mp.si(mpf(x)))] for x in [0, 1e-9, 0.1, 1, 3.141592653589793, 5.9, 5.999999, 6, 6.1, 7, 8.5, 10, 15, 31, 100, 1e4, 1e8]],
    "normalTail": [[z, float(erfc(mpf(z) / sqrt(2)) / 2)] for z in [-8, -1, 0, 0.1, 0.67, 0.68, 1.959963984540054, 3, 5.6, 5.7, 8, 15, 30, 37]],
    "normalQuantile": [[p, float(stats.norm.ppf(p))] for p in [1e-300, 1e-100, 1e-30, 1e-12, *P]],
    "studentTail": [[t, nu, float(student_tail(t, nu))] for nu in [0.1, 0.5, 1, 1.3, 2, 3, 5, 10, 18.5, 100, 1234.5, 1e5] for t in [0, 1e-8, 0.3, 1, 2, 5, 20, 1000]],
    "studentQuantile": [[p, nu, float(stats.t.ppf(p, nu))] for nu in [1, 1.5, 2, 3, 4, 5.5, 10, 16, 30, 100, 1e4] for p in P if p > 1e-8],
    "studentFarQuantile": [[p, nu, float(-mp.exp(student_far_quantile(p, nu)))] for nu in [0.5, 1, 2.5, 7, 50] for p in [1e-30, 1e-15, 1e-9]],
    "chiSquare": [[x * nu, nu, float(gammainc(mpf(nu) / 2, 0, mpf(x * nu) / 2, regularized=True)), float(gammainc(mpf(nu) / 2, mpf(x * nu) / 2, mp.inf, regularized=True))]
                  for nu in [0.5, 1, 2, 5, 9, 30, 101.5, 2000] for x in [0.001, 0.1, 0.5, 0.95, 1, 1.1, 2, 5]],
    "chiSquareQuantile": [[p, nu, float(stats.chi2.ppf(p, nu))] for nu in [0.5, 1, 2, 3, 5, 10, 33.3, 100, 1000] for p in P],
    "fisherTail": [[x, a, b, float(betainc(mpf(b) / 2, mpf(a) / 2, 0, mpf(b) / (mpf(b) + mpf(a) * mpf(x)), regularized=True))]
                   for a in [1, 2, 5, 10.5, 100] for b in [1, 2, 5, 100] for x in [0.01, 0.5, 1, 3, 10, 100]],
    "logGamma": [[x, float(loggamma(mpf(x)))] for x in [1e-8, 0.01, 0.5, 1, 1.5, 2, 3.3, 10, 14.9, 15, 100, 1e6]],
    "studentCharacteristic": [[nu, s, float(characteristic(s, nu))] for nu in [0.3, 1, 1.7, 2, 3, 4, 5, 6.5, 9, 10, 16, 17, 40, 300, 1e4]
                              for s in [0, 1e-15, 1e-6, 0.001, 0.03, 0.2, 0.77, 1, 1.9, 3, 5, 9, 20]],
}, indent=0))
