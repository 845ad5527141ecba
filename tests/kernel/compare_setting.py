"""How a cope is set on the machine: angle, offset, tilt and table readings against lines of the kernel."""
import numpy as np

import solids
from axes import Y


def offset_sign(stay, member, at_stay, at_member):
    """Positive on the +w side of a member along y, on the outboard side of the seat tube."""
    apart = at_stay - at_member
    side = stay.sigma * apart[1] if member.name == "seat_tube" else apart @ stay.clamp.w
    return np.sign(side)


def compare_lines(tally, where, stay, member, cut):
    stay_line = solids.axis_line(stay.front, stay.t)
    member_line = solids.axis_line(member.point, member.direction)
    angle = np.degrees(stay_line.Angle(member_line))
    angle = min(angle, 180 - angle)
    at_stay, at_member = solids.nearest(stay_line, member_line)
    offset = offset_sign(stay, member, at_stay, at_member) * stay_line.Distance(member_line)
    tally.number("angle (deg)", where, angle, cut.get("angle_deg"))
    tally.number("angle (deg)", f"{where} miter", 90 - angle, cut.get("miter_deg"))
    tally.number("offset (mm)", where, offset, cut.get("offset_mm"))
    tally.number("axis station (mm)", where, (at_stay - stay.front) @ stay.t, cut.get("axis_station_mm"))


def end_up(stay, a):
    """Which end of the fixture is up with the spindle upright and the base face down."""
    up, rise = a @ stay.clamp.w, a @ stay.clamp.u
    if abs(up) < 1e-12:
        return "either"
    if abs(rise) < 1e-12:
        return "level"
    return "rear" if rise * up > 0 else "front"


def readings(job, stay, member):
    """Table readings from the touched datum and from the fixture's side or base: (along, across)."""
    fixture, clamp, a = job["fixture"], stay.clamp, member.direction
    datum = clamp.origin + fixture["touch_u_mm"] * clamp.u + fixture["touch_w_mm"] * clamp.w
    if member.name == "seat_tube":
        square = np.cross(a, Y)
        square = square * np.sign(square @ clamp.u)
        return (member.point - datum) @ square, fixture["block_width_mm"] / 2
    return (member.point - datum) @ clamp.u, fixture["clamp_height_mm"] + (member.point - clamp.origin) @ clamp.w


def compare_setting(tally, where, job, stay, end, cut):
    member = stay.members[end]
    compare_lines(tally, where, stay, member, cut)
    tilted = member.name == "seat_tube"
    tally.word(f"{where} on_side", not tilted, cut.get("on_side"))
    if tilted:
        tilt = np.degrees(np.arcsin(min(1.0, abs(member.direction @ stay.clamp.w))))
        tally.number("tilt and swivel (deg)", where, tilt, cut.get("tilt_deg"))
        tally.word(f"{where} end_up", end_up(stay, member.direction), cut.get("end_up"))
    along, across = readings(job, stay, member)
    finder = job["edge_finder_mm"] / 2
    touched = 1 if job["fixture"].get("touch_from", "front") == "front" else -1
    for key, expected in (("dro_along_mm", along), ("dro_across_mm", across),
                          ("along_spindle_mm", along + touched * finder), ("across_spindle_mm", across + finder)):
        tally.number("table readings (mm)", f"{where} {key}", expected, cut.get(key))
