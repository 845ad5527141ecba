"""A slotted rear end against a box taken out of the kernel's solid."""
import numpy as np

import solids
from axes import Y

MOUTH, ROOT = "mouth_phi_deg", "root_phi_deg"


def corners(stay, width, root, beyond):
    """The slot's outline in the stays' plane, below the tube: its faces square to y, its root square to the stay."""
    outline = []
    for side, s in ((-1, root), (1, root), (1, beyond), (-1, beyond)):
        y = stay.sigma * stay.half_spacing_rear + side * width / 2
        # The point of the stays' plane at that y whose station is s.
        axes = np.array([stay.t, Y, stay.clamp.w])
        outline.append(np.linalg.solve(axes, [s + stay.front @ stay.t, y, stay.front @ stay.clamp.w]))
    return outline


def slotted(stay, mouth, root, width):
    solid = solids.stay_solid(stay, stay.length / 2, mouth)
    deep = 4 * stay.radius(root)
    outline = [corner - deep * stay.clamp.w for corner in corners(stay, width, root, mouth + 60)]
    return solids.difference(solid, solids.prism(outline, 2 * deep * stay.clamp.w))


def angles(stay, solid, s, y):
    """Where, round the outside at station s, the solid has corners on the plane at y."""
    found = []
    for p in solids.vertices(solid):
        along = (p - stay.front) @ stay.t
        off = solids.radius_from(p, stay.front, stay.t) - stay.radius(s)
        if max(abs(along - s), abs(off), abs(p[1] - y)) < solids.SAME_MM:
            out = p - stay.front
            found.append(np.degrees(np.arctan2(out @ stay.e1, out @ stay.e0)) % 360)
    return sorted(found)


def compare_angles(tally, where, expected, got, radius):
    tally.word(f"{where} leaves the tube", len(expected), len(got or []))
    for phi, mine in zip(expected, sorted(value % 360 for value in got or [])):
        apart = abs((phi - mine + 180) % 360 - 180)
        tally.deviation("slot face (mm of arc)", where, np.radians(apart) * radius, f"expected {phi} got {mine}")


def compare_slot(tally, where, stay, end, cut):
    given = stay.ends[end]
    mouth = stay.length + given["overhang_mm"]
    root = mouth - given["depth_mm"]
    splay = np.degrees(np.arcsin(stay.sigma * stay.t[1]))
    tally.number("angle (deg)", where, abs(splay), cut.get("angle_deg"))
    tally.number("slot station (mm)", f"{where} mouth", mouth, cut.get("mouth_s_mm"))
    tally.number("slot station (mm)", f"{where} root", root, cut.get("root_s_mm"))
    tally.number("slot station (mm)", f"{where} plate", given["plate_mm"], cut.get("plate_mm"))
    width = given["plate_mm"] + given.get("clearance_mm", 0)
    tally.number("slot station (mm)", f"{where} width", width, cut.get("width_mm"))
    solid = slotted(stay, mouth, root, width)
    faces = {face["side"]: face for face in cut.get("faces") or []}
    for side, out in (("inboard", -1), ("outboard", 1)):
        y = stay.sigma * (stay.half_spacing_rear + out * width / 2)
        for key, s in ((MOUTH, mouth), (ROOT, root)):
            got = faces.get(side, {}).get(key)
            compare_angles(tally, f"{where} {side} {key}", angles(stay, solid, s, y), got, stay.radius(s))
