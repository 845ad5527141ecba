"""What the kernel says of one coped end: profile, range that misses, extremes, push and gap."""
from functools import cached_property

import numpy as np
from OCP.Geom import Geom_Line
from OCP.GeomAPI import GeomAPI_IntCS

import solids
from axes import cutter_radius

PHIS = range(360)
GOLDEN = (5**0.5 - 1) / 2
# A distance is known to about 1e-13 mm, and a crossing's place to the square root of that: nearer to grazing than
# this, the generator is taken to graze.
GRAZING_MM = 1e-11


def bisect(f, low, high):
    """A place where `f` changes sign between `low` and `high`, to the last bit."""
    positive = f(low) > 0
    while True:
        middle = (low + high) / 2
        if middle in (low, high):
            return middle
        if (f(middle) > 0) == positive:
            low = middle
        else:
            high = middle


def largest(f, low, high):
    """The largest value of `f` on an interval where it has one hump (golden section)."""
    a, b = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    fa, fb = f(a), f(b)
    best = max(f(low), f(high))
    while high - low > 1e-7:
        if fa > fb:
            high, b, fb = b, a, fa
            a = high - GOLDEN * (high - low)
            fa = f(a)
        else:
            low, a, fa = a, b, fb
            b = low + GOLDEN * (high - low)
            fb = f(b)
    return max(best, fa, fb)


class Cope:
    """One end of one stay cut to its member, or to the cutter that stands in for it."""

    def __init__(self, stay, end):
        self.stay, self.end, self.member = stay, end, stay.members[end]
        self.radius = cutter_radius(stay, end)
        self.surface = solids.member_surface(self.member, self.radius)
        self.axis = solids.axis_line(self.member.point, self.member.direction)
        self.forward = 1 if end == "front" else -1

    def clear(self, phi, inset=0.0):
        return solids.clear(self.stay, phi, inset, self.axis, self.radius)

    def station(self, phi, inset=0.0):
        """Where the cut lies on the generator: the crossing nearest to the other end. None where it misses."""
        found = solids.crossings(self.stay, phi, inset, self.surface)
        return self.forward * max(self.forward * s for s in found) if found else None

    def profile(self, inset):
        return {phi: self.station(phi, inset) for phi in PHIS}

    @cached_property
    def outer(self):
        return self.profile(0.0)

    @cached_property
    def bore(self):
        return self.profile(self.stay.wall)

    @cached_property
    def misses(self):
        """Ranges of phi whose outer generator misses: (from, to), `to` beyond 360 where the range passes 0."""
        outside = [self.clear(phi)[0] > 0 for phi in PHIS]
        if all(outside) or not any(outside):
            return [(0.0, 360.0)] if all(outside) else []
        depth = lambda phi: self.clear(phi)[0]
        ranges = []
        for phi in PHIS:
            if outside[phi] and not outside[phi - 1]:
                last = phi
                while outside[last % 360]:
                    last += 1
                start = bisect(depth, phi - 1, phi)
                ranges.append((start % 360, bisect(depth, last - 1, last) - start + start % 360))
        return ranges

    @property
    def contact(self):
        if not self.misses:
            return "full"
        return "none" if self.misses == [(0.0, 360.0)] else "partial"

    @property
    def cut_ranges(self):
        """The ranges of phi that are cut: what lies between those that miss."""
        if not self.misses:
            return [(0.0, 360.0)]
        ends = sorted(self.misses)
        following = ends[1:] + [(ends[0][0] + 360, None)]
        return [(miss[1], after[0]) for miss, after in zip(ends, following)]

    def edge_station(self, phi):
        """The station on the outer profile; at a grazing generator, where it grazes."""
        passes_by, nearest = self.clear(phi)
        s = None if abs(passes_by) < GRAZING_MM else self.station(phi)
        return nearest if s is None else s

    def edge_point(self, phi):
        return self.stay.point(phi, self.edge_station(phi))

    def most(self, f):
        """The largest value of `f(phi)` over the whole outer profile, refined between the degrees."""
        best = -np.inf
        for low, high in self.cut_ranges:
            grid = np.linspace(low, high, max(3, int(high - low) + 1))
            values = [f(phi) for phi in grid]
            top = max(values)
            for i, value in enumerate(values):
                left, right = max(i - 1, 0), min(i + 1, len(grid) - 1)
                # Every hump that could still rise above the best sample.
                if value >= max(values[left], values[right]) and top - value < 0.05:
                    best = max(best, largest(f, grid[left], grid[right]))
        return best

    def least(self, f):
        return -self.most(lambda phi: -f(phi))

    @cached_property
    def tips(self):
        """(long point, short point)."""
        low, high = self.least(self.edge_station), self.most(self.edge_station)
        return (low, high) if self.end == "front" else (high, low)

    @cached_property
    def along_axis(self):
        """The reach of the outer profile along the cutter's axis, (lowest, highest)."""
        reach = lambda phi: (self.edge_point(phi) - self.member.point) @ self.member.direction
        return self.least(reach), self.most(reach)

    def push_at(self, phi, surface):
        """How far this point of the profile may slide along the stay before it meets the member."""
        start, along = self.edge_point(phi), -self.forward * self.stay.t
        meet = GeomAPI_IntCS(Geom_Line(solids.pnt(start), solids.direction(along)), surface)
        ways = [meet.Parameters(i + 1)[2] for i in range(meet.NbPoints())]
        return min(ways) if ways else np.inf

    @cached_property
    def push(self):
        surface = solids.member_surface(self.member, self.member.radius)
        return self.least(lambda phi: min(self.push_at(phi, surface), 1e6))

    @property
    def slid(self):
        """The way the finished stay goes until it touches the member."""
        return -self.forward * self.push * self.stay.t

    @cached_property
    def gap(self):
        away = lambda phi: abs(self.axis.Distance(solids.pnt(self.edge_point(phi) + self.slid)) - self.member.radius)
        return self.most(away)
