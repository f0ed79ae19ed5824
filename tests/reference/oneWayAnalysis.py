"""Reference values for lib/uncertainty/oneWayAnalysis: scipy.stats.f_oneway on groups of unequal size, and both means.

Run by hand: python3 oneWayAnalysis.py > oneWayAnalysis.json
"""
import json
import numpy as np
from scipy import stats

cases = [
    [[412.607, 412.609], [412.611, 412.612, 412.6105], [412.606, 412.608, 412.607, 412.6095, 412.607]],
    [[1.0], [2.5, 2.25, 2.75], [1.5, 1.25]],
    [[10.0, 11.0, 12.5, 9.0], [10.5, 11.5, 12.0, 9.5]],
]


def estimate(values):
    """Mean, standard uncertainty of the mean and degrees of freedom."""
    return {"mean": float(np.mean(values)), "u": float(stats.sem(values)), "degreesOfFreedom": len(values) - 1}


def analysed(groups):
    ratio, chance = stats.f_oneway(*groups)
    return {"groups": groups, "ratio": float(ratio), "chance": float(chance),
            "whenGroupsDiffer": estimate([np.mean(group) for group in groups]), "whenGroupsAgree": estimate(sum(groups, []))}


print(json.dumps([analysed(groups) for groups in cases], indent=0))
