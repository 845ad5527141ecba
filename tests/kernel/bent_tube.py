"""A bent tube by the words of the README: bent by the kernel's turns, laid by a search of its own, and its radius all round."""
import math

import numpy as np
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec

from axes import axle


def turned(v, axis, angle):
    trsf = gp_Trsf()
    trsf.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*map(float, axis))), float(angle))
    moved = gp_Vec(*map(float, v)).Transformed(trsf)
    return np.array([moved.X(), moved.Y(), moved.Z()])


def bent_tube(table):
    """Stretches of the raw tube from its front end at the origin along x: (length, start, along, mark, bend).

    The mark is the side that faced outboard before the first bend; it is carried along and never turned about the tube. A bend
    is its radius and the direction of the axis that it turns about.
    """
    place, along, mark = np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0])
    found, rotation = [], 0.0
    for bend in table:
        found.append((bend["before_mm"], place, along, mark, None))
        place = place + along * bend["before_mm"]
        rotation += math.radians(bend["rotation_deg"])
        towards = turned(mark, along, rotation)
        radius, angle, side = bend["radius_mm"], math.radians(bend["angle_deg"]), np.cross(along, towards)
        found.append((radius * angle, place, along, mark, (radius, side)))
        middle = place + towards * radius
        place = middle + turned(place - middle, side, angle)
        along, mark = turned(along, side, angle), turned(mark, side, angle)
    found.append((math.inf, place, along, mark, None))
    return found


def at(tube, station):
    """Place, direction and mark at a station of the raw tube; before its front end it goes straight on."""
    for length, place, along, mark, bend in tube:
        if station <= length:
            if bend is None:
                return place + along * station, along, mark
            radius, side = bend
            middle = place + np.cross(side, along) * radius
            angle = station / radius
            return middle + turned(place - middle, side, angle), turned(along, side, angle), turned(mark, side, angle)
        station -= length
    raise AssertionError


def rear_station(tube, trim, chord):
    """The station whose place is `chord` from that at `trim`, by halving."""
    front = at(tube, trim)[0]
    low, high = trim, trim + 3 * chord
    for _ in range(60):
        middle = 0.5 * (low + high)
        if np.linalg.norm(at(tube, middle)[0] - front) < chord:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


class Lie:
    """Where a right chainstay runs, in frame axes; a left one is its mirror. Stations count from the front reference point."""

    def __init__(self, job):
        side = job["chainstays"]["right"]
        self.axle = axle(job["frame"])
        self.u = self.axle / np.linalg.norm(self.axle)
        self.front = np.array([0.0, side["front"]["half_spacing_mm"], 0.0])
        self.rear = self.axle - self.u * side["rear"]["reach_mm"] + [0.0, side["rear"]["half_spacing_mm"], 0.0]
        tube = side["tube"]
        self.trim, self.tube = tube["front_trim_mm"], bent_tube(tube["bends"])
        self.chord = np.linalg.norm(self.rear - self.front)
        self.length = rear_station(self.tube, self.trim, self.chord) - self.trim
        self.turn = self.frames(math.radians(tube["roll_deg"]))

    def frames(self, roll):
        """The rotation from the raw tube's directions to the frame's."""
        raw = (at(self.tube, self.trim + self.length)[0] - at(self.tube, self.trim)[0]) / self.chord
        there = (self.rear - self.front) / self.chord
        mark = self.tube[0][3]
        flat = mark - raw * (mark @ raw)
        flat /= np.linalg.norm(flat)
        out = np.array([0, 1.0, 0]) - there * there[1]
        out /= np.linalg.norm(out)
        # From outboard upwards: about the chord on the right.
        out = turned(out, there, roll)
        one = np.column_stack([raw, flat, np.cross(raw, flat)])
        other = np.column_stack([there, out, np.cross(there, out)])
        return other @ one.T

    def place(self, raw):
        return self.front + self.turn @ (raw - at(self.tube, self.trim)[0])

    def at(self, station):
        """Place, direction and mark in frame axes."""
        place, along, mark = at(self.tube, self.trim + station)
        return self.place(place), self.turn @ along, self.turn @ mark

    def direction(self, station):
        return self.at(station)[1]

    def stretches(self):
        """Each stretch's first and last station, and its bend in frame axes."""
        start = -self.trim
        for length, _, _, _, bend in self.tube:
            yield start, start + length, bend and (bend[0], self.turn @ bend[1])
            start += length


class Sections:
    """A tube's radius by station and by the angle from its mark, from outboard upwards."""

    def __init__(self, tube):
        self.trim = tube["front_trim_mm"]
        self.ends = tube["od_front_mm"] / 2, tube["od_rear_mm"] / 2
        self.taper = [tube.get(key, 0.0) - self.trim for key in ("taper_start_mm", "taper_end_mm")]
        self.ovals = tube.get("ovals", [])

    def knots(self):
        """Stations at which the section changes its way, the taper's first."""
        found = list(self.taper) if self.ends[0] != self.ends[1] else []
        for oval in self.ovals:
            low, high = (oval[key] - self.trim for key in ("from_mm", "to_mm"))
            found += [low - oval["blend_mm"], low, high, high + oval["blend_mm"]]
        return found

    def round(self, station):
        """Radius of the tube as it was before it was pressed."""
        if self.ends[0] == self.ends[1]:
            return self.ends[0]
        (start, end), (front, rear) = self.taper, self.ends
        return front + (rear - front) * min(max((station - start) / (end - start), 0.0), 1.0)

    def taper_slope(self):
        """How fast the round tube's radius changes by station where it tapers."""
        front, rear = self.ends
        return 0.0 if front == rear else abs(rear - front) / (self.taper[1] - self.taper[0])

    def pressed(self, station):
        """The oval that reaches a station, how much of it has grown there and from which round radius; None where none does."""
        for oval in self.ovals:
            low, high, blend = oval["from_mm"] - self.trim, oval["to_mm"] - self.trim, oval["blend_mm"]
            if low - blend < station < high + blend:
                share = min((station - low) / blend + 1, (high - station) / blend + 1, 1.0)
                return oval, share, self.round(low - blend if station < low else high + blend)
        return None

    def radius(self, station, angles):
        """Every generator runs straight from the round tube to the ellipse: the radii in the directions `angles`."""
        pressed = self.pressed(station)
        if pressed is None:
            return np.full(np.shape(angles), self.round(station))
        oval, share, plain = pressed
        return plain + share * (ellipse(oval, angles) - plain)


def ellipse(oval, angles):
    """Radius of an oval in directions from the mark."""
    a, b = oval["width_mm"] / 2, oval["height_mm"] / 2
    away = np.asarray(angles) - math.radians(oval["roll_deg"])
    return a * b / np.hypot(b * np.cos(away), a * np.sin(away))
