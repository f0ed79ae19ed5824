"""Reference values for cases that are easily got wrong (scipy): one rectangle over a small normal, and ten thousand equal sources.

Ten thousand exponentials are a gamma variable; ten thousand rectangles by adaptive quadrature of their characteristic function.
Run by hand: python3 hardCases.py > hardCases.json
"""
import json
import math

from scipy import integrate, optimize, stats


def rectangle_with_normal(z, half, sigma):
    """Closed form: the normal distribution function averaged over the rectangle."""
    g = lambda x: x * stats.norm.cdf(x) + stats.norm.pdf(x)
    return sigma * (g((z + half) / sigma) - g((z - half) / sigma)) / (2 * half)


def rectangles(z, count):
    """Sum of `count` rectangles of half-width sqrt(3/count), so that its variance is 1."""
    a = math.sqrt(3 / count)
    f = lambda s: math.exp(count * math.log(math.sin(a * s) / (a * s))) * math.sin(s * z) / s
    return 0.5 + integrate.quad(f, 1e-12, 10, epsabs=1e-14, epsrel=1e-13, limit=500)[0] / math.pi


n = 10_000
print(json.dumps({
    "dominantRectangle": {"halfWidth": 1, "standardDeviation": 0.01,
                          "quantile975": optimize.brentq(lambda z: rectangle_with_normal(z, 1, 0.01) - 0.975, 0, 2, xtol=1e-15),
                          "chances": [[z, rectangle_with_normal(z, 1, 0.01)] for z in (-1.02, -1, -0.5, 0, 0.99, 1.005)]},
    "tenThousandRectangles": [[z, rectangles(z, n)] for z in (-3, -1.96, -0.5, 0.5, 1, 2.5)],
    "tenThousandExponentials": [[z, float(stats.gamma(n).cdf(n + z * math.sqrt(n)))] for z in (-3, -1.96, -0.5, 0, 0.5, 1, 2.5)],
}, indent=1))
