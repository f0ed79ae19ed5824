"""Generalised least squares for tests/uncertainty/conditioned.test.ts, by numpy alone.

Each case: equations A x = b with errors of b that have the covariance E E' (E: equation x source, every source of standard uncertainty 1).
The best linear unbiased estimate and its covariance come from the bordered system of constrained minimisation

    [ C  A ] [L]   [0]
    [ A' 0 ] [M] = [I]

with x = L' b and covariance L' C L (C. R. Rao, Linear Statistical Inference and Its Applications, 2nd ed. (1973), 4i), solved by numpy's lstsq, so
that a singular C is no special case. Where C can be inverted, (A' C^-1 A)^-1 A' C^-1 b is checked to be the same.

    python3 generalisedLeastSquares.py > generalisedLeastSquares.json
"""

import json

import numpy as np

random = np.random.default_rng(20261126)


def bordered(design, covariance, observed):
    equations, unknowns = design.shape
    system = np.block([[covariance, design], [design.T, np.zeros((unknowns, unknowns))]])
    wanted = np.vstack([np.zeros((equations, unknowns)), np.eye(unknowns)])
    weights = np.linalg.lstsq(system, wanted, rcond=1e-12)[0][:equations]
    return weights.T @ observed, weights.T @ covariance @ weights


def case(name, design, effects, observed):
    covariance = effects @ effects.T
    estimate, spread = bordered(design, covariance, observed)
    if np.linalg.matrix_rank(covariance) == len(observed):
        inverse = np.linalg.inv(covariance)
        normal = np.linalg.inv(design.T @ inverse @ design)
        assert np.allclose(normal, spread, rtol=1e-8)
        assert np.allclose(normal @ design.T @ inverse @ observed, estimate, rtol=1e-8)
    return {
        "name": name,
        "design": design.tolist(),
        "effects": effects.tolist(),
        "observed": observed.tolist(),
        "estimate": estimate.tolist(),
        "covariance": spread.tolist(),
    }


def consistent(design, effects):
    """What errors of the given effects can do: a singular covariance allows no other."""
    return design @ random.normal(size=design.shape[1]) * 10 + effects @ random.normal(size=effects.shape[1])


cases = []
for equations, unknowns in [(2, 1), (3, 1), (5, 2), (8, 3), (12, 4)]:
    design = random.normal(size=(equations, unknowns))
    scatter = np.diag(random.uniform(0.5, 4, equations)) * 0.003
    shared = random.normal(size=(equations, 2)) * 0.004
    effects = np.hstack([scatter, shared])
    cases.append(case(f"{equations} equations, {unknowns} unknowns, two shared sources", design, effects, consistent(design, effects)))
    few = random.normal(size=(equations, equations - 1)) * 0.004
    cases.append(case(f"{equations} equations, {unknowns} unknowns, singular", design, few, consistent(design, few)))

# An edge touched with two tools: three times with one, twice with the other; scatter of each, and each tool's own radius.
design = np.ones((5, 1))
effects = np.zeros((5, 7))
for i, scatter in enumerate([0.002, 0.002, 0.002, 0.006, 0.006]):
    effects[i, i] = scatter
effects[:3, 5] = 0.008
effects[3:, 6] = 0.001
cases.append(case("an edge by two tools", design, effects, np.array([0.0031, -0.0012, 0.0024, 0.0102, -0.0057])))

# A bore whose circle is found by eight touches, the late ones of a worn tip: rows [cos t, sin t, 1].
angles = 2 * np.pi * np.arange(8) / 8
design = np.column_stack([np.cos(angles), np.sin(angles), np.ones(8)])
effects = np.hstack([np.diag([0.001] * 4 + [0.004] * 4), np.array([[0.0] * 4 + [0.003] * 4]).T])
cases.append(case("a bore by eight touches, half of them worse and with a doubt of their own", design, effects, consistent(design, effects)))

print(json.dumps({"cases": cases}, indent=1))
