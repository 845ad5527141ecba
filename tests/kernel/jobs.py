"""Seeded jobs for the comparison: `python jobs.py [count] [seed]` prints them, one JSON a line.

Every job is drawn at random inside what a builder may meet; `THEMES` then sets what the job is there to stress.
"""
import json
import random
import sys

import numpy as np

from axes import PAIRS, cutter_radius, stay_of

COUNT, SEED = 240, 20240611
# A generator that all but grazes the member is decided by rounding: such jobs are drawn again.
GRAZING_MM = 0.02


def between(rng, low, high, digits=2):
    return round(rng.uniform(low, high), digits)


def frame(rng):
    return {"chainstay_length_mm": between(rng, 395, 460), "bb_drop_mm": between(rng, 20, 85),
            "seat_angle_deg": between(rng, 70, 77), "seat_tube_setback_mm": 0,
            "seat_tube_od_mm": rng.choice([28.6, 30.0, 31.8, 35.0]),
            "shell_od_mm": rng.choice([38.1, 40, 44, 46, 50.8]), "shell_width_mm": rng.choice([68, 73, 83]),
            "axle_spacing_mm": rng.choice([130, 135, 142, 148])}


def tube(rng, od_front, od_rear, length):
    start = between(rng, 90, 180)
    return {"od_front_mm": od_front, "od_rear_mm": od_rear, "taper_start_mm": start,
            "taper_end_mm": start + between(rng, 120, 200), "wall_mm": rng.choice([0.5, 0.7, 0.8, 0.9, 1.2]),
            "length_mm": length, "front_trim_mm": between(rng, 0, 15), "bends": []}


def rear_end(rng):
    kind = rng.choice(["boss", "boss", "boss", "slot", "square"])
    if kind == "boss":
        return {"kind": "boss", "boss_mm": rng.choice([18, 20, 22.5, 24, 28, 32])}
    if kind == "slot":
        return with_clearance({"kind": "slot", "plate_mm": between(rng, 3, 8), "depth_mm": between(rng, 10, 28),
                               "overhang_mm": between(rng, 0, 9)})
    return {"kind": "square"}


def with_clearance(slot):
    """From none to 0.6 mm, told by the plate, so that what is drawn after it stays as it was."""
    return {**slot, "clearance_mm": round(slot["plate_mm"] * 7 % 0.6, 2)}


def chainstay(rng):
    od = rng.choice([19.05, 22.2, 24.0])
    return {"front": {"half_spacing_mm": between(rng, 18, 30), "rise_mm": between(rng, -4, 4),
                      "end": {"kind": "cope", "onto": "shell"}},
            "rear": {"half_spacing_mm": between(rng, 62, 80), "rise_mm": between(rng, -4, 4),
                     "reach_mm": between(rng, 15, 45), "end": rear_end(rng)},
            "tube": tube(rng, od, od, 470)}


def seatstay(rng):
    od = rng.choice([14.0, 16.0, 19.05])
    return {"front": {"half_spacing_mm": between(rng, 4, 6), "rise_mm": between(rng, -5, 5),
                      "end": {"kind": "cope", "onto": "seat_tube"}},
            "rear": {"half_spacing_mm": between(rng, 60, 80), "rise_mm": between(rng, -3, 3),
                     "reach_mm": between(rng, 15, 45), "end": rear_end(rng)},
            "tube": tube(rng, od, od, 620)}


def fixture(rng):
    return {"block_width_mm": between(rng, 50, 90), "clamp_height_mm": between(rng, 25, 60),
            "touch_u_mm": between(rng, -90, -20), "touch_w_mm": between(rng, -10, 10),
            "posts_u_mm": [between(rng, 40, 120), between(rng, 250, 340)], "slide_min_mm": 380,
            "slide_max_mm": 480, "axle_height_min_mm": -30, "axle_height_max_mm": 30,
            "touch_from": rng.choice(["front", "rear"])}


def base(rng):
    return {"format": 1, "name": "", "notes": "", "frame": frame(rng),
            "wheel": {"bead_seat_mm": 622, "tyre_width_mm": 40, "tyre_height_mm": 40},
            "chainstays": {"right": chainstay(rng)},
            "seatstays": {"front_station_mm": between(rng, 440, 540), "right": seatstay(rng)},
            "fixture": fixture(rng), "edge_finder_mm": rng.choice([4, 6, 10])}


