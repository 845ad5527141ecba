"""Compares one pair of bent chainstays with the solids swept along them: where they run, and what there is room for."""
import math

import numpy as np
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_Plane
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_FACE
from OCP.TopoDS import TopoDS

from axes import SIDES
from bent_solids import Laid, strayed
from compare_rooms import compare_rooms
from solids import array, subshapes, volume_and_centre


def compare_job(tally, job, plan, rooms):
    laid = Laid(job)
    pieces = list(laid.pieces(0.0, laid.length))
    lost = max(strayed(laid, piece) for piece in pieces)
    tally.number("fitted solids, off the tube (mm)", job["name"], 0.0, lost)
    compare_swept(tally, job, laid, pieces)
    for side in SIDES:
        compare_lie(tally, f"{job['name']} {side}", job, plan["pairs"]["chainstays"], side, laid, pieces)
    between = plan["pairs"]["chainstays"]["room_between_mm"]
    compare_rooms(tally, job, rooms["rooms"], between, laid, pieces, lost)


def compare_swept(tally, job, laid, pieces):
    """What the sections sweep, square to the middle: Simpson's rule is exact where a radius is linear in the station."""
    angles = np.linspace(0, 2 * math.pi, 720, endpoint=False)
    area = lambda s: math.pi * np.mean(laid.sections.radius(s, angles) ** 2)
    swept = sum((p.high - p.low) / 6 * (area(p.low) + 4 * area((p.low + p.high) / 2) + area(p.high)) for p in pieces)
    tally.number("volume swept (mm3)", job["name"], swept, sum(volume_and_centre(piece.solid)[0] for piece in pieces))


def end_face(piece, near):
    """Middle and normal of the flat face of a solid that lies about a point."""
    found = []
    for shape in subshapes(piece.solid, TopAbs_FACE):
        surface, props = BRepAdaptor_Surface(TopoDS.Face(shape)), GProp_GProps()
        if surface.GetType() == GeomAbs_Plane:
            BRepGProp.SurfaceProperties_s(shape, props, 1e-10)
            middle, axis = array(props.CentreOfMass()), surface.Plane().Axis().Direction()
            found.append((np.linalg.norm(middle - near), middle, array(axis)))
    return min(found, key=lambda face: face[0])[1:]


def compare_lie(tally, where, job, pair, side, laid, pieces):
    stay, mirror = pair[side], np.array([1.0, SIDES[side], 1.0])
    lengths = "length, chord and marks (mm)"
    tally.number(lengths, where, laid.length, stay["length_mm"])
    tally.number(lengths, where, laid.chord, stay["bent"]["chord_mm"])
    tally.number(lengths, where, laid.trim, stay["raw"]["front_mark_mm"])
    tally.number(lengths, where, laid.trim + laid.length, stay["raw"]["rear_mark_mm"])
    tally.number("splay (deg)", where, math.degrees(math.asin((laid.rear - laid.front)[1] / laid.chord)), stay["splay_deg"])
    for end, piece in (("front", pieces[0]), ("rear", pieces[-1])):
        place, way = mirror * stay[f"{end}_point_mm"], mirror * stay["bent"][f"{end}_direction"]
        middle, normal = end_face(piece, place)
        tally.deviation("end faces, middle (mm)", f"{where} {end}", np.linalg.norm(middle - place))
        # Which way a face looks is the kernel's choice.
        tally.deviation("end faces, direction", f"{where} {end}", np.linalg.norm(np.cross(normal, way)) + abs(way @ way - 1))
        tally.word(f"{where} {end} looks rearwards", True, way @ laid.u > 0)
    compare_butts(tally, where, job["chainstays"]["right"]["tube"], stay["raw"], laid)
    compare_bends(tally, where, job, stay["bent"], laid)
    compare_posts(tally, where, pair, side, laid)


def compare_butts(tally, where, tube, raw, laid):
    """The stays are cut square, so their long points are their reference points."""
    if "butts" in tube:
        first, last = tube["butts"][0]["at_mm"] - laid.trim, tube["butts"][-1]["at_mm"] - laid.trim
        tally.number("butts left (mm)", where, first, raw["front_butt_mm"])
        tally.number("butts left (mm)", where, laid.length - last, raw["rear_butt_mm"])
    else:
        tally.word(f"{where} butts", (None, None), (raw["front_butt_mm"], raw["rear_butt_mm"]))
    tally.word(f"{where} long enough", laid.trim + laid.length <= tube["length_mm"], raw["long_enough"])


def clamp(laid):
    """Origin and directions of the clamp frame; a pair without rises shares one."""
    flat = np.array([1.0, 0.0, 1.0])
    u = (laid.rear - laid.front) * flat
    u /= np.linalg.norm(u)
    return laid.front * flat, u, np.cross(u, [0.0, 1.0, 0.0])


def compare_bends(tally, where, job, bent, laid):
    origin, u, w = clamp(laid)
    bends = [(low, high) for low, high, bend in laid.stretches() if bend]
    tally.word(f"{where} bends", len(bends), len(bent["bends"]))
    for (low, high), found in zip(bends, bent["bends"]):
        apex = laid.at((low + high) / 2)[0]
        for expected, key in ((low, "from_mm"), ((low + high) / 2, "apex_mm"), (high, "to_mm"),
                              ((apex - origin) @ u, "along_mm"), ((apex - origin) @ w, "from_plane_mm"),
                              (apex[1], "from_centre_mm")):
            tally.number("bends (mm)", f"{where} {key}", expected, found[key])


def compare_posts(tally, where, pair, side, laid):
    """Where the middle passes each post, and how much of it runs straight before and behind."""
    origin, u, _ = clamp(laid)
    for post in pair["posts"]:
        low, high = -100.0, laid.length + 100.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if (laid.at(middle)[0] - origin) @ u < post["u_mm"] else (low, middle)
        kind = "posts, axis and straight tube (mm)"
        tally.number(kind, where, laid.at(low)[0][1], post[f"{side}_mm"])
        first, last, bend = next(stretch for stretch in laid.stretches() if low <= stretch[1])
        straight = (0.0, 0.0) if bend else (low - max(first, 0.0), min(last, laid.length) - low)
        for expected, found in zip(straight, post[f"{side}_straight_mm"]):
            tally.number(kind, where, expected, found)
