"""Bent chainstays for the comparison, drawn at random, and what stands beside them, by the words of the README."""
import math
import random

import numpy as np
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeTorus
from OCP.gp import gp_Ax2, gp_Dir

from bent_tube import Lie
from jobs import between
from solids import pnt

COUNT, DRAWS = 200, 8
RING_THICK = 4.0
RUN_OUT, BEAD, SPACING = 0.8, 622.0, 142.0
# Crank arm and heel sweep discs outwards without end.
ENDLESS = 200.0
# Which tubes taper and which have ovals, by the place in the list; each third has one, two or three bends.
KINDS = (("tapered",), ("oval",), ("tapered", "oval"), ("tapered", "two ovals"), ())


def kinds(index):
    return KINDS[index // 3 % len(KINDS)]


def bends(rng, count):
    return [{"before_mm": between(rng, 30, 90), "rotation_deg": between(rng, -180, 180),
             "angle_deg": between(rng, 2, 14), "radius_mm": between(rng, 80, 260, 1)} for _ in range(count)]


def oval(rng, from_mm, od):
    """An oval of about as much metal round it as the tube."""
    narrow = between(rng, 0.62, 0.92) * od
    sizes = [round(narrow, 2), round(2 * od - narrow, 2)]
    rng.shuffle(sizes)
    return {"from_mm": from_mm, "to_mm": round(from_mm + rng.uniform(20, 70), 2), "blend_mm": between(rng, 2, 40),
            "width_mm": sizes[0], "height_mm": sizes[1], "roll_deg": between(rng, -180, 180)}


def tube(rng, index):
    front = between(rng, 16, 24)
    made = {"od_front_mm": front, "od_rear_mm": front, "length_mm": 700, "front_trim_mm": between(rng, 0, 20),
            "bends": bends(rng, 1 + index % 3), "roll_deg": between(rng, -180, 180)}
    if "tapered" in kinds(index):
        start = between(rng, 40, 180)
        made.update(od_rear_mm=between(rng, 11, front - 3), taper_start_mm=start,
                    taper_end_mm=round(start + rng.uniform(100, 220), 2))
    if "oval" in kinds(index):
        made["ovals"] = [oval(rng, between(rng, -40, 200), front)]
    if "two ovals" in kinds(index):
        made["ovals"] = [oval(rng, between(rng, -40, 60), front), oval(rng, between(rng, 220, 290), made["od_rear_mm"])]
    if index % 2:
        made["butts"] = [{"at_mm": between(rng, 50, 120), "wall_mm": 0.9}, {"at_mm": between(rng, 130, 180), "wall_mm": 0.6},
                         {"at_mm": between(rng, 300, 380), "wall_mm": 0.6}, {"at_mm": between(rng, 390, 440), "wall_mm": 0.8}]
    return made


def drawn(rng, index):
    side = {"front": {"half_spacing_mm": between(rng, 26, 38), "end": {"kind": "square"}},
            "rear": {"half_spacing_mm": between(rng, 64, 78), "reach_mm": 32, "end": {"kind": "square"}},
            "tube": tube(rng, index)}
    tyre = between(rng, 28, 45)
    return {"format": 1, "name": f"bent {index}",
            "frame": {"chainstay_length_mm": between(rng, 405, 460, 1), "bb_drop_mm": between(rng, 40, 85, 1),
                      "axle_spacing_mm": SPACING},
            "wheel": {"bead_seat_mm": BEAD, "tyre_width_mm": tyre, "tyre_height_mm": tyre},
            "chainstays": {"right": side},
            "surroundings": {"chainrings": [{"teeth": rng.choice([28, 34, 40]), "chainline_mm": between(rng, 45, 60),
                                             "thickness_mm": RING_THICK}],
                             "crank": {"inside_mm": between(rng, 60, 80)}, "sprocket": {},
                             "rotor": {"rotor_mm": rng.choice([140, 160, 180])}}}


def job(index):
    """One pair. Of a few draws the one that runs into least, but for every tenth: rooms are compared where there is some."""
    rng = random.Random(f"bent/{index}")
    return min((drawn(rng, index) for _ in range(1 if index % 10 == 9 else DRAWS)), key=runs_into)


def runs_into(job):
    """How many neighbours the tube would touch, seen roughly: near enough for choosing."""
    lie = Lie(job)
    middle = np.array([lie.at(s)[0] for s in np.linspace(0.0, lie.length, 40)])
    bodies = [body for side in neighbours(lie.axle, job).values() for body in side.values()]
    return sum(body.distances(middle).min() < job["chainstays"]["right"]["tube"]["od_front_mm"] / 2 + 1 for body in bodies)


class Ring:
    """A body turned about a line along y: a disc, or a tyre whose section is a circle."""

    def __init__(self, middle, radius, low, high, section=0.0):
        self.middle, self.radius, self.low, self.high, self.section = np.array(middle), radius, low, high, section

    def solid(self):
        axis = gp_Ax2(pnt(self.middle + [0, self.low, 0]), gp_Dir(0, 1, 0))
        if self.section:
            return BRepPrimAPI_MakeTorus(axis, float(self.radius), float(self.section)).Shape()
        return BRepPrimAPI_MakeCylinder(axis, float(self.radius), float(self.high - self.low)).Shape()

    def distances(self, points):
        """Of points outside, by the closed form."""
        away = points - self.middle
        out, up = np.hypot(away[..., 0], away[..., 2]) - self.radius, away[..., 1]
        out = out if self.section else np.maximum(out, 0.0)
        return np.hypot(out, up - np.clip(up, self.low, self.high)) - self.section


def neighbours(axle, job):
    """What stands beside a chainstay that is a right one, or the mirror of a left one: by side and by name."""
    around, tyre = job["surroundings"], job["wheel"]["tyre_width_mm"]
    ring = 12.7 * (0.6 + 1 / math.tan(math.pi / around["chainrings"][0]["teeth"]))
    pitch, out = 12.7 / math.sin(math.pi / 11), SPACING / 2 - 7.0
    line, inside = around["chainrings"][0]["chainline_mm"], around["crank"]["inside_mm"]
    both = {"tyre": Ring(axle, BEAD / 2 + tyre / 2, 0.0, 0.0, tyre / 2 + RUN_OUT),
            "crank": Ring([0, 0, 0], 184.0, inside, inside + ENDLESS),
            "heel": Ring([180.0, 0, 10.0], 170.0, 80.0, 80.0 + ENDLESS)}
    half, out_rotor = RING_THICK / 2, SPACING / 2 - 15.0
    return {"right": {**both, "chainring[0]": Ring([0, 0, 0], ring / 2, line - half, line + half),
                      "chain": Ring(axle, (pitch + 8.5) / 2, out - 3.1, out + 3.1)},
            "left": {**both, "rotor": Ring(axle, around["rotor"]["rotor_mm"] / 2, out_rotor - 0.9, out_rotor + 0.9)}}
