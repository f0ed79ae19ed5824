"""Trials of the models of models.json as one writes them in numpy: whole arrays, the generator's own laws, moments and a sort.

Answers requests, one JSON object a line: {"do": "trials" | "until steady", "model": description, "trials", "seed", "share"} -> {"ms", ...}.
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


def run_until_steady(model, most, seed, share=1, probability=0.95, digits=2):
    """JCGM 101:2008, 7.9.4: batches until twice the deviation of every average is below the tolerance, or a share of it."""
    steps = compiled(model)
    start = time.process_time()
    rng = np.random.default_rng(seed)
    batch = max(10_000, math.ceil(100 / (1 - probability)))
    ends = ((1 - probability) / 2, (1 + probability) / 2)
    # Sums over the batches of what each says, less what the first said, so that no digit is lost; by result.
    first = None
    sums = squares = variances = 0
    count = 0
    while True:
        said = []
        for column in columns(model, steps, rng, batch).values():
            ordered = np.sort(column)
            low, high = (ordered[min(batch - 1, math.ceil(p * batch) - 1)] for p in ends)
            said.append((column.mean(), column.std(ddof=1), low, high))
        said = np.array(said)
        first = said if first is None else first
        sums = sums + (said - first)
        squares = squares + (said - first) ** 2
        variances = variances + said[:, 1] ** 2 * (batch - 1) / batch
        count += 1
        if count > 1 and is_steady(sums, squares, variances, count, digits, share):
            break
        if (count + 1) * batch > most:
            break
    return {"ms": 1000 * (time.process_time() - start), "trials": count * batch}


def is_steady(sums, squares, variances, count, digits, share):
    between = (squares - sums**2 / count) / (count - 1)
    scatter = np.sqrt(between / count)
    deviations = np.sqrt(variances / count + between[:, 0] * (count - 1) / count)
    tolerances = np.array([tolerance_of(deviation, digits) for deviation in deviations])
    return bool((2 * scatter <= share * tolerances[:, None]).all())


if __name__ == "__main__":
    for line in sys.stdin:
        request = json.loads(line)
        model, trials, seed = request["model"], request["trials"], request["seed"]
        answer = run_trials(model, trials, seed) if request["do"] == "trials" else run_until_steady(model, trials, seed, request["share"])
        print(json.dumps(answer), flush=True)
