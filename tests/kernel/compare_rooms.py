"""Compares the rooms of bent stays with the kernel's least distance between solids, and with dense samples of the skin.

`gap_mm` is the room at the place named and the least room of all is at most `within_mm` less, so the kernel's distance d lies
between gap - within and gap, as far as the fitted pieces miss the tube (`strayed`). The place named must lie on the skin.
"""
import math

import numpy as np
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.gp import gp_Pln
from OCP.TopAbs import TopAbs_SHELL

from axes import SIDES
from bent_jobs import neighbours
from bent_samples import COARSE_MM, Samples
from bent_tally import TOLERANCES
from solids import direction, distance, distance_to, pnt, subshapes

# Shapes that touch have distance 0 in the kernel, however deep: below this only whether they do is compared.
TOUCHING_MM = 0.01


class Nearest:
    """The nearest place of a stay to a neighbour: by samples, and by the kernel's least distance between solids.

    Pieces that the samples show to be further away are not asked for. Where the kernel's search stopped at a place that is not
    the nearest, its distance from the nearest sample counts.
    """

    def __init__(self, samples, pieces, body):
        self.solid = body.solid()
        # A point inside a solid has no distance from it; from its skin it has.
        self.skin = (subshapes(self.solid, TopAbs_SHELL) or [self.solid])[0]
        self.sampled, self.station, self.point, coarse = samples.nearest(body.distances)
        hopeful = coarse <= coarse.min() + COARSE_MM
        stations = samples.stations[hopeful]
        near = [p for p in pieces if ((p.low - 1e-9 <= stations) & (stations <= p.high + 1e-9)).any()]
        searched = min(distance(piece.solid, self.solid) for piece in near)
        self.missed = searched > self.sampled + TOLERANCES["fitted solids, off the tube (mm)"]
        self.kernel = min(searched, distance_to(self.point, self.solid)) if self.missed else searched


def compare_rooms(tally, job, rooms, between, laid, pieces, lost):
    samples, beside = Samples(laid), neighbours(laid.axle, job)
    of_pair = [room for room in rooms if room["pair"] == "chainstays"]
    mine = {room["hand"]: {gap["to"]: gap for gap in room["gaps"]} for room in of_pair}
    known = {}
    for side, sign in SIDES.items():
        for name, body in beside[side].items():
            where = f"{job['name']} {side} {name}"
            gap = mine[side].get(name)
            if gap is None:
                tally.word(where, "a room", None)
                continue
            # Neighbours on both sides are the mirrors of each other, and so are the stays.
            if name not in known:
                known[name] = Nearest(samples, pieces, body)
                tally.missed += known[name].missed
            compare_room(tally, where, gap, known[name], laid, pieces, np.array([1.0, sign, 1.0]), lost)
    others = {side: mine[side]["other_stay"] for side in SIDES}
    found = {side: gap["gap_mm"] for side, gap in others.items()}
    within = max(gap["within_mm"] for gap in others.values())
    compare_other(tally, job["name"], {**found, "plan": between}, within, samples, laid, pieces)


def compare_room(tally, where, gap, nearest, laid, pieces, mirror, lost):
    here, there = mirror * gap["stay_point_mm"], mirror * gap["neighbour_point_mm"]
    if nearest.kernel <= TOUCHING_MM or gap["gap_mm"] <= TOUCHING_MM:
        apart = gap["gap_mm"] > 2 * TOUCHING_MM
        tally.deviation("room, run into or not", where, 0 if apart == (nearest.kernel > 2 * TOUCHING_MM) else math.inf)
        return
    off_skin = min(distance_to(here, piece.skin) for piece in pieces)
    tally.number("room, place named off the skin (mm)", where, 0.0, max(0.0, off_skin - lost))
    place, along, _ = laid.at(gap["station_mm"])
    # A ball touches a cone as far off its middle as that is steep.
    steep = laid.sections.taper_slope()
    lean = abs((here - place) @ along) - steep * np.linalg.norm(here - place)
    tally.number("room, station of the place (mm)", where, 0.0, max(0.0, lean))
    tally.number("room, between the points named (mm)", where, gap["gap_mm"], np.linalg.norm(here - there))
    tally.number("room, point named on the neighbour (mm)", where, 0.0, distance_to(there, nearest.skin))
    for kind, found, loss in (("room, kernel's distance (mm)", nearest.kernel, lost),
                              ("room, dense samples (mm)", nearest.sampled, 0.0)):
        over = gap["gap_mm"] - found - gap["within_mm"] - loss
        under = found - gap["gap_mm"] - loss
        tally.deviation(kind, where, max(0.0, over, under), f"expected {found!r} got {gap['gap_mm']!r}")


class Middle:
    """The plane that mirrors one stay into the other."""

    def solid(self):
        return BRepBuilderAPI_MakeFace(gp_Pln(pnt([0, 0, 0]), direction([0, 1, 0])), -900.0, 900.0, -900.0, 900.0).Face()

    def distances(self, points):
        return points[..., 1]


def tube_kind(laid):
    return "oval" if laid.sections.ovals else "round"


def compare_other(tally, where, rooms, within, samples, laid, pieces):
    """Two stays that are each other's mirror are twice as far apart as one is from the middle plane."""
    nearest = Nearest(samples, pieces, Middle())
    tally.missed += nearest.missed
    expected = 2 * nearest.kernel
    for who, found in rooms.items():
        tally.deviation(f"room to the other stay, {tube_kind(laid)} (mm)", f"{where} {who}",
                        max(0.0, found - expected - within, expected - found), f"expected {expected!r} got {found!r}")
