"""Trials of the models of models.json as one writes them in numpy: whole arrays, the generator's own laws, moments and a sort.

Answers requests, one JSON object a line: {"do": "trials" | "until steady", "model": description, "trials", "seed"} -> {"ms", ...}.
Started by numpySide.ts with one thread. Times are of the processor, so that other programs on the machine count less.
"""
import json
import math
import sys
import time

import numpy as np

FUNCTIONS = {"sqrt": np.sqrt, "sin": np.sin, "cos": np.cos, "atan2": np.arctan2, "hypot": np.hypot}


def draw(rng, estimate, distribution, trials):
    shape = distribution["shape"]
    if shape == "normal":
        return rng.normal(estimate, distribution["standardDeviation"], trials)
    if shape == "scaledT":
        return estimate + distribution["scale"] * rng.standard_t(distribution["degreesOfFreedom"], trials)
    half = distribution["halfWidth"]
    if shape == "rectangular":
        return rng.uniform(estimate - half, estimate + half, trials)
    if shape == "triangular":
        return rng.triangular(estimate - half, estimate, estimate + half, trials)
    if shape == "arcsine":
        return estimate + half * np.sin(rng.uniform(-math.pi / 2, math.pi / 2, trials))
    raise ValueError(f"shape: expected one of the models' shapes, got {shape}")


def compiled(model):
    return [(name, compile(formula, name, "eval")) for name, formula in model["steps"]]


def columns(model, steps, rng, trials):
    """The results of all trials, as arrays."""
    values = {source["name"]: draw(rng, source["estimate"], source["distribution"], trials) for source in model["sources"]}
    for name, code in steps:
        values[name] = eval(code, FUNCTIONS, values)
    return {name: values[name] for name in model["results"]}


def summary(column):
    ordered = np.sort(column)
    n = len(ordered)
    at = lambda p: float(ordered[min(n - 1, max(0, math.ceil(p * n) - 1))])
    return {
        "mean": float(column.mean()),
        "standardDeviation": float(column.std(ddof=1)),
        "quantiles": {str(p): at(p) for p in (0.025, 0.5, 0.975, 0.99865)},
    }


def run_trials(model, trials, seed):
    steps = compiled(model)
    start = time.process_time()
    results = columns(model, steps, np.random.default_rng(seed), trials)
    found = {name: summary(column) for name, column in results.items()}
    return {"ms": 1000 * (time.process_time() - start), "results": found}


def tolerance_of(deviation, digits):
    """JCGM 101:2008, 7.9.2."""
    exponent = int(f"{deviation:.{digits - 1}e}".split("e")[1])
    return 0.5 * 10.0 ** (exponent - digits + 1)


def run_until_steady(model, most, seed, probability=0.95, digits=2):
    """JCGM 101:2008, 7.9.4: batches until twice the deviation of every average is below the tolerance."""
    steps = compiled(model)
    start = time.process_time()
    rng = np.random.default_rng(seed)
    batch = max(10_000, math.ceil(100 / (1 - probability)))
    ends = ((1 - probability) / 2, (1 + probability) / 2)
    kept = {name: [] for name in model["results"]}
    batches = {name: [] for name in model["results"]}
    done = 0
    while True:
        for name, column in columns(model, steps, rng, batch).items():
            ordered = np.sort(column)
            low, high = (ordered[min(batch - 1, math.ceil(p * batch) - 1)] for p in ends)
            batches[name].append((column.mean(), column.std(ddof=1), low, high))
            # Mean and sum of squares of all trials so far, for the tolerance.
            kept[name].append((column.mean(), column.var()))
        done += batch
        count = done // batch
        if count > 1 and all(is_steady(batches[name], kept[name], count, digits) for name in model["results"]):
            break
        if done + batch > most:
            break
    return {"ms": 1000 * (time.process_time() - start), "trials": done}


def is_steady(batches, kept, count, digits):
    means, variances = np.array(kept).T
    deviation = math.sqrt(variances.mean() + means.var())
    scatter = np.array(batches).std(axis=0, ddof=1) / math.sqrt(count)
    return bool((2 * scatter <= tolerance_of(deviation, digits)).all())


if __name__ == "__main__":
    for line in sys.stdin:
        request = json.loads(line)
        work = run_trials if request["do"] == "trials" else run_until_steady
        print(json.dumps(work(request["model"], request["trials"], request["seed"])), flush=True)
