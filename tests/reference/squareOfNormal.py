"""Quantiles of y = (1 + 0.1 z)^2 with z standard normal: 0.01 times a non-central chi-square with 1 degree of freedom and non-centrality 100."""
import json
import os
from scipy.stats import ncx2

chances = [0.001, 0.025, 0.25, 0.5, 0.75, 0.975, 0.999]
cases = [
    {
        "spread": spread,
        "mean": 1 + spread**2,
        "standardDeviation": (4 * spread**2 + 2 * spread**4) ** 0.5,
        "quantiles": [[p, float(ncx2(1, 1 / spread**2).ppf(p) * spread**2)] for p in chances],
    }
    for spread in [0.1, 0.02, 0.005]
]
with open(os.path.join(os.path.dirname(__file__), "squareOfNormal.json"), "w") as file:
    json.dump({"cases": cases}, file, indent=1)
    file.write("\n")
