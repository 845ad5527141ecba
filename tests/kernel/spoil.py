"""Proof that the check can fail: each figure of a good plan is spoilt a little, and the check must notice."""
import copy

from compare_pair import compare_job
from tally import Tally

MM, DEG = 1e-3, 0.01


def add(key, step):
    """Spoils one figure."""
    def spoil(part):
        value = part.get(key)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return False
        part[key] = value + step
        return True
    return spoil


def say(key, value):
    """Puts another word in place."""
    def spoil(part):
        if part.get(key) in (None, value):
            return False
        part[key] = value
        return True
    return spoil


def shift(key, count=None):
    """Moves one point of a profile, or all of a full one."""
    def spoil(part):
        rows = part.get(key) or []
        if len(rows) < 360:
            return False
        for row in rows[120:121] if count == 1 else rows:
            row["s_mm"] += MM
        return True
    return spoil


def drop(key):
    """Leaves one point of a profile out."""
    def spoil(part):
        return bool(part.get(key)) and part[key].pop() is not None
    return spoil


def turn(key):
    """Turns one place where a slot's face leaves the tube."""
    def spoil(part):
        if not part.get(key):
            return False
        part[key][0] += DEG
        return True
    return spoil


def cuts(plan):
    return [stay[end] for stay in stays(plan) for end in ("front", "rear")]


def stays(plan):
    return [pair[side] for pair in pairs(plan) for side in ("right", "left")]


def pairs(plan):
    return list(plan["pairs"].values())


def apart(plan):
    """Stays that carry a clamp frame of their own."""
    return [pair[side] for pair in pairs(plan) if not pair["one_plane"] for side in ("right", "left")]


def resized(plan):
    """Copes that are cut all round with a saw of another size than their member."""
    return [cut for cut in cuts(plan) if cut.get("contact") == "full" and cut["member_mm"] != cut["cutter_mm"]]


def tilted(plan):
    return [cut for cut in cuts(plan) if cut.get("on_side") is False]


def posts(plan):
    return [post for pair in pairs(plan) for post in pair["posts"]]


def faces(plan):
    return [face for cut in cuts(plan) for face in cut.get("faces") or []]


def misses(plan):
    return [row for cut in cuts(plan) for row in cut.get("misses") or [] if cut["contact"] == "partial"]


READINGS = ("dro_along_mm", "dro_across_mm", "along_spindle_mm", "across_spindle_mm")

# Which parts of a plan, how they are spoilt, and the beginning of the kind that must notice.
SPOILT = [
    (cuts, "outer, one point", shift("outer", 1), "profile"),
    (cuts, "outer, one point", shift("outer", 1), "distance to cut edge"),
    (cuts, "bore, one point", shift("bore", 1), "profile"),
    (cuts, "bore, one point", shift("bore", 1), "distance to cut edge"),
    (cuts, "outer, all points", shift("outer"), "volume left"),
    (cuts, "bore, all points", shift("bore"), "volume left"),
    (cuts, "outer, a point left out", drop("outer"), "word"),
    (cuts, "bore, a point left out", drop("bore"), "word"),
    (cuts, "long_point_mm", add("long_point_mm", MM), "long and short point"),
    (cuts, "short_point_mm", add("short_point_mm", MM), "long and short point"),
    (cuts, "saw_depth_mm", add("saw_depth_mm", MM), "saw depth"),
    (cuts, "contact", say("contact", "partial"), "word"),
    (cuts, "kind", say("kind", "square"), "word"),
    (resized, "cutter_mm", add("cutter_mm", MM), "push"),
    (resized, "push_mm", add("push_mm", -MM), "push"),
    (resized, "push_mm", add("push_mm", -MM), "touch after push"),
    (resized, "gap_mm", add("gap_mm", MM), "gap"),
    (cuts, "angle_deg", add("angle_deg", DEG), "angle"),
    (cuts, "miter_deg", add("miter_deg", DEG), "angle"),
    (cuts, "offset_mm", add("offset_mm", MM), "offset"),
    (cuts, "axis_station_mm", add("axis_station_mm", MM), "axis station"),
    (cuts, "end_up", say("end_up", "level"), "word"),
    (cuts, "on_side", say("on_side", False), "word"),
    (tilted, "tilt_deg", add("tilt_deg", DEG), "tilt"),
    *[(cuts, key, add(key, MM), "table readings") for key in READINGS],
    (misses, "misses from_deg", add("from_deg", DEG), "missed range"),
    (misses, "misses to_deg", add("to_deg", DEG), "missed range"),
    (cuts, "mouth_s_mm", add("mouth_s_mm", MM), "slot station"),
    (cuts, "root_s_mm", add("root_s_mm", MM), "slot station"),
    (cuts, "plate_mm", add("plate_mm", MM), "slot station"),
    (cuts, "width_mm", add("width_mm", MM), "slot station"),
    (faces, "mouth_phi_deg", turn("mouth_phi_deg"), "slot face"),
    (faces, "root_phi_deg", turn("root_phi_deg"), "slot face"),
    (faces, "face side", say("side", "inboard"), "word"),
    (stays, "length_mm", add("length_mm", MM), "length"),
    (stays, "splay_deg", add("splay_deg", DEG), "length"),
    (stays, "tip_to_tip_mm", add("tip_to_tip_mm", MM), "length"),
    (apart, "slide_mm of a stay", add("slide_mm", MM), "slide"),
    (apart, "axle_height_mm of a stay", add("axle_height_mm", MM), "slide"),
    (pairs, "slide_mm", add("slide_mm", MM), "slide"),
    (pairs, "axle_height_mm", add("axle_height_mm", MM), "slide"),
    (pairs, "one_plane", say("one_plane", False), "word"),
    (pairs, "front_saw_depth_mm", add("front_saw_depth_mm", MM), "pair saw depth"),
    (pairs, "rear_saw_depth_mm", add("rear_saw_depth_mm", MM), "pair saw depth"),
    (posts, "u_mm", add("u_mm", MM), "word"),
    *[(posts, key, add(key, MM), "posts, axis") for key in ("right_mm", "left_mm")],
    *[(posts, key, add(key, MM), "posts, inside") for key in ("inside_mm", "outside_mm")],
]


def failing(job, plan):
    tally = Tally()
    compare_job(tally, job, plan)
    return {kind for kind, _, _ in tally.failures}


def noticed(lines, answers, clean, mutation):
    """Spoils the first plan that has such a figure and passes unspoilt; None where no plan has it."""
    parts, _, spoil, kind = mutation
    for job, plan in zip(lines, answers):
        spoilt = copy.deepcopy(plan)
        if not any(spoil(part) for part in parts(spoilt)):
            continue
        name = job["name"]
        if name not in clean:
            clean[name] = not failing(job, plan)
        if clean[name]:
            return any(found.startswith(kind) for found in failing(job, spoilt))
    return None


def prove(lines, answers):
    """Exit code 0 when the check notices every figure spoilt."""
    clean, missed = {}, 0
    for mutation in SPOILT:
        seen = noticed(lines, answers, clean, mutation)
        word = {True: "noticed", False: "NOT NOTICED", None: "NOT FOUND in a plan that passes"}[seen]
        print(f"{mutation[1]:28} by '{mutation[3]}': {word}")
        missed += seen is not True
    print(f"{len(SPOILT) - missed} passed, {missed} failed")
    return 1 if missed else 0
