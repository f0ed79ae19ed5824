"""Reference values for formulas over uncertain values: python3-uncertainties (Debian, 3.1.6), which differentiates by itself and keeps
correlations by the identity of its variables.

Each case is a cell (`t`) and a formula over the five inputs and that cell, so that doubts are shared within a formula and between cells.
Angles are plain radians; the texts are written in the formula language, and in Python beside it.
Run by hand: python3 formulas.py > formulas.json
"""
import json
import math
import random

from uncertainties import ufloat, umath

random.seed(20260730)

INPUTS = {"a": (12.5, 0.02), "b": (-3.2, 0.05), "c": (0.7, 0.01), "d": (101.25, 0.3), "e": (2.0, 0.004)}
CASES = 200
SUM, PRODUCT, NEGATION, POWER, ATOM = range(5)


def bracketed(part, needed):
    text, python, _ = part
    return (f"({text})", f"({python})") if needed else (text, python)


def leaf(names):
    if random.random() < 0.72:
        name = random.choice(names)
        return name, f"values['{name}']", ATOM
    number = f"{random.uniform(0.1, 9):.{random.randint(0, 3)}f}"
    number = number if float(number) > 0 else "1"
    return number, number, ATOM


def binary(sign, left, right):
    binds = SUM if sign in "+-" else PRODUCT
    a, a_python = bracketed(left, left[2] < binds)
    b, b_python = bracketed(right, right[2] < binds or (right[2] == binds and sign in "-/") or right[2] == NEGATION)
    return f"{a} {sign} {b}", f"{a_python} {sign} {b_python}", binds


def power(names, depth):
    if random.random() < 0.7:
        base, exponent = tree(names, depth - 1), random.choice(["2", "3", "4", "(-1)", "(-2)", "0", "1"])
        a, a_python = bracketed(base, base[2] <= POWER)
        return f"{a}^{exponent}", f"{a_python} ** {exponent}", POWER
    base, exponent = tree(names, depth - 1), leaf(names)
    return f"(abs({base[0]}) + 0.5)^({exponent[0]})", f"(abs({base[1]}) + 0.5) ** ({exponent[1]})", POWER


def call(names, depth):
    name = random.choice(["sqrt", "abs", "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "hypot", "min", "max", "mean", "sum", "estimate"])
    parts = [tree(names, depth - 1) for _ in range({"atan2": 2, "hypot": 2}.get(name, random.randint(2, 4) if name in ("min", "max", "mean", "sum") else 1))]
    texts, python = [part[0] for part in parts], [part[1] for part in parts]
    if name == "sqrt":
        texts, python = [f"{texts[0]} + 40"], [f"{python[0]} + 40"]
    if name in ("asin", "acos"):
        texts, python = [f"sin({texts[0]}) * 0.9"], [f"umath.sin({python[0]}) * 0.9"]
    arguments = ", ".join(python)
    as_python = {
        "abs": f"abs({arguments})",
        "min": f"min([{arguments}], key=nominal)",
        "max": f"max([{arguments}], key=nominal)",
        "mean": f"(sum([{arguments}]) / {len(parts)})",
        "sum": f"sum([{arguments}])",
        "estimate": f"nominal({arguments})",
    }.get(name, f"umath.{name}({arguments})")
    return f"{name}({', '.join(texts)})", as_python, ATOM


def tree(names, depth):
    kind = random.random()
    if depth == 0 or kind < 0.08:
        return leaf(names)
    if kind < 0.6:
        return binary(random.choice("++--**/"), tree(names, depth - 1), tree(names, depth - 1))
    if kind < 0.66:
        text, python = bracketed(part := tree(names, depth - 1), part[2] <= NEGATION)
        return f"-{text}", f"-{python}", NEGATION
    return power(names, depth) if kind < 0.76 else call(names, depth)


def nominal(value):
    return getattr(value, "nominal_value", value)


def evaluate(python, values):
    return eval(python, {"umath": umath, "values": values, "nominal": nominal, "abs": abs, "min": min, "max": max, "sum": sum})


def usable(value):
    deviation = getattr(value, "std_dev", 0.0)
    return math.isfinite(nominal(value)) and 1e-3 < abs(nominal(value)) < 1e5 and math.isfinite(deviation) and deviation < 1e4


def case():
    values = {name: ufloat(*entry) for name, entry in INPUTS.items()}
    cell, cell_python, _ = tree(list(INPUTS), 2)
    formula, formula_python, _ = tree([*INPUTS, "t", "t"], 4)
    if len(formula) > 160 or " t" not in f" {formula}":
        return None
    try:
        values["t"] = evaluate(cell_python, values)
        result = evaluate(formula_python, values)
        if not usable(values["t"]) or not usable(result) or not result.std_dev > 1e-6:
            return None
    except (ArithmeticError, ValueError, TypeError, AttributeError):
        return None
    return {"cell": cell, "formula": formula, "value": result.nominal_value, "standardUncertainty": result.std_dev}


cases = []
while len(cases) < CASES:
    found = case()
    if found:
        cases.append(found)
print(json.dumps({"inputs": INPUTS, "cases": cases}, indent=1))
