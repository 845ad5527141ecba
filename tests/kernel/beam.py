"""Stepped cantilevers bent by a force, by finite elements: the table that tests/it/stiffness.rs reads.

    python tests/kernel/beam.py > tests/golden/beam.tsv

A line: modulus, how far the force acts beyond the last segment, how far the force's place gives way per newton, then
length and diameter of each segment from the clamped end outwards. Beam elements with two nodes (Euler and Bernoulli);
the body beyond the last segment is rigid.
"""
import random

import numpy as np

ELEMENTS = 5


def give(segments, beyond, modulus):
    lengths, stiff = [], []
    for length, diameter in segments:
        lengths += [length / ELEMENTS] * ELEMENTS
        stiff += [modulus * np.pi * diameter ** 4 / 64] * ELEMENTS
    size = 2 * (len(lengths) + 1)
    system = np.zeros((size, size))
    for i, (h, ei) in enumerate(zip(lengths, stiff)):
        element = ei / h ** 3 * np.array([
            [12, 6 * h, -12, 6 * h],
            [6 * h, 4 * h * h, -6 * h, 2 * h * h],
            [-12, -6 * h, 12, -6 * h],
            [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
        system[2 * i:2 * i + 4, 2 * i:2 * i + 4] += element
    load = np.zeros(size)
    load[-2], load[-1] = 1.0, beyond
    moved = np.linalg.solve(system[2:, 2:], load[2:])
    return moved[-2] + moved[-1] * beyond


def main():
    chance = random.Random(4)
    for _ in range(40):
        segments = [(chance.uniform(5, 200), chance.uniform(6, 40)) for _ in range(chance.randint(1, 4))]
        beyond = chance.choice([0.0, chance.uniform(5, 60)])
        modulus = chance.choice([200e3, 205e3, 210e3, 600e3])
        row = [modulus, beyond, give(segments, beyond, modulus), *(x for segment in segments for x in segment)]
        print("\t".join(repr(float(x)) for x in row))


if __name__ == "__main__":
    main()