def rights(job):
    return [job[pair]["right"] for pair in PAIRS]


def straight(rng, job):
    job["fixture"].pop("touch_from")


def centred(rng, job):
    """No rise: the member's axis crosses the stay's."""
    for side in rights(job):
        side["front"]["rise_mm"] = side["rear"]["rise_mm"] = 0


def tapered(rng, job):
    for side in rights(job):
        side["tube"]["od_rear_mm"] = between(rng, 11, 16)


def taper_in_cut(rng, job):
    """The front taper starts, and the rear one ends, between long and short point of the cut."""
    tapered(rng, job)
    for pair in PAIRS:
        side = job[pair]["right"]
        side["front"]["rise_mm"] = between(rng, -2, 2)
        side["rear"]["end"] = {"kind": "boss", "boss_mm": 24}
        side["tube"]["front_trim_mm"] = between(rng, 5, 15)
        stay = stay_of(job, pair, "right")
        for key, end in (("taper_start_mm", "front"), ("taper_end_mm", "rear")):
            side["tube"][key] = side["tube"]["front_trim_mm"] + rng.uniform(*cut_range(stay, end))


def cut_range(stay, end):
    """The stations its cut covers, as if the stay kept the diameter it has at that end."""
    member = stay.members[end]
    rim = stay.knots[0][1] if end == "front" else stay.knots[1][1]
    stations = []
    for phi in range(0, 360, 15):
        start = stay.front + rim * stay.normal(phi) - member.point
        away, along = np.cross(start, member.direction), np.cross(stay.t, member.direction)
        middle = -(away @ along) / (along @ along)
        reach = member.radius**2 - (away @ away) + middle**2 * (along @ along)
        if reach > 0:
            half = np.sqrt(reach / (along @ along))
            stations.append(middle + (half if end == "front" else -half))
    return min(stations), max(stations)


def cut_middle(stay, end):
    """Roughly where, along the stay, its cut lies."""
    member = stay.members[end]
    across = np.cross(stay.t, member.direction)
    station = (member.point - stay.front) @ np.cross(member.direction, across) / (across @ across)
    reach = member.radius / np.linalg.norm(across)
    return station + (reach if end == "front" else -reach)


def slack_taper(rng, job):
    """A short, steep taper that widens to the rear."""
    for side in rights(job):
        pipe = side["tube"]
        pipe["od_rear_mm"] = pipe["od_front_mm"] + between(rng, 1, 4)
        pipe["taper_start_mm"], pipe["taper_end_mm"] = 60, 140


def sides_differ(rng, job):
    """Left and right spaced differently in one clamp plane; a `left` that names only what differs."""
    for pair in PAIRS:
        right = job[pair]["right"]
        job[pair]["left"] = {"front": {"half_spacing_mm": right["front"]["half_spacing_mm"] + between(rng, -3, 3)},
                             "rear": {"half_spacing_mm": between(rng, 58, 78)}}


def planes_differ(rng, job):
    """Left and right that cannot share a clamp plane."""
    for pair, key in zip(PAIRS, ("rise_mm", "reach_mm")):
        right = job[pair]["right"]
        left = {"front": dict(right["front"]), "rear": dict(right["rear"]), "tube": dict(right["tube"])}
        left["rear"][key] = right["rear"][key] + between(rng, 1, 6)
        left["front"]["half_spacing_mm"] = right["front"]["half_spacing_mm"] + between(rng, -2, 2)
        left["tube"]["od_front_mm"] = left["tube"]["od_rear_mm"] = right["tube"]["od_front_mm"] - 1
        job[pair]["left"] = left


def big_saw(rng, job):
    job["chainstays"]["right"]["front"]["end"]["cutter_mm"] = job["frame"]["shell_od_mm"] + between(rng, 0.2, 4)
    job["seatstays"]["right"]["front"]["end"]["cutter_mm"] = job["frame"]["seat_tube_od_mm"] + between(rng, 0.2, 4)


def small_saw(rng, job):
    job["chainstays"]["right"]["front"]["end"]["cutter_mm"] = job["frame"]["shell_od_mm"] - between(rng, 0.2, 3)
    job["seatstays"]["right"]["front"]["end"]["cutter_mm"] = job["frame"]["seat_tube_od_mm"] - between(rng, 0.2, 2)
    job["seatstays"]["right"]["front"]["half_spacing_mm"] = between(rng, 3, 4)


