"""Reference values for lib/decision: conformance probabilities, acceptance limits and global risks (JCGM 106:2012), with scipy.

Conformance probabilities come from scipy's distribution functions, acceptance limits from brentq on them. Global risks are true double
integrals: the density of the process times the density of the measuring error, integrated over both by adaptive Gauss-Kronrod quadrature
with the break points named, so that no distribution function of the error enters as it does in the library.
Run by hand: python3 conformity.py > conformity.json   (about ten seconds)
"""
import json
import math

from scipy import stats
from scipy.integrate import quad
from scipy.optimize import brentq

def law(shape, mean, *a):
    """A frozen scipy distribution and the places where its density is not smooth."""
    if shape == "normal":
        return stats.norm(mean, a[0]), [mean]
    if shape == "rectangular":
        return stats.uniform(mean - a[0], 2 * a[0]), [mean - a[0], mean + a[0]]
    if shape == "triangular":
        return stats.triang(0.5, mean - a[0], 2 * a[0]), [mean - a[0], mean, mean + a[0]]
    if shape == "trapezoidal":
        h, b = a
        return stats.trapezoid((1 - b) / 2, (1 + b) / 2, mean - h, 2 * h), [mean - h, mean - h * b, mean + h * b, mean + h]
    if shape == "arcsine":
        return stats.arcsine(mean - a[0], 2 * a[0]), [mean - a[0], mean + a[0]]
    if shape == "scaledT":
        return stats.t(a[1], mean, a[0]), [mean]
    raise ValueError(shape)


def density(shape, mean, *a):
    """The density by its own formula (JCGM 101:2008, 6.4): scipy's takes a hundred times as long, and is compared with below."""
    if shape == "normal":
        return lambda x: math.exp(-0.5 * ((x - mean) / a[0]) ** 2) / (a[0] * math.sqrt(2 * math.pi))
    if shape == "scaledT":
        scale, nu = a
        peak = math.gamma((nu + 1) / 2) / (math.gamma(nu / 2) * math.sqrt(nu * math.pi) * scale)
        return lambda x: peak * (1 + ((x - mean) / scale) ** 2 / nu) ** (-(nu + 1) / 2)
    if shape == "arcsine":
        return lambda x: 1 / (math.pi * math.sqrt((a[0] - x + mean) * (a[0] + x - mean))) if abs(x - mean) < a[0] else 0.0
    h = a[0]
    if shape == "rectangular":
        return lambda x: 0.5 / h if abs(x - mean) <= h else 0.0
    b = a[1] if shape == "trapezoidal" else 0.0
    return lambda x: max(0.0, min(1.0, (h - abs(x - mean)) / (h - b * h))) / (h * (1 + b))


def checked_density(shape, mean, *a):
    d, _ = law(shape, mean, *a)
    f = density(shape, mean, *a)
    for z in (-0.93, -0.41, 0.07, 0.66, 0.98):
        x = mean + z * a[0]
        assert abs(f(x) - float(d.pdf(x))) < 1e-12 * (1 + f(x)), (shape, a, z)
    return f


def described(shape, mean, *a):
    keys = {
        "normal": ["standardDeviation"],
        "scaledT": ["scale", "degreesOfFreedom"],
        "trapezoidal": ["halfWidth", "topRatio"],
    }.get(shape, ["halfWidth"])
    return {"mean": mean, "distribution": {"shape": shape, **dict(zip(keys, a))}}


def plain(value):
    return None if math.isinf(value) else value


def limits(low, high):
    return {"lower": plain(low), "upper": plain(high)}


def probability_case(name, knowledge, low, high):
    d, _ = law(*knowledge)
    below, above = d.cdf(low), d.sf(high)
    # The smaller way round keeps the digits.
    return {"name": name, "knowledge": described(*knowledge), "limits": limits(low, high), "below": below, "above": above, "probability": d.cdf(high) - d.cdf(low)}


