"""Reach and gaps of whole set-ups against the CAD kernel: `python set_ups.py [--count N] COMMAND...`.

COMMAND is `examples/set_up`. Bodies are built here from the job's and the shop's figures, by the README's words; the kernel
measures them. Its search can stop at a pair of points that is not the nearest one, or measure from a skin to a body inside it; so
points are also thrown back and forth between the two bodies, which can only come nearer, and the smaller figure counts. Stays are tubes from
long point to long point, straight ones a chain of cones, bent ones of cylinders and tori as `check_bent` lays them.
"""
import argparse
import json
import random
import subprocess
import sys
from multiprocessing import Pool

import numpy as np
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeVertex, BRepBuilderAPI_Transform
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder
from OCP.gp import gp_Ax2, gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf

import jobs
from axes import SIDES, Y, axle, cutter_radius, one_plane, stay_of
from check import WORKERS
from check_bent import Laid, at as raw_at

SAME_MM = 1e-3
THROWS = 4000
# The kernel takes its time over cones and tori: stays are measured in every second set-up, a third of them bent.
STAYS_EVERY = 2


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
    if count % 3 == 0:
        bend(rng, job, 1 + count // 3 % 3)
    return job


def bend(rng, job, count):
    """Bends the chainstays, as much as leaves both cuts straight tube."""
    side, between = job["chainstays"]["right"], jobs.between
    for end in ("front", "rear"):
        side[end]["rise_mm"] = 0
    table = [{"before_mm": between(rng, 60, 80), "rotation_deg": between(rng, -180, 180),
              "angle_deg": between(rng, 2, 10), "radius_mm": between(rng, 100, 260)} for _ in range(count)]
    side["tube"].update(bends=table, roll_deg=between(rng, -180, 180), length_mm=700,
                        od_rear_mm=side["tube"]["od_front_mm"], front_trim_mm=between(rng, 0, 10))


def local(clamp, vector):
    return np.array([vector @ clamp.u, vector[1], vector @ clamp.w])


class End:
    """One end's straight stay: a point of its axis with its station, its direction, its radius."""

    def __init__(self, job, pair, side, end):
        stay = stay_of(job, pair, side)
        self.point, self.t, self.station, self.member = stay.front, stay.t, 0.0, stay.members[end]
        self.rim = stay.knots[0][1] if end == "front" else stay.knots[1][1]
        if job[pair]["right"]["tube"].get("bends"):
            laid, mirror = Laid(job), np.array([1.0, SIDES[side], 1.0])
            self.station = 0.0 if end == "front" else laid.length
            self.point = mirror * (laid.front if end == "front" else laid.rear)
            self.t = mirror * laid.direction(self.station)

    def edge(self, end, radius):
        """Stations and points of the cut: the kept crossing of each generator, every twentieth of a degree."""
        phi = np.radians(np.arange(0, 360, 0.05))
        one = np.cross(self.t, [0.0, 0.0, 1.0])
        one /= np.linalg.norm(one)
        n = np.outer(np.cos(phi), one) + np.outer(np.sin(phi), np.cross(self.t, one))
        start = self.point + self.rim * n - self.member.point
        away, along = np.cross(start, self.member.direction), np.cross(self.t, self.member.direction)
        square = along @ along
        middle = -(away @ along) / square
        reach = radius**2 - (away * away).sum(1) + middle**2 * square
        if (reach < 0).any():
            return None
        s = middle + np.sqrt(reach / square) * (1 if end == "front" else -1)
        return self.station + s, self.point + s[:, None] * self.t + self.rim * n


def edge_stations(straight, end, radius, out, clamp):
    """Where the cut lies along the cutter's axis."""
    cut = straight.edge(end, radius)
    if cut is None:
        return None
    in_frame = out[0] * clamp.u + out[1] * Y + out[2] * clamp.w
    return (cut[1] - straight.member.point) @ in_frame


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


def crossing(job, pair, side, stay, clamp, u):
    """How far across the fixture a stay's middle line passes a post, found by halving on a bent one."""
    if not job[pair]["right"]["tube"].get("bends"):
        p, t = local(clamp, stay.front - clamp.origin), local(clamp, stay.t)
        return p[1] + (u - p[0]) / t[0] * t[1]
    laid = Laid(job)

    def at(s):
        return local(clamp, laid.place(raw_at(laid.tube, laid.trim + s)[0]) - clamp.origin)
    low, high = -100.0, laid.length + 100.0
    for _ in range(100):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if at(middle)[0] < u else (low, middle)
    return SIDES[side] * at(low)[1]


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
        for i, u in enumerate(job["fixture"]["posts_u_mm"]):
            v = crossing(job, pair, side, other, stay.clamp, u)
            da, db = post["along_mm"] / 2, post["across_mm"] / 2
            made[f"post {i + 1}, {side}"] = Box((u - da, v - db, base), (u + da, v + db, post["above_mm"]))
    return made


def finished(job, pair, side):
    """Solids of one stay between its long points in its clamp frame; None where an end has no whole edge."""
    tips = []
    for end, outermost in (("front", np.min), ("rear", np.max)):
        straight = End(job, pair, side, end)
        cut = straight.edge(end, cutter_radius(stay_of(job, pair, side), end))
        if cut is None:
            return None
        tips.append(float(outermost(cut[0])))
    stay = stay_of(job, pair, side)
    if job[pair]["right"]["tube"].get("bends"):
        solids, front = list(Laid(job).solids(*tips)), stay_of(job, pair, "right").clamp
        return [placed(solid, front, SIDES[side]) for solid in solids]
    knots = [tips[0], *[k for k, _ in stay.knots if tips[0] < k < tips[1]], tips[1]]
    return [placed(frustum(stay, a, b), stay.clamp, 1.0) for a, b in zip(knots, knots[1:])]


def frustum(stay, a, b):
    axes = gp_Ax2(gp_Pnt(*(stay.front + a * stay.t)), gp_Dir(*stay.t))
    low, high = stay.radius(a), stay.radius(b)
    if abs(low - high) < 1e-9:
        return BRepPrimAPI_MakeCylinder(axes, low, b - a).Shape()
    return BRepPrimAPI_MakeCone(axes, low, high, b - a).Shape()


def placed(shape, clamp, sigma):
    """The shape seen in the clamp frame, mirrored in the centre plane for the left side."""
    if sigma < 0:
        mirror = gp_Trsf()
        mirror.SetMirror(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 1, 0)))
        shape = BRepBuilderAPI_Transform(shape, mirror, True).Shape()
    into = gp_Trsf()
    origin = gp_Pnt(*map(float, clamp.origin))
    into.SetTransformation(gp_Ax3(origin, gp_Dir(*map(float, clamp.w)), gp_Dir(*map(float, clamp.u))))
    return BRepBuilderAPI_Transform(shape, into, True).Shape()