def saw_on_taper(rng, job):
    tapered(rng, job)
    (big_saw if rng.random() < 0.5 else small_saw)(rng, job)


def odd_frame(rng, job):
    job["frame"].update(seat_tube_setback_mm=between(rng, -25, 30), bb_drop_mm=between(rng, -15, 10),
                        shell_od_mm=rng.choice([36, 42, 52, 60]), shell_width_mm=rng.choice([68, 100, 121]))


def partial(rng, job):
    """Seat stays that stand wider than the seat tube lets them meet it all round."""
    job["seatstays"]["right"]["front"]["half_spacing_mm"] = between(rng, 9, 16)


def partial_shell(rng, job):
    """A chainstay high or low on the shell, so that part of it passes over."""
    tapered(rng, job)
    rise = job["frame"]["shell_od_mm"] / 2 - between(rng, 1, 7)
    job["chainstays"]["right"]["front"]["rise_mm"] = rng.choice([-1, 1]) * round(rise, 2)


def offset_boss(rng, job):
    """A boss smaller than the stay: a cut that cannot be full."""
    for side in rights(job):
        side["rear"]["end"] = {"kind": "boss", "boss_mm": between(rng, 12, 20)}


def slots(rng, job):
    for side in rights(job):
        side["rear"]["end"] = with_clearance({"kind": "slot", "plate_mm": between(rng, 3, 10),
                                              "depth_mm": between(rng, 10, 30), "overhang_mm": between(rng, 0, 12)})
        side["tube"]["od_rear_mm"] = between(rng, 12, 18)
        side["tube"]["taper_end_mm"] = 390


def high_chainstay(rng, job):
    """Chainstays that meet the seat tube above the shell."""
    front = job["chainstays"]["right"]["front"]
    front.update(half_spacing_mm=between(rng, 2, 4), rise_mm=between(rng, 45, 70),
                 end={"kind": "cope", "onto": "seat_tube"})
    job["chainstays"]["right"]["tube"].update(od_front_mm=16, od_rear_mm=16)


def wide_stance(rng, job):
    """Large splay: a short, broad rear end."""
    job["frame"].update(chainstay_length_mm=between(rng, 380, 400), axle_spacing_mm=197)
    for side in rights(job):
        side["rear"]["half_spacing_mm"] = between(rng, 90, 105)


def square_front(rng, job):
    """A front end that goes into a socket, and one stay that misses its member."""
    job["chainstays"]["right"]["front"]["end"] = {"kind": "square"}
    job["seatstays"]["right"]["front"]["half_spacing_mm"] = job["frame"]["seat_tube_od_mm"] / 2 + 14


THEMES = (straight, centred, tapered, taper_in_cut, slack_taper, sides_differ, planes_differ, big_saw, small_saw,
          saw_on_taper, odd_frame, partial, partial_shell, offset_boss, slots, high_chainstay, wide_stance,
          square_front)


def grazes(job):
    """True when some generator comes within `GRAZING_MM` of just touching its member at the widest."""
    for pair in PAIRS:
        for side in ("right", "left"):
            stay = stay_of(job, pair, side)
            for end, member in stay.members.items():
                if member and grazing(stay, end, member):
                    return True
    return False


def grazing(stay, end, member):
    across = np.cross(stay.t, member.direction)
    offset = abs((stay.front - member.point) @ across) / np.linalg.norm(across)
    rim = stay.radius(cut_middle(stay, end))
    reach = [offset + rim, offset - rim, offset + rim - stay.wall, offset - rim + stay.wall]
    return any(abs(abs(far) - cutter_radius(stay, end)) < GRAZING_MM for far in reach)


def job(index, seed=SEED):
    """Job `index`: the same for ever for one seed."""
    rng, theme = random.Random(f"{seed}/{index}"), THEMES[index % len(THEMES)]
    while True:
        drawn = base(rng)
        theme(rng, drawn)
        drawn = json.loads(json.dumps(drawn), parse_float=lambda text: round(float(text), 3))
        if not grazes(drawn):
            drawn["name"] = f"{index} {theme.__name__}"
            return drawn


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else SEED
    for index in range(count):
        print(json.dumps(job(index, seed)))


if __name__ == "__main__":
    main()
