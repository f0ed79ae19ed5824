"""First words of xoshiro128** from the state 1, 2, 3, 5 (the last odd, as the library makes it): D. Blackman, S. Vigna, ACM Trans. Math. Softw. 47 (2021) 36, in Python's own integers.

Run by hand: python3 xoshiro.py   (the words stand in tests/uncertainty/trials/xoshiro.test.ts)
"""
MASK = 0xFFFFFFFF


def turned(x, k):
    return ((x << k) | (x >> (32 - k))) & MASK


state = [1, 2, 3, 5]
for _ in range(10):
    print((turned(state[1] * 5 & MASK, 7) * 9) & MASK)
    shifted = (state[1] << 9) & MASK
    state[2] ^= state[0]
    state[3] ^= state[1]
    state[1] ^= state[2]
    state[0] ^= state[3]
    state[2] ^= shifted
    state[3] = turned(state[3], 11)
