"""What 1e6 numpy trials say of the models of tests/bench/models.json: moments and quantiles, for tests/bench/models.test.ts.

numpy's own generator (PCG64) and samplers; formulas as in tests/bench/numpyTrials.py, which the benchmarks run.
Run by hand: python3 trialModels.py > trialModels.json   (about a minute)
"""
import json
import pathlib
import sys

import numpy as np

bench = pathlib.Path(__file__).parent.parent / "bench"
sys.path.insert(0, str(bench))
import numpyTrials

TRIALS = 1_000_000
PROBABILITIES = (0.00135, 0.025, 0.25, 0.5, 0.75, 0.975, 0.99865)


def enlarged(model, names, factor):
    def source(each):
        if each["name"] not in names:
            return each
        return {**each, "distribution": {**each["distribution"], "scale": each["distribution"]["scale"] * factor}}

    return {**model, "sources": [source(each) for each in model["sources"]]}


def told(column):
    ordered = np.sort(column)
    deviation = column.std(ddof=1)
    return {
        "mean": column.mean(),
        "standardDeviation": deviation,
        # Fourth standardised moment: what the standard deviation's own scatter depends on.
        "kurtosis": (((column - column.mean()) / deviation) ** 4).mean(),
        "quantiles": [[p, ordered[int(np.ceil(p * TRIALS)) - 1]] for p in PROBABILITIES],
    }


descriptions = json.loads((bench / "models.json").read_text())
n2 = descriptions["N2"]
models = {"L": descriptions["L"], "N": descriptions["N"], "N2": enlarged(descriptions[n2["like"]], n2["enlarged"], n2["factor"])}
found = {}
for number, (name, model) in enumerate(models.items()):
    columns = numpyTrials.columns(model, numpyTrials.compiled(model), np.random.default_rng(20 + number), TRIALS)
    found[name] = {result: told(column) for result, column in columns.items()}
print(json.dumps({"trials": TRIALS, "models": found}))
