"""Factors of coverage regions that the tests hold, by scipy: quantiles of chi-square and F, and the probability of a square
under the bivariate normal by adaptive quadrature over one variable; and, by trials (numpy), what an ellipse holds of sources that are not normal.
Run by hand: python3 coverageRegions.py > coverageRegions.json
"""
import json
from math import sqrt

import numpy as np
from scipy.integrate import quad
from scipy.linalg import eigh
from scipy.optimize import brentq
from scipy.stats import chi2, f, norm

OPTIONS = dict(epsabs=1e-14, epsrel=1e-13, limit=400)


def square(k, r):
    """Chance that two standard normals with correlation r are both within ±k."""
    if abs(r) == 1:
        return 1 - 2 * norm.sf(k)
    s = sqrt(1 - r * r)
    places = sorted({p for p in [-k / r if r else 0, k / r if r else 0, 0] if -k < p < k})
    return quad(lambda z: norm.pdf(z) * (norm.cdf((k - r * z) / s) - norm.cdf((-k - r * z) / s)), -k, k, points=places or None, **OPTIONS)[0]


def square_factor(p, r):
    return brentq(lambda k: square(k, r) - p, 1e-3, 10, xtol=1e-13, rtol=1e-13)


def ellipse(covariance, p):
    values, vectors = eigh(np.array(covariance))
    k = sqrt(chi2.ppf(p, len(covariance)))
    halves = k * np.sqrt(values[::-1])
    return {"covariance": covariance, "probability": p, "factor": k, "halfAxes": halves.tolist(),
            "longest": vectors[:, -1].tolist()}


def zero_of_left_face(n=4_000_000):
    """By trials (seed 1): the sources of X and Y by the left face of tests/documents/pinBlock.json, micrometres. The covariance counts a t by its
    scale, as the Guide does."""
    rng = np.random.default_rng(1)
    common = rng.normal(0, 1, n) + rng.uniform(-2, 2, n)
    x = common + rng.uniform(-2, 2, n) + rng.uniform(-2, 2, n) + sqrt(10 / 12) * rng.standard_t(3, n)
    y = common + rng.uniform(-2, 2, n) + rng.uniform(-2, 2, n) + sqrt(1 / 3) * rng.standard_t(2, n)
    p = 0.9544997361036416
    inverse = np.linalg.inv([[10 / 12 + 1 + 4, 1 + 4 / 3], [1 + 4 / 3, 1 / 3 + 1 + 4]])
    points = np.stack([x, y])
    chance = float((np.einsum("in,ij,jn->n", points, inverse, points) <= chi2.ppf(p, 2)).mean())
    return {"probability": p, "chance": chance, "standardError": sqrt(chance * (1 - chance) / n)}


PROBABILITIES = [0.5, 0.6826894921370859, 0.9, 0.95, 0.9544997361036416, 0.99, 0.9973]
print(json.dumps({
    "zeroOfLeftFace": zero_of_left_face(),
    "squares": [{"probability": p, "correlation": r, "factor": square_factor(p, r)}
                for p in PROBABILITIES for r in (-1, -0.999, -0.6, 0, 0.3, 0.5, 0.9, 0.99, 0.99999, 1)],
    "estimated": [{"probability": p, "dimension": m, "degreesOfFreedom": nu, "factor": sqrt(m * f.ppf(p, m, nu))}
                  for p in PROBABILITIES for m in (1, 2, 3) for nu in (1, 3, 9.5, 60)],
    "ellipses": [ellipse(c, p) for p in (0.5, 0.95) for c in (
        [[4, 1], [1, 9]], [[1, -0.999], [-0.999, 1]], [[2e-6, 3e-7], [3e-7, 1e-7]],
        [[4, 1, 0.5], [1, 3, -1], [0.5, -1, 2]], [[5, 1, 2, 0], [1, 4, 0, 1], [2, 0, 6, -1], [0, 1, -1, 3]])],
}, indent=1))
