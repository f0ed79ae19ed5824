"""Points of the Sobol sequence by scipy.stats.qmc, unscrambled: the first 64 of 64 dimensions, as 32-bit words."""
import json
import os
from scipy.stats import qmc

points = qmc.Sobol(64, scramble=False, bits=32).random(64)
words = [[int(x * 2**32) for x in row] for row in points]
with open(os.path.join(os.path.dirname(__file__), "sobol.json"), "w") as file:
    json.dump({"words": words}, file)
    file.write("\n")
