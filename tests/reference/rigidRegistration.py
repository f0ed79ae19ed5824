"""Reference values for lib/offsets/nests: rigid registration in the plane by scipy.

Rotation: scipy.spatial.transform.Rotation.align_vectors of the places about their middles (Kabsch's singular value decomposition).
Covariance: s² (JᵀJ)⁻¹ with the Jacobian that scipy.optimize.least_squares finds at the same solution by its own search.
Run by hand: python3 rigidRegistration.py > rigidRegistration.json
"""
import json

import numpy as np
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation
from scipy.stats import chi2

random = np.random.default_rng(6556)


def case(count, turn, scatter, with_rotation):
    nominal = np.round(random.uniform(-300, 300, (count, 2)), 3)
    nominal -= nominal[0]
    cosine, sine = np.cos(turn), np.sin(turn)
    found = nominal @ np.array([[cosine, sine], [-sine, cosine]]) + np.array([-412.607, 88.25]) + random.normal(0, scatter, (count, 2))
    p, q = nominal - nominal.mean(axis=0), found - found.mean(axis=0)
    if with_rotation:
        lift = lambda a: np.column_stack([a, np.zeros(len(a))])
        angle = Rotation.align_vectors(lift(q), lift(p))[0].as_rotvec()[2]
    else:
        angle = 0.0

    def residuals(x):
        c, s = np.cos(x[2]) if with_rotation else 1.0, np.sin(x[2]) if with_rotation else 0.0
        return (found - (nominal @ np.array([[c, s], [-s, c]]) + x[:2])).ravel()

    start = np.array([found[0, 0], found[0, 1], angle] if with_rotation else found[0])
    fit = least_squares(residuals, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    covariance = scatter**2 * np.linalg.inv(fit.jac.T @ fit.jac)
    value = float(np.sum(fit.fun**2) / scatter**2)
    freedom = 2 * count - (3 if with_rotation else 2)
    return {
        "rotation": with_rotation,
        "scatter": scatter,
        "nominal": nominal.tolist(),
        "found": found.tolist(),
        "angle": float(angle),
        "shift": fit.x[:2].tolist(),
        "residuals": fit.fun.reshape(-1, 2).tolist(),
        "covariance": covariance.tolist(),
        "chiSquare": value,
        "degreesOfFreedom": freedom,
        "upperTail": float(chi2.sf(value, freedom)),
    }


cases = [
    case(6, 0.0004, 0.004, True),
    case(6, 0.0004, 0.004, False),
    case(3, 0.9, 0.01, True),
    case(12, -2.5, 0.002, True),
    case(2, 0.001, 0.005, True),
]
print(json.dumps(cases, indent=1))
