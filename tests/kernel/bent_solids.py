"""A laid tube as the kernel's solids.

Between two stations at which nothing changes its way a tube is one of these, and all but the last two are exact: a cylinder, a
cone, a torus, an ellipse pushed along a line or turned about a bend's axis; a circle that grows along an arc, swept along it
under a linear law; and a loft from circle to ellipse, through sections whose points the README's words give by direction.
`strayed` says how far the last two miss: the kernel's distance from points that lie on the tube, between the sections.
"""
import math

import numpy as np
from OCP.collections import HArray1_double, HArray1_gp_Pnt
from OCP.BRepBuilderAPI import (BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire)
from OCP.BRepOffsetAPI import BRepOffsetAPI_MakePipeShell, BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import (BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol,
                             BRepPrimAPI_MakeTorus)
from OCP.GC import GC_MakeArcOfCircle
from OCP.GeomAPI import GeomAPI_Interpolate
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Elips, gp_Vec
from OCP.Law import Law_Linear
from OCP.TopAbs import TopAbs_SHELL

from bent_tube import Lie, Sections
from solids import direction, distance_to, pnt, subshapes

# Points of a loft's section, and sections of a loft along an arc. Twice as many points stray a fifteenth as far.
POINTS, ALONG_ARC = 128, 7
FITTED_MM = 1e-7
# Shorter pieces are rounding.
LEAST_MM = 1e-9


class Piece:
    """One solid between two stations, and whether it was fitted."""

    def __init__(self, low, high, solid, fitted=False):
        self.low, self.high, self.solid, self.fitted = low, high, solid, fitted

    @property
    def skin(self):
        return subshapes(self.solid, TopAbs_SHELL)[0]


class Laid(Lie):
    """A right chainstay between any two stations as solids; a left one is its mirror."""

    def __init__(self, job):
        super().__init__(job)
        self.sections = Sections(job["chainstays"]["right"]["tube"])

    def solids(self, low, high):
        return [piece.solid for piece in self.pieces(low, high)]

    def pieces(self, low, high):
        """Front to rear."""
        for start, end, bend in self.stretches():
            start, end = max(low, start), min(high, end)
            knots = sorted(knot for knot in {start, end, *self.sections.knots()} if start <= knot <= end)
            for a, b in zip(knots, knots[1:]):
                if b - a > LEAST_MM:
                    yield self.piece(a, b, bend)

    def piece(self, a, b, bend):
        pressed = self.sections.pressed(0.5 * (a + b))
        if pressed is None:
            radii = self.sections.round(a), self.sections.round(b)
            return self.cone(a, b, radii) if bend is None else self.arc(a, b, radii, bend)
        oval, share, _ = pressed
        if share == 1.0:
            return Piece(a, b, self.pushed(a, b, oval) if bend is None else self.swung(a, b, oval, bend))
        return Piece(a, b, self.loft(np.linspace(a, b, 2 if bend is None else ALONG_ARC), bend is None), fitted=True)

    def cone(self, a, b, radii):
        place, along, _ = self.at(a)
        axes = gp_Ax2(pnt(place), direction(along))
        if radii[0] == radii[1]:
            return Piece(a, b, BRepPrimAPI_MakeCylinder(axes, float(radii[0]), float(b - a)).Shape())
        return Piece(a, b, BRepPrimAPI_MakeCone(axes, float(radii[0]), float(radii[1]), float(b - a)).Shape())

    def arc(self, a, b, radii, bend):
        if radii[0] != radii[1]:
            return Piece(a, b, self.swept(a, b, radii), fitted=True)
        (radius, side), (place, along, _) = bend, self.at(a)
        out = np.cross(along, side)
        axes = gp_Ax2(pnt(place - out * radius), direction(side), direction(out))
        return Piece(a, b, BRepPrimAPI_MakeTorus(axes, float(radius), float(radii[0]), float((b - a) / radius)).Shape())

    def swept(self, a, b, radii):
        points = [pnt(self.at(s)[0]) for s in (a, 0.5 * (a + b), b)]
        spine = BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(*points).Value()).Edge()
        place, along, _ = self.at(a)
        rim = BRepBuilderAPI_MakeEdge(gp_Circ(gp_Ax2(pnt(place), direction(along)), 1.0)).Edge()
        growing = Law_Linear()
        growing.Set(0.0, float(radii[0]), float(b - a), float(radii[1]))
        pipe = BRepOffsetAPI_MakePipeShell(BRepBuilderAPI_MakeWire(spine).Wire())
        pipe.SetTolerance(FITTED_MM, FITTED_MM, 1e-4)
        pipe.SetLaw(BRepBuilderAPI_MakeWire(rim).Wire(), growing, False, False)
        pipe.Build()
        pipe.MakeSolid()
        return pipe.Shape()

    def face(self, station, oval):
        place, along, mark = self.at(station)
        height = np.cross(along, mark)
        roll = math.radians(oval["roll_deg"])
        wide, high = oval["width_mm"] / 2, oval["height_mm"] / 2
        larger = roll if wide >= high else roll + math.pi / 2
        axes = gp_Ax2(pnt(place), direction(along), direction(mark * math.cos(larger) + height * math.sin(larger)))
        edge = BRepBuilderAPI_MakeEdge(gp_Elips(axes, float(max(wide, high)), float(min(wide, high)))).Edge()
        return BRepBuilderAPI_MakeFace(BRepBuilderAPI_MakeWire(edge).Wire(), True).Face()

    def pushed(self, a, b, oval):
        by = self.at(a)[1] * (b - a)
        return BRepPrimAPI_MakePrism(self.face(a, oval), gp_Vec(*map(float, by))).Shape()

    def swung(self, a, b, oval, bend):
        (radius, side), (place, along, _) = bend, self.at(a)
        axis = gp_Ax1(pnt(place + np.cross(side, along) * radius), direction(side))
        return BRepPrimAPI_MakeRevol(self.face(a, oval), axis, float((b - a) / radius)).Shape()

    def loft(self, stations, straight):
        loft = BRepOffsetAPI_ThruSections(True, straight, FITTED_MM)
        loft.CheckCompatibility(False)
        for station in stations:
            loft.AddWire(self.rim(station))
        loft.Build()
        return loft.Shape()

    def rim(self, station):
        """The section's edge, run through by direction, so that the loft joins like directions."""
        angles = np.linspace(0, 2 * math.pi, POINTS + 1)
        points, places = HArray1_gp_Pnt(1, POINTS), HArray1_double(1, POINTS + 1)
        for i, point in enumerate(self.surface(station, angles[:-1])):
            points.SetValue(i + 1, pnt(point))
        for i, angle in enumerate(angles):
            places.SetValue(i + 1, float(angle))
        through = GeomAPI_Interpolate(points, places, True, 1e-9)
        through.Perform()
        return BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(through.Curve()).Edge()).Wire()

    def surface(self, station, angles):
        """Points of the surface at a station in directions from the mark."""
        place, along, mark = self.at(station)
        radii = self.sections.radius(station, angles)[:, None]
        return place + radii * (np.outer(np.cos(angles), mark) + np.outer(np.sin(angles), np.cross(along, mark)))


def strayed(laid, piece):
    """How far a fitted piece misses points of the tube, half way between the points and the sections it was fitted to."""
    if not piece.fitted:
        return 0.0
    stations = piece.low + (piece.high - piece.low) * (np.arange(3) + 0.5) / (ALONG_ARC - 1)
    angles = 2 * math.pi * (np.array([5, 37, 70, 101]) + 0.5) / POINTS
    return max(distance_to(point, piece.skin) for s in stations for point in laid.surface(s, angles))
