"""Reach and gaps of whole set-ups against the CAD kernel: `python set_ups.py [--count N] COMMAND...`.

COMMAND is `examples/set_up`. Bodies are built here from the job's and the shop's figures, by the README's words; the kernel
measures them. Its search can stop at a pair of points that is not the nearest one, or measure from a skin to a body inside it; so
points are also thrown back and forth between the two bodies, which can only come nearer, and the smaller figure counts.
"""
import argparse
import json
import random
import subprocess
import sys

import numpy as np
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

import jobs
from axes import SIDES, Y, axle, cutter_radius, one_plane, stay_of

SAME_MM = 1e-3
THROWS = 4000


def shop_of(rng):
    def scale():
        return {"sense": rng.choice(["rises", "falls"])}
    between = jobs.between
    return {
        "format": 1,
        "hole_saws": [{"nominal_mm": 40, "depth_mm": between(rng, 25, 60), "arbor_mm": between(rng, 12, 25),
                       "reach_mm": between(rng, 20, 160), "neck_mm": between(rng, 8, 16), "neck_length_mm": 10}],
        "fixture": {
            "bed": {"front_u_mm": between(rng, -60, 30), "rear_u_mm": between(rng, 430, 520),
                    "width_mm": between(rng, 30, 90), "thickness_mm": between(rng, 5, 20)},
            "block": {"front_u_mm": between(rng, 90, 140), "rear_u_mm": between(rng, 180, 260),
                      "thickness_mm": between(rng, 10, 24)},
            "post": {"along_mm": between(rng, 15, 40), "across_mm": between(rng, 28, 45),
                     "above_mm": between(rng, 8, 25)},
            "axle": {"diameter_mm": rng.choice([9, 10, 12]), "length_mm": between(rng, 150, 180)}},
        "mill": {"holder_mm": between(rng, 30, 60), "holder_length_mm": between(rng, 30, 70),
                 "nose_mm": between(rng, 60, 110), "nose_length_mm": 120, "run_out_mm": between(rng, 0, 6),
                 "run_in_mm": between(rng, 0, 10), "side_to_spindle": rng.choice(["left", "right"]), "x": scale()}}


def job_of(rng, count):
    job = jobs.base(rng)
    for pair in ("chainstays", "seatstays"):
        job[pair]["right"]["rear"]["end"] = {"kind": "boss", "boss_mm": rng.choice([20, 24, 28])}
    if count % 3 == 1:
        jobs.sides_differ(rng, job)
    if count % 3 == 2:
        jobs.planes_differ(rng, job)
    return job


def local(clamp, vector):
    return np.array([vector @ clamp.u, vector[1], vector @ clamp.w])


def edge_stations(stay, end, radius, out):
    """Where the cut lies along the cutter's axis: the kept crossing of each generator, every twentieth of a degree."""
    member = stay.members[end]
    rim = stay.knots[0][1] if end == "front" else stay.knots[1][1]
    phi = np.radians(np.arange(0, 360, 0.05))
    n = np.outer(np.cos(phi), stay.e0) + np.outer(np.sin(phi), stay.e1)
    start = stay.front + rim * n - member.point
    away, along = np.cross(start, member.direction), np.cross(stay.t, member.direction)
    square = along @ along
    middle = -(away @ along) / square
    reach = radius**2 - (away * away).sum(1) + middle**2 * square
    if (reach < 0).any():
        return None
    s = middle + np.sqrt(reach / square) * (1 if end == "front" else -1)
    points = stay.front + s[:, None] * stay.t + rim * n
    in_frame = out[0] * stay.clamp.u + out[1] * Y + out[2] * stay.clamp.w
    return (points - member.point) @ in_frame


class Cylinder:
    def __init__(self, point, along, length, radius):
        self.point, self.along, self.length, self.radius = np.array(point), np.array(along), length, radius
        ax = gp_Ax2(gp_Pnt(*map(float, point)), gp_Dir(*map(float, along)))
        self.shape = BRepPrimAPI_MakeCylinder(ax, float(radius), float(length)).Shape()
        self.middle = self.point + self.along * (length / 2)

    def nearest(self, p):
        """The point of the body nearest to `p`."""
        station = (p - self.point) @ self.along
        out = p - self.point - station * self.along
        size = np.linalg.norm(out)
        out = out if size <= self.radius else out * (self.radius / size)
        return self.point + min(max(station, 0.0), self.length) * self.along + out


class Box:
    def __init__(self, low, high):
        self.low, self.high = np.array(low), np.array(high)
        self.shape = BRepPrimAPI_MakeBox(gp_Pnt(*map(float, low)), gp_Pnt(*map(float, high))).Shape()
        self.middle = (self.low + self.high) / 2

    def nearest(self, p):
        return np.minimum(np.maximum(p, self.low), self.high)


def thrown(a, b):
    """Distance of two convex bodies from above, by projecting to and fro (Cheney and Goldstein 1959)."""
    q = b.middle
    last = np.inf
    for _ in range(THROWS):
        p = a.nearest(q)
        q = b.nearest(p)
        far = np.linalg.norm(p - q)
        if far < 1e-7 or last - far < 1e-13:
            break
        last = far
    return far


def distance(a, b, ours):
    """By the kernel, unless it is further than `ours` and a nearer pair of points shows that it went astray."""
    found = BRepExtrema_DistShapeShape(a.shape, b.shape)
    found.Perform()
    known = found.Value()
    return known if known <= ours + SAME_MM else min(known, thrown(a, b))