def acceptance_case(name, knowledge, low, high, p):
    """Ends of the measured values y with F(high - y) - F(low - y) = p, F of the error; brentq from the middle outwards."""
    d, _ = law(knowledge[0], 0.0, *knowledge[2:])

    def excess(y):
        return d.cdf(high - y) - d.cdf(low - y) - p

    spread = 1000 * knowledge[2]
    middle = (low + high) / 2 if math.isfinite(low) and math.isfinite(high) else (low + spread if math.isfinite(low) else high - spread)
    assert excess(middle) > 0, name
    left = -math.inf if math.isinf(low) else brentq(excess, low - spread, middle, xtol=1e-15, rtol=1e-14)
    right = math.inf if math.isinf(high) else brentq(excess, middle, high + spread, xtol=1e-15, rtol=1e-14)
    return {"name": name, "knowledge": described(*knowledge), "limits": limits(low, high), "probability": p, "accepted": limits(left, right)}


def pieces(f, low, high, points):
    """quad over every piece between the points, so that each is smooth inside."""
    inside = sorted({p for p in points if low < p < high})
    ends = [low, *inside, high]
    return sum(quad(f, a, b, epsabs=1e-12, epsrel=1e-10, limit=200)[0] for a, b in zip(ends, ends[1:]))


def spread_points(d, knots):
    return [*knots, *[float(d.ppf(p)) for p in (1e-13, 1e-9, 1e-4, 0.1, 0.9, 1 - 1e-4, 1 - 1e-9, 1 - 1e-13)]]


def risk_case(name, process, measuring, tolerance, acceptance):
    d0, k0 = law(*process)
    dm, km = law(*measuring)
    lo0, hi0 = d0.support()
    lom, him = dm.support()
    f0, fm = checked_density(*process), checked_density(*measuring)
    tl, tu = tolerance
    al, au = acceptance
    inner_points = spread_points(dm, km)

    def inner(low, high):
        low, high = max(low, lom), min(high, him)
        return pieces(fm, low, high, inner_points) if low < high else 0.0

    def accepted(x):
        return inner(al - x, au - x)

    def rejected(x):
        return inner(-math.inf, al - x) + inner(au - x, math.inf)

    outer_points = [*spread_points(d0, k0), *[a - e for a in acceptance if math.isfinite(a) for e in inner_points], *tolerance]

    def outer(f, low, high):
        low, high = max(low, lo0), min(high, hi0)
        if not low < high:
            return 0.0
        return pieces(lambda x: f0(x) * f(x), low, high, outer_points)

    out = {
        "consumersRisk": outer(accepted, -math.inf, tl) + outer(accepted, tu, math.inf),
        "producersRisk": outer(rejected, tl, tu),
        "conformingAccepted": outer(accepted, tl, tu),
        "nonconformingRejected": outer(rejected, -math.inf, tl) + outer(rejected, tu, math.inf),
    }
    assert abs(sum(out.values()) - 1) < 1e-9, (name, sum(out.values()))
    return {"name": name, "process": described(*process), "measuring": described(*measuring), "tolerance": limits(*tolerance), "acceptance": limits(*acceptance), **out}


