"""Reference values for tests/published/jcgm102-clause9: amplitude and phase of a point in the complex plane (scipy quadrature), and the square
region of two correlated results.

Run by hand: python3 coordinateTransformation.py > coordinateTransformation.json
"""
import json
import math
import numpy as np
from scipy import integrate, optimize, stats


def moments(x1, r):
    """Expectations, standard deviations and correlation of sqrt(X1^2 + X2^2) and atan2(X2, X1): means (x1, 0), u = 0.01 each, correlation r."""
    u = 0.01
    den = 2 * (1 - r * r)

    def density(rho, phi):
        a, b = (rho * math.cos(phi) - x1) / u, rho * math.sin(phi) / u
        return rho * math.exp(-(a * a - 2 * r * a * b + b * b) / den) / (2 * math.pi * u * u * math.sqrt(1 - r * r))

    # The phase outside, cut at its middle, where the ridge of a correlated density lies.
    def mean(f):
        inner = lambda phi: integrate.quad(lambda rho: f(rho, phi) * density(rho, phi), 0, x1 + 14 * u, epsabs=1e-13, epsrel=1e-11, limit=400,
                                           points=[abs(x1 * math.cos(phi))] if 0 < abs(x1 * math.cos(phi)) else None)[0]
        cuts = [-math.pi, -3 * math.pi / 4, -math.pi / 2, -0.3, 0, 0.3, math.pi / 4, math.pi / 2, math.pi]
        return sum(integrate.quad(inner, lo, hi, epsabs=1e-12, epsrel=1e-10, limit=400)[0] for lo, hi in zip(cuts, cuts[1:]))

    total = mean(lambda rho, phi: 1)
    assert abs(total - 1) < 1e-9, total
    y1, y2 = mean(lambda rho, phi: rho), mean(lambda rho, phi: phi)
    v1 = mean(lambda rho, phi: (rho - y1) ** 2)
    v2 = mean(lambda rho, phi: (phi - y2) ** 2)
    c = mean(lambda rho, phi: (rho - y1) * (phi - y2))
    return {"x1": x1, "correlation": r, "amplitude": [y1, math.sqrt(v1)], "phase": [y2, math.sqrt(v2)], "together": c / math.sqrt(v1 * v2)}


def square(r, p):
    """k of the region |Y1 - y1| <= k u(y1), |Y2 - y2| <= k u(y2) that holds p of a normal with this correlation: given one, the other is normal."""
    def holds(k):
        inner = lambda z: stats.norm.pdf(z) * (stats.norm.cdf((k - r * z) / math.sqrt(1 - r * r)) - stats.norm.cdf((-k - r * z) / math.sqrt(1 - r * r)))
        return integrate.quad(inner, -k, k, epsabs=1e-13, epsrel=1e-12)[0]
    return optimize.brentq(lambda k: holds(k) - p, 1.5, 3, xtol=1e-12)


V, I, phi = np.array([[5.007, 4.994, 5.005, 4.99, 4.999], [19.663, 19.639, 19.64, 19.685, 19.678], [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]])
I = I / 1000
v, i, f = V.mean(), I.mean(), phi.mean()
Z = v / i
J = np.array([[math.cos(f) / i, -Z * math.cos(f) / i, -Z * math.sin(f)], [math.sin(f) / i, -Z * math.sin(f) / i, Z * math.cos(f)]])
S = J @ (np.cov([V, I, phi]) / 5) @ J.T
print(json.dumps({
    "transformation": [moments(x1, r) for r in (0, 0.9) for x1 in (0.001, 0.01, 0.1)],
    "impedance": {"ellipse": math.sqrt(stats.chi2(2).ppf(0.95)), "square": square(S[0, 1] / math.sqrt(S[0, 0] * S[1, 1]), 0.95)},
}, indent=0))
