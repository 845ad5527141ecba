"""Proof that the check of bent stays can fail: each figure of good answers is spoilt a little, and the check must notice."""
import copy

from spoil import DEG, MM, add, say


def stays(plan, rooms):
    return [plan["pairs"]["chainstays"][side] for side in ("right", "left")]


def pairs(plan, rooms):
    return [plan["pairs"]["chainstays"]]


def of_stay(key):
    return lambda plan, rooms: [stay[key] for stay in stays(plan, rooms)]


def bends(plan, rooms):
    return [bend for stay in stays(plan, rooms) for bend in stay["bent"]["bends"]]


def posts(plan, rooms):
    return plan["pairs"]["chainstays"]["posts"]


def gaps(rough=None, other=False):
    """Rooms that are sure to a hundredth, or to better than that; of the other stay, or of all others, where there is any."""
    def parts(plan, rooms):
        found = [gap for room in rooms["rooms"] if room["pair"] == "chainstays" for gap in room["gaps"]]
        return [gap for gap in found if (gap["to"] == "other_stay") == other and gap["to"] != "caliper"
                and gap["gap_mm"] > 0.1 and (rough is None or rough == (gap["within_mm"] > 1e-5))]
    return parts


def shift(key, place, step):
    """Moves one figure of a list."""
    def spoil(part):
        part[key][place] += step
        return True
    return spoil


def lose_room(plan, rooms):
    """The rooms of one stay, as a part that loses its first."""
    return [room for room in rooms["rooms"] if room["pair"] == "chainstays"]


def drop_first(part):
    return part["gaps"].pop(0) is not None


LENGTH, KERNEL, SAMPLES = "length, chord and marks", "room, kernel's distance", "room, dense samples"

# Which parts of the answers, how they are spoilt, and the beginning of the kind that must notice.
SPOILT = [
    (stays, "length_mm", add("length_mm", MM), LENGTH),
    (of_stay("bent"), "chord_mm", add("chord_mm", MM), LENGTH),
    (of_stay("raw"), "front_mark_mm", add("front_mark_mm", MM), LENGTH),
    (of_stay("raw"), "rear_mark_mm", add("rear_mark_mm", MM), LENGTH),
    (of_stay("raw"), "front_butt_mm", add("front_butt_mm", MM), "butts left"),
    (of_stay("raw"), "rear_butt_mm", add("rear_butt_mm", MM), "butts left"),
    (of_stay("raw"), "long_enough", say("long_enough", False), "word"),
    *[(stays, f"{end}_point_mm", shift(f"{end}_point_mm", i, MM), "end faces, middle")
      for end in ("front", "rear") for i in range(3)],
    *[(of_stay("bent"), f"{end}_direction", shift(f"{end}_direction", i, DEG * 0.01), "end faces, direction")
      for end in ("front", "rear") for i in range(3)],
    *[(bends, key, add(key, MM), "bends")
      for key in ("from_mm", "apex_mm", "to_mm", "along_mm", "from_plane_mm", "from_centre_mm")],
    (stays, "splay_deg", add("splay_deg", DEG), "splay"),
    *[(posts, key, add(key, MM), "posts, axis") for key in ("right_mm", "left_mm")],
    *[(posts, key, shift(key, i, MM), "posts, axis") for key in ("right_straight_mm", "left_straight_mm") for i in (0, 1)],
    (gaps(rough=False), "gap_mm, more", add("gap_mm", MM), KERNEL),
    (gaps(rough=False), "gap_mm, more", add("gap_mm", MM), SAMPLES),
    # Where a room is sure to a hundredth, more than that must be seen above it, and anything below.
    (gaps(rough=True), "gap_mm, rough, more", add("gap_mm", 11 * MM), KERNEL),
    (gaps(rough=True), "gap_mm, rough, more", add("gap_mm", 11 * MM), SAMPLES),
    (gaps(), "gap_mm, less", add("gap_mm", -MM), KERNEL),
    (gaps(), "gap_mm, less", add("gap_mm", -MM), SAMPLES),
    (gaps(), "gap_mm, points apart", add("gap_mm", MM), "room, between the points named"),
    (gaps(), "gap_mm, run into", add("gap_mm", -1000.0), "room, run into or not"),
    *[(gaps(), "stay_point_mm", shift("stay_point_mm", i, MM), "room, between the points named") for i in range(3)],
    (gaps(), "stay_point_mm", shift("stay_point_mm", 1, -1.0), "room, place named off the skin"),
    *[(gaps(), "neighbour_point_mm", shift("neighbour_point_mm", i, -10.0), "room, point named on the neighbour")
      for i in range(3)],
    (gaps(), "station_mm", add("station_mm", 5.0), "room, station of the place"),
    (gaps(other=True), "gap_mm to the other stay, more", add("gap_mm", 0.1), "room to the other stay"),
    (gaps(other=True), "gap_mm to the other stay, less", add("gap_mm", -1.0), "room to the other stay"),
    (pairs, "room_between_mm, more", add("room_between_mm", 0.1), "room to the other stay"),
    (pairs, "room_between_mm, less", add("room_between_mm", -1.0), "room to the other stay"),
    (lose_room, "a room left out", drop_first, "word"),
]


def failing(compared, answer):
    return {kind for kind, _, _ in compared(*answer).failures}


def noticed(compared, answers, clean, mutation):
    """Spoils the first answer that has such a figure and passes unspoilt; None where none has it."""
    parts, _, spoil, kind = mutation
    for answer in answers:
        job, plan, rooms = copy.deepcopy(answer)
        if not any(spoil(part) for part in parts(plan, rooms)):
            continue
        if job["name"] not in clean:
            clean[job["name"]] = not failing(compared, answer)
        if clean[job["name"]]:
            return any(found.startswith(kind) for found in failing(compared, (job, plan, rooms)))
    return None


def prove(compared, answers):
    """Exit code 0 when the check notices every figure spoilt."""
    clean, missed = {}, 0
    for mutation in SPOILT:
        seen = noticed(compared, answers, clean, mutation)
        word = {True: "noticed", False: "NOT NOTICED", None: "NOT FOUND in an answer that passes"}[seen]
        print(f"{mutation[1]:32} by '{mutation[3]}': {word}")
        missed += seen is not True
    print(f"{len(SPOILT) - missed} passed, {missed} failed")
    return 1 if missed else 0
