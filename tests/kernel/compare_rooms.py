"""Compares the rooms of bent stays with the kernel's least distance between solids, and with dense samples of the skin.

What a room may be off. `gap_mm` is the room at the place named and the least room of all is at most `within_mm` less, so the
kernel's distance d lies between gap - within and gap. To that come, measured for each room:
 - how far the place named lies off the swept skin (`off_skin`), if the gap is smaller than d;
 - how far the nearest place of the skin lies beyond the balls whose hull the README's stay is (`beyond_balls`), if larger;
 - how far the fitted pieces miss the tube (`strayed`).
The first two may be no more than `ball_bound`, worked out by hand; the third no more than its row of `TOLERANCES`.
"""
import math

import numpy as np
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.gp import gp_Pln
from OCP.TopAbs import TopAbs_SHELL

from axes import SIDES
from bent_jobs import neighbours
from bent_samples import COARSE_MM, Samples, beyond_balls
from bent_tally import TOLERANCES
from solids import direction, distance, distance_to, pnt, subshapes

# Shapes that touch have distance 0 in the kernel, however deep: below this only whether they do is compared.
TOUCHING_MM = 0.01
# Places at which the width across the bicycle is looked at.
WIDTHS = 200


def bend_bound(laid):
    """By how much balls and swept circles may lie apart in a tapering bend.

    A ball of radius r on a taper of slope t touches the cone r t off its middle. Along a bend of curvature c the middle leaves
    its tangent there by (r t)^2 c / 2, and the circle tilts by r t c, which moves its rim r (r t c) along the cone and so
    r t c r t outwards.
    """
    sections = laid.sections
    start, end = sections.taper
    bends = [1 / bend[0] for low, high, bend in laid.stretches() if bend and low < end and high > start]
    return 1.5 * (sections.widest() * sections.taper_slope()) ** 2 * max(bends, default=0.0)


def ball_bound(laid):
    """The same at a corner of the taper too: the last ball stands back from the rim by r (1 - cos) of the slope, less than
    r t^2 / 2, or reaches as far out over what lies beyond. An oval, what is near it and the ends are their sections."""
    return bend_bound(laid) + laid.sections.widest() * laid.sections.taper_slope() ** 2 / 2


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
    found = {side: mine[side]["other_stay"]["gap_mm"] for side in SIDES}
    compare_other(tally, job["name"], {**found, "plan": between}, samples, laid, pieces)


def compare_room(tally, where, gap, nearest, laid, pieces, mirror, lost):
    here, there = mirror * gap["stay_point_mm"], mirror * gap["neighbour_point_mm"]
    if nearest.kernel <= TOUCHING_MM or gap["gap_mm"] <= TOUCHING_MM:
        apart = gap["gap_mm"] > 2 * TOUCHING_MM
        tally.deviation("room, run into or not", where, 0 if apart == (nearest.kernel > 2 * TOUCHING_MM) else math.inf)
        return
    bound = ball_bound(laid)
    off_skin = min(distance_to(here, piece.skin) for piece in pieces)
    beyond = beyond_balls(laid, nearest.point, nearest.station)
    tally.number("skin beyond the balls, over the bound (mm)", where, 0.0, max(0.0, beyond - bound))
    tally.number("room, place named off the skin (mm)", where, 0.0, max(0.0, off_skin - bound))
    tally.most(f"balls and skin apart, {tube_kind(laid)} tubes (mm)", max(beyond, off_skin - lost))
    place, along, _ = laid.at(gap["station_mm"])
    # A ball touches as far off its middle as the cone is steep; the last one before a corner may reach twice as far.
    steep = 2 * laid.sections.taper_slope()
    lean = abs((here - place) @ along) - steep * np.linalg.norm(here - place)
    tally.number("room, station of the place (mm)", where, 0.0, max(0.0, lean))
    tally.number("room, between the points named (mm)", where, gap["gap_mm"], np.linalg.norm(here - there))
    tally.number("room, point named on the neighbour (mm)", where, 0.0, distance_to(there, nearest.skin))
    for kind, found, loss in (("room, kernel's distance (mm)", nearest.kernel, lost),
                              ("room, dense samples (mm)", nearest.sampled, 0.0)):
        over = gap["gap_mm"] - found - gap["within_mm"] - beyond - loss
        under = found - gap["gap_mm"] - off_skin
        tally.deviation(kind, where, max(0.0, over, under), f"expected {found!r} got {gap['gap_mm']!r}")


class Middle:
    """The plane that mirrors one stay into the other."""

    def solid(self):
        return BRepBuilderAPI_MakeFace(gp_Pln(pnt([0, 0, 0]), direction([0, 1, 0])), -900.0, 900.0, -900.0, 900.0).Face()

    def distances(self, points):
        return points[..., 1]


def tube_kind(laid):
    return "oval" if laid.sections.ovals else "round"


def compare_other(tally, where, rooms, samples, laid, pieces):
    """Two stays that are each other's mirror are twice as far apart as one is from the middle plane.

    As the README has it, the ends of round tubes count as round: there the room may be less, as far as a ball at an end reaches
    further. With an oval the sections and the flat ends count.
    """
    nearest = Nearest(samples, pieces, Middle())
    tally.missed += nearest.missed
    most = least = 2 * nearest.kernel
    if laid.sections.ovals:
        most, least = most + 2 * ball_bound(laid), least - 2 * ball_bound(laid)
    else:
        stations = np.linspace(0.0, laid.length, WIDTHS)
        widths = np.array([laid.sections.round(s) for s in stations])
        balls = [distance_to(laid.at(stations[end])[0], nearest.solid) - widths[end] for end in (0, -1)]
        least = 2 * min(nearest.kernel, *balls)
        # The balls of a cone stand back from its rim where they end.
        about = widths[np.abs(stations - nearest.station) < 3 * stations[1]]
        most += max(about) * (np.abs(np.diff(about)).max() / stations[1]) ** 2 + 2 * bend_bound(laid)
    for who, found in rooms.items():
        tally.deviation(f"room to the other stay, {tube_kind(laid)} (mm)", f"{where} {who}",
                        max(0.0, found - most, least - found), f"expected {least!r} to {most!r} got {found!r}")
