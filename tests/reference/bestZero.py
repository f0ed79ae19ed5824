"""Zeros that make the largest share of a tolerance smallest, by scipy's SLSQP in epigraph form from several starts, and splits of measured deviations by numpy's lstsq.

Run: python3 bestZero.py > bestZero.json
"""
import json
import numpy as np
from scipy.optimize import minimize

rng = np.random.default_rng(7)


def effects(place, axis):
    x, y = place
    return {"X": [1, 0, 0, -y], "Y": [0, 1, 0, x], "Z": [0, 0, 1, 0]}[axis]


def demand(name, kind, place):
    if kind == "zone":
        return {"id": name, "components": [{"deviation": round(rng.normal(0, 0.03), 4), "effects": effects(place, a)} for a in "XY"],
                "tolerance": {"zone": round(rng.uniform(0.05, 0.3), 3)}}
    lower, upper = -round(rng.uniform(0.01, 0.1), 3), round(rng.uniform(0.01, 0.1), 3)
    return {"id": name, "components": [{"deviation": round(rng.normal(0, 0.03), 4), "effects": effects(place, kind)}],
            "tolerance": {"lower": lower, "upper": upper}}


def share(d, p):
    t = d["tolerance"]
    middle, half = (0, t["zone"] / 2) if "zone" in t else ((t["lower"] + t["upper"]) / 2, (t["upper"] - t["lower"]) / 2)
    return np.hypot(*[c["deviation"] - middle + np.dot(c["effects"], p) for c in d["components"]]) / half if len(d["components"]) == 2 \
        else abs(d["components"][0]["deviation"] - middle + np.dot(d["components"][0]["effects"], p)) / half


def smallest(demands, turning):
    # SLSQP in units in which everything is about 1: shifts in 0.01 mm, the turn in 0.01 mm over 100 mm.
    unit = np.array([0.01, 0.01, 0.01, 0.0001])
    free = [0, 1, 2] + ([3] if turning else [])

    def whole(v):
        p = np.zeros(4)
        p[free] = v[:-1] * unit[free]
        return p

    best = None
    for start in range(6):
        v0 = np.append(rng.normal(0, 1 if start else 0, len(free)), 0)
        v0[-1] = max(share(d, whole(v0)) for d in demands) + 0.1
        r = minimize(lambda v: v[-1], v0, method="SLSQP", constraints=[{"type": "ineq", "fun": lambda v, d=d: v[-1] ** 2 - share(d, whole(v)) ** 2} for d in demands],
                     bounds=[(None, None)] * len(free) + [(0, None)], options={"maxiter": 2000, "ftol": 1e-15})
        value = max(share(d, whole(r.x)) for d in demands)
        if best is None or value < best:
            best = value
    return best


cases = []
for k in range(12):
    n = int(rng.integers(3, 9))
    demands = []
    for i in range(n):
        place = [round(rng.uniform(-150, 150), 1), round(rng.uniform(-80, 80), 1)]
        demands.append(demand(f"d{i}", rng.choice(["zone", "X", "Y", "Z"], p=[0.6, 0.15, 0.15, 0.1]), place))
    for turning in (False, True):
        cases.append({"demands": demands, "turning": turning, "largestShare": smallest(demands, turning)})

splits = []
for k in range(6):
    rows = []
    for i in range(8):
        place = [round(rng.uniform(-150, 150), 1), round(rng.uniform(-80, 80), 1)]
        for axis in "XY":
            rows.append({"part": "1", "feature": f"h{i}", "tool": ["drill", "mill"][i % 2], "place": place, "axis": axis, "deviation": round(rng.normal(0, 0.01), 5)})
    # shift X, shift Y, turn, scale, pull of the drill along X and Y (of the mill: the opposite)
    A = []
    for r in rows:
        x, y = r["place"]
        s = 1 if r["tool"] == "drill" else -1
        A.append([1, 0, -y, x, s, 0] if r["axis"] == "X" else [0, 1, x, y, 0, s])
    A = np.array(A)
    d = np.array([r["deviation"] for r in rows])
    p, res, rank, _ = np.linalg.lstsq(A, d, rcond=None)
    s2 = float(res[0]) / (len(d) - 6)
    splits.append({"deviations": rows, "estimates": p.tolist(), "residualStandardDeviation": s2 ** 0.5, "standardUncertainties": np.sqrt(np.diag(s2 * np.linalg.inv(A.T @ A))).tolist()})

print(json.dumps({"smallestLargestShare": cases, "splits": splits}, separators=(",", ":")))
