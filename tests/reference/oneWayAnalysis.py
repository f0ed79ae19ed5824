"""Reference values for lib/uncertainty/oneWayAnalysis: scipy.stats.f_oneway on groups of unequal size.

Run by hand: python3 oneWayAnalysis.py > oneWayAnalysis.json
"""
import json
from scipy import stats

cases = [
    [[412.607, 412.609], [412.611, 412.612, 412.6105], [412.606, 412.608, 412.607, 412.6095, 412.607]],
    [[1.0], [2.5, 2.25, 2.75], [1.5, 1.25]],
    [[10.0, 11.0, 12.5, 9.0], [10.5, 11.5, 12.0, 9.5]],
]
print(json.dumps([{"groups": groups, "ratio": float(f), "chance": float(p)} for groups in cases for f, p in [stats.f_oneway(*groups)]], indent=0))
