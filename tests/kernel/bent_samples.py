"""Dense samples of a laid tube's skin and of its flat ends, and the nearest of them to anything."""
import math

import numpy as np

# Coarse steps along and round the tube, mm and number; no point of the skin lies further than `COARSE_MM` from a sample.
STEP_MM, ROUND, COARSE_MM = 2.0, 96, 1.5
# Circles on a flat end.
CIRCLES = 10
# The lowest few valleys are narrowed roughly, the lowest of them to the end: of so many places in a row the best and what lies
# between its neighbours are kept, in each row by the angle first.
VALLEYS, FIRST, ROUNDS = 4, 3, 14
GRID, NARROWER = np.linspace(-1.0, 1.0, 9), 0.3


class Samples:
    """Points by station, share of the radius and direction from the mark: circles of the skin, then those on the two ends."""

    def __init__(self, laid):
        self.laid, length = laid, laid.length
        joints = [s for stretch in laid.stretches() for s in stretch[:2]] + laid.sections.knots()
        steps = np.linspace(0.0, length, 2 + int(length / STEP_MM))
        skin = np.array(sorted({*steps, *(s for s in joints if 0.0 < s < length)}))
        shares = np.linspace(0.0, 1.0, CIRCLES)
        self.stations = np.concatenate([skin, np.zeros(CIRCLES), np.full(CIRCLES, length)])
        self.shares = np.concatenate([np.ones(len(skin)), shares, shares])
        self.on_end = np.arange(len(self.stations)) >= len(skin)
        self.angles = 2 * math.pi * np.arange(ROUND) / ROUND
        self.points = np.array([self.circle(*place)(self.angles) for place in zip(self.stations, self.shares)])

    def circle(self, station, share):
        """The points of one circle by direction."""
        place, along, mark = self.laid.at(station)
        height, radius = np.cross(along, mark), self.laid.sections.radius
        return lambda angles: place + share * radius(station, angles)[:, None] * (
            np.outer(np.cos(angles), mark) + np.outer(np.sin(angles), height))

    def nearest(self, distances):
        """The least distance, its station and point, and the least coarse distance of each circle."""
        coarse = distances(self.points)
        rough = [self.narrowed(distances, FIRST, *valley) for valley in self.valleys(coarse)]
        least, point, station, *_ = self.narrowed(distances, ROUNDS, *min(rough, key=lambda found: found[0])[2:])
        return least, station, point, coarse.min(axis=1)

    def valleys(self, coarse):
        """The lowest circles that are not each other's neighbours: station, share, direction, and whether on an end."""
        found = []
        for i in np.argsort(coarse.min(axis=1)):
            apart = [self.on_end[i] != self.on_end[j] or abs(self.stations[i] - self.stations[j]) > 3 * STEP_MM for j in found]
            if len(found) < VALLEYS and all(apart):
                found.append(i)
        return [(self.stations[i], self.shares[i], self.angles[coarse[i].argmin()], self.on_end[i]) for i in found]

    def narrowed(self, distances, rounds, station, share, angle, on_end):
        """The valley about one place: its least distance, the point, and that point's place."""
        reach, best = (1.0 / CIRCLES if on_end else STEP_MM), (math.inf,)
        for _ in range(rounds):
            tried = np.clip(share + reach * GRID, 0, 1) if on_end else np.clip(station + reach * GRID, 0, self.laid.length)
            for place in tried:
                where = (station, place) if on_end else (place, share)
                least, point, turn = lowest(distances, self.circle(*where), angle)
                if least < best[0]:
                    best = (least, point, *where, turn, on_end)
            _, _, station, share, angle, _ = best
            reach *= NARROWER
        return best


def lowest(distances, circle, angle):
    """The least distance of a circle's points about a direction."""
    turn = 6 * math.pi / ROUND
    for _ in range(ROUNDS):
        angles = angle + turn * GRID
        points = circle(angles)
        found = distances(points)
        i = found.argmin()
        angle, turn = angles[i], turn * NARROWER
    return found[i], points[i], angle
