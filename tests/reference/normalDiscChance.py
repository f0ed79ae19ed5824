"""Reference chances for lib/uncertainty/normalDiscChance.ts: one adaptive quadrature in the principal frame with 30 digits (mpmath), with
break points at every standard deviation of either coordinate. Run by hand: python3 normalDiscChance.py > normalDiscChance.json
"""
import json
import math
import random
import mpmath as mp
from mpmath import mpf

mp.mp.dps = 30
random.seed(5)


def chance(mean, covariance, radius):
    xx, xy, yy = map(mpf, covariance)
    turn = mp.atan2(2 * xy, xx - yy) / 2
    d = (mp.cos(turn), mp.sin(turn))
    l1 = xx * d[0] ** 2 + 2 * xy * d[0] * d[1] + yy * d[1] ** 2
    s1, s2 = mp.sqrt(l1), mp.sqrt(xx + yy - l1)
    m1, m2 = mean[0] * d[0] + mean[1] * d[1], -mean[0] * d[1] + mean[1] * d[0]
    r = mpf(radius)

    def f(angle):
        y, w = r * mp.sin(angle), r * mp.cos(angle)
        return mp.npdf(y, m2, s2) * (mp.ncdf((w - m1) / s1) - mp.ncdf((-w - m1) / s1)) * w

    points = [-mp.pi / 2, mp.pi / 2]
    for k in range(-10, 11):
        v = (m2 + k * s2) / r
        if abs(v) < 1:
            points.append(mp.asin(v))
        for m in (m1, -m1):
            v = (m + k * s1) / r
            if 0 < v < 1:
                points += [mp.acos(v), -mp.acos(v)]
    return float(mp.quad(f, sorted(points)))


out = []
for _ in range(90):
    width, angle = 10 ** -random.uniform(0, 2.5), random.uniform(0, math.pi)
    c, s = math.cos(angle), math.sin(angle)
    covariance = [c * c + width ** 2 * s * s, (1 - width ** 2) * c * s, s * s + width ** 2 * c * c]
    distance = random.choice([0, 0.3, 1, 3, 5, 10, 100, 1000])
    bearing = random.choice([random.uniform(0, 6.28), angle, angle + math.pi / 2])
    mean = [distance * math.cos(bearing), distance * math.sin(bearing)]
    radius = max(0.01, distance + random.uniform(-3, 4) * random.choice([1, 1, 0.1]))
    out.append({"mean": mean, "covariance": covariance, "radius": radius, "chance": chance(mean, covariance, radius)})
print(json.dumps(out, indent=1))
