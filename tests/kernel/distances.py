"""Random rods and boxes and their distance by the CAD kernel, one pair a line: the table that tests/it/distance.rs reads.

    python tests/kernel/distances.py > tests/golden/distances.tsv

A rod is `r`, a point, a direction, its length, two radii. A box is `b`, a corner, two directions square to each other,
three lengths. Then the distance.
"""
import random

import numpy as np
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

COUNT = 240


def unit(chance):
    v = np.array([chance.gauss(0, 1) for _ in range(3)])
    return v / np.linalg.norm(v)


def frame(chance):
    """A direction and one square to it; often along the axes, where bodies lie flat to each other."""
    if chance.random() < 0.3:
        return random.Random(chance.random()).choice(
            [(np.eye(3)[i], np.eye(3)[(i + 1) % 3]) for i in range(3)])
    z = unit(chance)
    x = np.cross(z, unit(chance))
    return z, x / np.linalg.norm(x)


def ax2(p, z, x):
    return gp_Ax2(gp_Pnt(*map(float, p)), gp_Dir(*map(float, z)), gp_Dir(*map(float, x)))


def rod(chance, spread):
    p = [chance.uniform(-spread, spread) for _ in range(3)]
    z, x = frame(chance)
    length = chance.uniform(5, 200)
    a = chance.uniform(3, 45)
    b = a if chance.random() < 0.6 else chance.uniform(3, 45)
    if a == b:
        shape = BRepPrimAPI_MakeCylinder(ax2(p, z, x), a, length).Shape()
    else:
        shape = BRepPrimAPI_MakeCone(ax2(p, z, x), a, b, length).Shape()
    return ["r", *p, *z, length, a, b], shape


def box(chance, spread):
    p = [chance.uniform(-spread, spread) for _ in range(3)]
    z, x = frame(chance)
    sizes = [chance.uniform(5, 150) for _ in range(3)]
    return ["b", *p, *z, *x, *sizes], BRepPrimAPI_MakeBox(ax2(p, z, x), *sizes).Shape()


def main():
    chance = random.Random(20)
    made = 0
    while made < COUNT:
        spread = chance.choice([60, 150, 300])
        kinds = [chance.choice([rod, box]) for _ in range(2)]
        (one, a), (other, b) = (kind(chance, spread) for kind in kinds)
        extrema = BRepExtrema_DistShapeShape(a, b)
        extrema.Perform()
        if not extrema.IsDone():
            continue
        words = [word if isinstance(word, str) else repr(float(word)) for word in (*one, *other, extrema.Value())]
        print("\t".join(words))
        made += 1


if __name__ == "__main__":
    main()