inf = math.inf
probabilities = [
    probability_case("normal, two limits", ("normal", 0.013, 0.02), -0.05, 0.05),
    probability_case("normal, value at the upper limit", ("normal", 0.05, 0.02), -0.05, 0.05),
    probability_case("normal, lower limit only", ("normal", 509.7, 8.6), 490, inf),
    probability_case("normal, upper limit only, far outside", ("normal", 1.0, 0.1), -inf, 0.5),
    probability_case("rectangular across a limit", ("rectangular", 0.04, 0.03), -0.05, 0.05),
    probability_case("rectangular wider than the tolerance", ("rectangular", 0.01, 0.2), -0.05, 0.05),
    probability_case("t of two degrees of freedom", ("scaledT", 0.02, 0.015, 2), -0.05, 0.05),
    probability_case("t of four and a half degrees of freedom, one limit", ("scaledT", 0.02, 0.015, 4.5), -inf, 0.05),
    probability_case("triangular", ("triangular", -0.04, 0.03), -0.05, 0.05),
    probability_case("trapezoidal", ("trapezoidal", 0.04, 0.03, 0.4), -0.05, 0.05),
    probability_case("arcsine across both limits", ("arcsine", 0.0, 0.06), -0.05, 0.05),
]
acceptances = [
    acceptance_case("normal, two distant limits", ("normal", 0.0, 0.01), -0.05, 0.05, 0.95),
    acceptance_case("normal, two near limits", ("normal", 0.01, 0.02), -0.05, 0.05, 0.95),
    acceptance_case("normal, lower limit only", ("normal", 3.0, 0.02), 1.0, inf, 0.99),
    acceptance_case("rectangular", ("rectangular", 0.0, 0.02), -0.05, 0.05, 0.95),
    acceptance_case("triangular", ("triangular", 0.0, 0.03), -0.05, 0.04, 0.9),
    acceptance_case("trapezoidal", ("trapezoidal", 0.0, 0.03, 0.4), -0.05, 0.04, 0.98),
    acceptance_case("t of two degrees of freedom", ("scaledT", 0.0, 0.004, 2), -0.05, 0.05, 0.95),
    acceptance_case("t of five degrees of freedom, near limits", ("scaledT", 0.0, 0.02, 5), -0.05, 0.06, 0.9),
    acceptance_case("t of three degrees of freedom, upper limit only", ("scaledT", 0.0, 0.02, 3), -inf, 0.06, 0.999),
    acceptance_case("arcsine", ("arcsine", 0.0, 0.02), -0.05, 0.05, 0.95),
]
risks = [
    risk_case("resistors, no guard band", ("normal", 1500, 0.12), ("normal", 0, 0.04), (1499.8, 1500.2), (1499.8, 1500.2)),
    risk_case("resistors, guard bands of 0.02", ("normal", 1500, 0.12), ("normal", 0, 0.04), (1499.8, 1500.2), (1499.82, 1500.18)),
    risk_case("normal process off the middle, one limit", ("normal", 0.6, 0.3), ("normal", 0, 0.1), (-inf, 1.0), (-inf, 0.9)),
    risk_case("normal, measured far better than it is made", ("normal", 0.1, 1.0), ("normal", 0, 0.001), (-1, 2), (-1, 2)),
    risk_case("normal, measured far worse than it is made", ("normal", 0.1, 0.01), ("normal", 0, 1.0), (0.08, 0.12), (-1, 1)),
    risk_case("normal with a bias of the measurement", ("normal", 0, 0.5), ("normal", 0.07, 0.1), (-1, 1), (-0.9, 0.95)),
    risk_case("normal, lower limit, acceptance beyond it", ("normal", 2, 0.5), ("normal", 0, 0.2), (1, inf), (0.7, inf)),
    risk_case("rectangular process, normal error", ("rectangular", 0, 1.2), ("normal", 0, 0.1), (-1, 1), (-0.9, 0.9)),
    risk_case("normal process, rectangular error", ("normal", 0.2, 0.5), ("rectangular", 0, 0.2), (-1, 1), (-1, 0.95)),
    risk_case("rectangular both", ("rectangular", 0.1, 1.1), ("rectangular", 0, 0.15), (-1, 1), (-0.95, 0.95)),
    risk_case("normal process, t of three", ("normal", 0, 0.5), ("scaledT", 0, 0.1, 3), (-1, 1), (-0.8, 0.8)),
    risk_case("t of four process, normal error", ("scaledT", 0.1, 0.4, 4), ("normal", 0, 0.1), (-1, 1), (-0.9, 0.9)),
    risk_case("t of five process, t of two error, one limit", ("scaledT", 0.1, 0.4, 5), ("scaledT", 0, 0.05, 2), (-inf, 1), (-inf, 0.9)),
    risk_case("triangular process, arcsine error", ("triangular", 0, 1.3), ("arcsine", 0, 0.1), (-1, 1), (-1, 1)),
    risk_case("trapezoidal process, triangular error", ("trapezoidal", 0.05, 1.3, 0.4), ("triangular", 0, 0.2), (-1, 1), (-0.9, 0.9)),
    risk_case("arcsine process, normal error", ("arcsine", 0, 1.1), ("normal", 0, 0.1), (-1, 1), (-1, 1)),
]
print(json.dumps({"probabilities": probabilities, "acceptances": acceptances, "risks": risks}, indent=1))
