"""Ends of the 95 % intervals of the models of tests/bench/models.json, from many more trials than a run to the numerical tolerance needs: what
tests/bench/steady.bench.ts measures its answers against.

numpy's own generator (PCG64) and samplers; formulas as in tests/bench/numpyTrials.py. Values are counted in cells a five-thousandth of a standard
deviation wide, straight between their edges; the standard error of an end of a normal result is 2.7 / sqrt(trials) standard deviations.
Run by hand: python3 intervalEnds.py > intervalEnds.json   (some minutes)
"""
import json
import pathlib
import sys

import numpy as np

bench = pathlib.Path(__file__).parent.parent / "bench"
sys.path.insert(0, str(bench))
import numpyTrials

TRIALS = 20_000_000
BATCH = 500_000
PROBABILITY = 0.95
PER_DEVIATION = 5000
REACH = 12


def quantile(counts, first, width, probability):
    up_to = np.cumsum(counts)
    wanted = probability * TRIALS
    cell = int(np.searchsorted(up_to, wanted))
    before = up_to[cell - 1] if cell > 0 else 0
    return first + width * (cell + (wanted - before) / counts[cell])


def ends(model, seed):
    rng = np.random.default_rng(seed)
    steps = numpyTrials.compiled(model)
    pilot = numpyTrials.columns(model, steps, np.random.default_rng(seed + 1), BATCH)
    firsts = {name: column.mean() - REACH * column.std() for name, column in pilot.items()}
    widths = {name: column.std() / PER_DEVIATION for name, column in pilot.items()}
    cells = 2 * REACH * PER_DEVIATION
    counts = {name: np.zeros(cells, dtype=np.int64) for name in pilot}
    for _ in range(TRIALS // BATCH):
        for name, column in numpyTrials.columns(model, steps, rng, BATCH).items():
            at = np.clip(((column - firsts[name]) / widths[name]).astype(np.int64), 0, cells - 1)
            counts[name] += np.bincount(at, minlength=cells)
    outside = (1 - PROBABILITY) / 2
    return {name: [quantile(counts[name], firsts[name], widths[name], p) for p in (outside, 1 - outside)] for name in pilot}


descriptions = json.loads((bench / "models.json").read_text())
print(json.dumps({"trials": TRIALS, "probability": PROBABILITY, "models": {name: ends(descriptions[name], 31) for name in ("L", "N")}}))
