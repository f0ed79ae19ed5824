"""Reference values for formulas over quantities that err together: python3-uncertainties (Debian, 3.1.6), which differentiates by itself and keeps
correlations by the identity of its variables.

Each quantity is made of four independent variables by random factors, which gives its standard uncertainty and the coefficients of every two; a document
states only those. Every third case has only two variables behind three quantities: the coefficients' matrix is then singular, but for their last digit.
Run by hand: /usr/bin/python3 relatedCells.py > relatedCells.json
"""
import json
import math
import random

from uncertainties import covariance_matrix, ufloat, umath

random.seed(20260811)

FORMULAS = [
    ("a * b / c", lambda a, b, c: a * b / c),
    ("sqrt(a * b) - c", lambda a, b, c: umath.sqrt(a * b) - c),
    ("(a - b) / (a + c)", lambda a, b, c: (a - b) / (a + c)),
    ("a + b - 2 * c", lambda a, b, c: a + b - 2 * c),
]


def case(number):
    causes = [ufloat(0, 1) for _ in range(2 if number % 3 == 2 else 4)]
    means = [random.uniform(2, 20) for _ in range(3)]
    cells = [mean + sum(random.uniform(-0.01, 0.01) * mean * cause for cause in causes) for mean in means]
    covariance = covariance_matrix(cells)
    u = [math.sqrt(covariance[i][i]) for i in range(3)]
    results = [formula(*cells) for _, formula in FORMULAS]
    between = covariance_matrix(results)
    return {
        "cells": [{"value": mean, "standardUncertainty": doubt} for mean, doubt in zip(means, u)],
        "coefficients": [covariance[i][j] / (u[i] * u[j]) for i, j in [(0, 1), (0, 2), (1, 2)]],
        "results": [
            {"formula": text, "value": result.nominal_value, "standardUncertainty": result.std_dev}
            for (text, _), result in zip(FORMULAS, results)
        ],
        "correlations": [
            between[i][j] / (results[i].std_dev * results[j].std_dev) for i in range(len(results)) for j in range(i)
        ],
    }


print(json.dumps([case(number) for number in range(12)], indent=1))
