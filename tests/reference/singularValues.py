"""Singular values that tests/base/matrix.test.ts holds, to 17 digits: Hilbert matrices (condition numbers up to 1.6e13), a
Vandermonde matrix, and a wide one. Run by hand: python3 singularValues.py
"""
from mpmath import matrix, mp, mpf, nstr, svd_r

mp.dps = 60


def values(rows):
    return [nstr(value, 17) for value in sorted(svd_r(matrix(rows), compute_uv=False), reverse=True)]


def hilbert(n):
    return [[mpf(1) / (i + j + 1) for j in range(n)] for i in range(n)]


if __name__ == "__main__":
    print("hilbert 4", values(hilbert(4)))
    print("hilbert 6", values(hilbert(6)))
    print("hilbert 10", values(hilbert(10)))
    print("vandermonde", values([[mpf(x) ** k for k in range(4)] for x in (1, 2, 3, 4, 5, 6)]))
    print("wide", values([[1, 2, 3, 4], [2, -1, 0, 5]]))
