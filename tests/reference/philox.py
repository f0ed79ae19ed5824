"""Philox4x32-10 by its definition (Salmon, Moraes, Dror, Shaw, Parallel random numbers: as easy as 1, 2, 3, SC 2011, section 3.3),
with Python's unbounded integers. Prints the words that tests/uncertainty/philox.test.ts holds. Run by hand: python3 philox.py
"""

MASK = 0xFFFFFFFF


def philox(counter, key):
    a, b, c, d = counter
    k0, k1 = key
    for _ in range(10):
        p0 = 0xD2511F53 * a
        p1 = 0xCD9E8D57 * c
        a, b, c, d = (p1 >> 32) ^ b ^ k0, p1 & MASK, (p0 >> 32) ^ d ^ k1, p0 & MASK
        k0 = (k0 + 0x9E3779B9) & MASK
        k1 = (k1 + 0xBB67AE85) & MASK
    return [f"{word:08x}" for word in (a, b, c, d)]


if __name__ == "__main__":
    pi = (0x243F6A88, 0x85A308D3, 0x13198A2E, 0x03707344), (0xA4093822, 0x299F31D0)
    for counter, key in [((0, 0, 0, 0), (0, 0)), ((MASK,) * 4, (MASK,) * 2), pi]:
        print(philox(counter, key))