def check_stays(job, pair, sides, parts, cut, sweep, tally):
    """Gaps of what turns to the finished stays. The kernel may miss a nearer place on a cone or torus; points thrown from the
    drum to the stay and back find it, so a smaller gap than the kernel's must be one that such points come to."""
    found = {(gap["part"], gap["body"]): gap for gap in cut["gaps"]}
    for side in sides:
        solids = finished(job, pair, side)
        for part in parts if solids else ():
            gap = found.get((part, f"{side} stay"))
            if gap is None:
                continue
            drum = sweep(*parts[part])
            known = min(kernel_distance(drum.shape, solid) for solid in solids)
            ours = gap["gap_mm"]
            if ours < known - SAME_MM:
                known = min([known, *[thrown_at(drum, solid) for solid in solids]])
            tally(f"stay gap {part} {side}", ours, known)


def kernel_distance(a, b):
    found = BRepExtrema_DistShapeShape(a, b)
    found.Perform()
    return found.Value() if not found.InnerSolution() else 0.0


def thrown_at(drum, solid):
    """Distance of the drum from a solid of the kernel from above, the kernel telling the solid's point nearest to a point."""
    q, last = drum.middle, np.inf
    for _ in range(300):
        vertex = BRepBuilderAPI_MakeVertex(gp_Pnt(*map(float, q))).Vertex()
        near = BRepExtrema_DistShapeShape(vertex, solid)
        p = near.PointOnShape2(1)
        p = np.array([p.X(), p.Y(), p.Z()]) if near.Value() > 0 else q
        q = drum.nearest(p)
        far = np.linalg.norm(p - q)
        if last - far < 1e-9:
            break
        last = far
    return far


def check(job, shop, answer, tally, with_stays):
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
        edges = [edge_stations(End(job, pair, s, end), end, radius, out, stay.clamp) for s in cut_sides]
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

        def sweep(above, length, thick):
            return Cylinder(place + (end_at + above) * out, out, length + stroke, thick)
        if with_stays:
            check_stays(job, pair, sides, parts, cut, sweep, tally)
        for part, (above, length, thick) in parts.items():
            for name, body in still.items():
                gap = found.get((part, name))
                if gap is None:
                    continue
                known = distance(sweep(above, length, thick), body, gap["gap_mm"])
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

    def add(self, other):
        self.count += other.count
        self.worst = max(self.worst, other.worst)
        self.bad += other.bad


def checked(line, answer, with_stays):
    """How many cuts one set-up has, and what their figures came to."""
    tally = Tally()
    if "errors" in answer:
        tally.bad.append(str(answer["errors"]))
        return 0, tally
    check(line["job"], line["shop"], answer, tally, with_stays)
    return len(answer["cuts"]), tally


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=120)
    parser.add_argument("command", nargs="+")
    words = parser.parse_args()
    rng = random.Random(7)
    lines = [{"job": job_of(rng, i), "shop": shop_of(rng), "saw": 0} for i in range(words.count)]
    done = subprocess.run(words.command, input="".join(json.dumps(line) + "\n" for line in lines),
                          capture_output=True, text=True, check=True)
    answers = map(json.loads, done.stdout.splitlines())
    asked = [(line, answer, i % STAYS_EVERY == 0) for i, (line, answer) in enumerate(zip(lines, answers, strict=True))]
    total, seen = Tally(), 0
    with Pool(WORKERS) as pool:
        for cuts, tally in pool.starmap(checked, asked, chunksize=2):
            seen += cuts
            total.add(tally)
    print(f"{words.count} set-ups, {seen} cuts, {total.count} figures, worst {total.worst:.2e} mm, {len(total.bad)} bad")
    for bad in total.bad[:20]:
        print(bad)
    sys.exit(bool(total.bad))


if __name__ == "__main__":
    main()
