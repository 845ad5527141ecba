"""Where every axis of a job lies: plain vector work from the words of the README, no kernel and no plan.

Axes: origin at the middle of the shell, x rearwards, y to the drive side, z up; millimetres.
"""
import copy
from dataclasses import dataclass
from math import cos, radians, sin, sqrt

import numpy as np

Y = np.array([0.0, 1.0, 0.0])
PAIRS = ("chainstays", "seatstays")
SIDES = {"right": 1.0, "left": -1.0}


def unit(v):
    return v / np.linalg.norm(v)


@dataclass(frozen=True)
class Member:
    """A round member: a point of its axis, the axis' direction, its radius."""
    name: str
    point: np.ndarray
    direction: np.ndarray
    radius: float


@dataclass(frozen=True)
class Clamp:
    """The clamp frame (u, v = y, w) and its origin."""
    origin: np.ndarray
    u: np.ndarray
    w: np.ndarray


@dataclass(frozen=True)
class Stay:
    """One straight stay: axis from `front` along `t`, outer radius broken at `knots` (s, radius)."""
    sigma: float
    front: np.ndarray
    t: np.ndarray
    length: float
    clamp: Clamp
    knots: tuple
    wall: float
    half_spacing_rear: float
    ends: dict
    members: dict

    @property
    def e0(self):
        return unit(self.clamp.w - (self.clamp.w @ self.t) * self.t)

    @property
    def e1(self):
        return np.cross(self.t, self.e0)

    def normal(self, phi):
        """Unit vector at `phi` degrees round the stay, seen from the front looking rearwards."""
        return cos(radians(phi)) * self.e0 + sin(radians(phi)) * self.e1

    def radius(self, s):
        stations, radii = zip(*self.knots)
        return float(np.interp(s, stations, radii))

    def point(self, phi, s, inset=0.0):
        """The point of the surface `inset` inside the outer one on the generator at `phi`."""
        return self.front + s * self.t + (self.radius(s) - inset) * self.normal(phi)


def axle(frame):
    length, drop = frame["chainstay_length_mm"], frame["bb_drop_mm"]
    return np.array([sqrt(length**2 - drop**2), 0.0, drop])


def seat_tube(frame):
    """Foot of the shell centre on the seat tube's axis, and that axis' direction."""
    a, back = radians(frame["seat_angle_deg"]), frame["seat_tube_setback_mm"]
    return back * np.array([sin(a), 0.0, -cos(a)]), np.array([cos(a), 0.0, sin(a)])


def front_datum(job, pair):
    if pair == "chainstays":
        return np.zeros(3)
    foot, e = seat_tube(job["frame"])
    return foot + job[pair]["front_station_mm"] * e


def merged(base, over):
    """`over` laid on `base`; an end is taken whole, everything else key by key."""
    out = copy.deepcopy(base)
    for key, value in (over or {}).items():
        nested = isinstance(value, dict) and key != "end"
        out[key] = merged(base[key], value) if nested else value
    return out


def side_of(job, pair, side):
    right = job[pair]["right"]
    return right if side == "right" else merged(right, job[pair].get("left"))


def member_of(job, end, boss_centre):
    """The member an end is coped onto, or None."""
    frame = job["frame"]
    if end["kind"] == "boss":
        return Member("boss", boss_centre, Y, end["boss_mm"] / 2)
    if end["kind"] != "cope":
        return None
    if end["onto"] == "shell":
        return Member("shell", np.zeros(3), Y, frame["shell_od_mm"] / 2)
    foot, e = seat_tube(frame)
    return Member("seat_tube", foot, e, frame["seat_tube_od_mm"] / 2)


def knots_of(tube):
    trim = tube["front_trim_mm"]
    return ((tube["taper_start_mm"] - trim, tube["od_front_mm"] / 2),
            (tube["taper_end_mm"] - trim, tube["od_rear_mm"] / 2))


def stay_of(job, pair, side):
    given, sigma = side_of(job, pair, side), SIDES[side]
    f0, a = front_datum(job, pair), axle(job["frame"])
    u0 = unit(a - f0)
    w0 = np.cross(u0, Y)
    front, rear = given["front"], given["rear"]
    front_middle = f0 + front["rise_mm"] * w0
    rear_middle = a - rear["reach_mm"] * u0 + rear["rise_mm"] * w0
    p = front_middle + sigma * front["half_spacing_mm"] * Y
    q = rear_middle + sigma * rear["half_spacing_mm"] * Y
    u = unit(rear_middle - front_middle)
    ends = {"front": front["end"], "rear": rear["end"]}
    return Stay(sigma, p, unit(q - p), float(np.linalg.norm(q - p)), Clamp(front_middle, u, np.cross(u, Y)),
                knots_of(given["tube"]), given["tube"]["wall_mm"], rear["half_spacing_mm"], ends,
                {name: member_of(job, end, rear_middle) for name, end in ends.items()})


def one_plane(job, pair):
    """Left and right share a clamp frame when their rises and reaches agree."""
    def key(side):
        given = side_of(job, pair, side)
        return given["front"]["rise_mm"], given["rear"]["rise_mm"], given["rear"]["reach_mm"]
    return key("right") == key("left")


def cutter_radius(stay, end):
    """Radius of the surface an end is cut to: the saw's where one is given, else the member's."""
    given = stay.ends[end].get("cutter_mm")
    return stay.members[end].radius if given is None else given / 2