def bodies(job, shop, pair, stay, sides):
    """Everything that stands, by the name that the command gives it."""
    fixture, made = shop["fixture"], {}
    base, block = -job["fixture"]["clamp_height_mm"], job["fixture"]["block_width_mm"] / 2
    for name, words, half in (("bed", fixture["bed"], fixture["bed"]["width_mm"] / 2),
                              ("mounting block", fixture["block"], block)):
        made[name] = Box((words["front_u_mm"], -half, base), (words["rear_u_mm"], half, base + words["thickness_mm"]))
    a, half = local(stay.clamp, axle(job["frame"]) - stay.clamp.origin), fixture["axle"]["length_mm"] / 2
    made["dummy axle"] = Cylinder((a[0], -half, a[2]), (0, 1, 0), 2 * half, fixture["axle"]["diameter_mm"] / 2)
    post = fixture["post"]
    for side in sides:
        other = stay_of(job, pair, side)
        p, t = local(stay.clamp, other.front - stay.clamp.origin), local(stay.clamp, other.t)
        for i, u in enumerate(job["fixture"]["posts_u_mm"]):
            v = p[1] + (u - p[0]) / t[0] * t[1]
            da, db = post["along_mm"] / 2, post["across_mm"] / 2
            made[f"post {i + 1}, {side}"] = Box((u - da, v - db, base), (u + da, v + db, post["above_mm"]))
    return made


def check(job, shop, answer, tally):
    for cut in answer["cuts"]:
        pair, side, end = cut["at"].split(".")
        stay = stay_of(job, pair, side)
        both = "left" not in job[pair]
        sides = list(SIDES) if one_plane(job, pair) else [side]
        member, radius = stay.members[end], cutter_radius(stay, end)
        place, out = local(stay.clamp, member.point - stay.clamp.origin), local(stay.clamp, member.direction)
        if abs(out[1]) > 0.5:
            out = np.array([0.0, SIDES[shop["mill"]["side_to_spindle"]], 0.0])
        elif out[2] < 0:
            out = -out
        cut_sides = list(SIDES) if both else [side]
        edges = [edge_stations(stay_of(job, pair, s), end, radius, out) for s in cut_sides]
        if any(e is None for e in edges):
            continue
        low, high = min(e.min() for e in edges), max(e.max() for e in edges)
        saw, mill = shop["hole_saws"][0], shop["mill"]
        end_at, start_at = low - mill["run_out_mm"], high + mill["run_in_mm"]
        depth, reach, neck = saw["depth_mm"], saw["reach_mm"], saw["neck_length_mm"]
        tally("low", cut["low_mm"], low)
        tally("high", cut["high_mm"], high)
        tally("through", cut["through_mm"], depth + reach - (high - end_at))
        parts = {"saw": (0, depth, radius), "arbor's neck": (depth, neck, saw["neck_mm"] / 2),
                 "arbor": (depth + neck, reach - neck, saw["arbor_mm"] / 2),
                 "holder": (depth + reach, mill["holder_length_mm"], mill["holder_mm"] / 2),
                 "spindle nose": (depth + reach + mill["holder_length_mm"], mill["nose_length_mm"], mill["nose_mm"] / 2)}
        stroke = start_at - end_at
        still = bodies(job, shop, pair, stay, sides)
        found = {(gap["part"], gap["body"]): gap for gap in cut["gaps"]}
        for part, (above, length, thick) in parts.items():
            for name, body in still.items():
                gap = found.get((part, name))
                if gap is None:
                    continue
                swept = Cylinder(place + (end_at + above) * out, out, length + stroke, thick)
                known = distance(swept, body, gap["gap_mm"])
                tally(f"gap {part} {name}", gap["gap_mm"], known)
                if gap["goes_mm"] is not None and 0 < gap["goes_mm"] < stroke:
                    at = [place + (start_at - gone + above) * out
                          for gone in (gap["goes_mm"] - 0.01, gap["goes_mm"] + 0.01)]
                    free, met = (distance(Cylinder(p, out, length, thick), body, 0.0) for p in at)
                    tally.true(f"free before {part} {name}", free > 0)
                    tally.true(f"met after {part} {name}", met < 1e-3)


class Tally:
    def __init__(self):
        self.count, self.worst, self.bad = 0, 0.0, []

    def __call__(self, name, ours, known):
        self.count += 1
        off = abs(ours - known)
        self.worst = max(self.worst, off)
        if not off <= SAME_MM:
            self.bad.append(f"{name}: {ours} against {known}")

    def true(self, name, holds):
        self.count += 1
        if not holds:
            self.bad.append(name)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=120)
    parser.add_argument("command", nargs="+")
    words = parser.parse_args()
    rng = random.Random(7)
    lines = [{"job": job_of(rng, i), "shop": shop_of(rng), "saw": 0} for i in range(words.count)]
    done = subprocess.run(words.command, input="".join(json.dumps(line) + "\n" for line in lines),
                          capture_output=True, text=True, check=True)
    tally, seen = Tally(), 0
    for line, answer in zip(lines, map(json.loads, done.stdout.splitlines()), strict=True):
        if "errors" in answer:
            tally.bad.append(str(answer["errors"]))
            continue
        seen += len(answer["cuts"])
        check(line["job"], line["shop"], answer, tally)
    print(f"{words.count} set-ups, {seen} cuts, {tally.count} figures, worst {tally.worst:.2e} mm, {len(tally.bad)} bad")
    for bad in tally.bad[:20]:
        print(bad)
    sys.exit(bool(tally.bad))


if __name__ == "__main__":
    main()
