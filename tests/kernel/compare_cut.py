"""One coped end of a plan against the kernel: profiles, cut edges, volume, extremes, push and gap."""
import numpy as np
from OCP.TopAbs import TopAbs_EDGE

import solids
import volume
from profiles import Cope
from tally import TOLERANCES

# A generator this close to grazing may fall on either side by rounding alone.
GRAZE_MM = 1e-7
EDGE_STEP_DEG = 3


def points(listed):
    return {row["phi_deg"]: row["s_mm"] for row in listed or []}


def form(stay):
    return "straight" if stay.knots[0][1] == stay.knots[1][1] else "tapered"


def compare_profile(tally, where, cope, inset, got):
    """Every generator: the same ones cut, and cut at the same place."""
    expected = cope.outer if inset == 0 else cope.bore
    odd = [phi for phi in set(expected) | set(got)
           if (expected.get(phi) is None) != (phi not in got) and abs(cope.clear(phi, inset)[0]) > GRAZE_MM]
    tally.word(f"{where} generators cut", [], sorted(odd))
    apart = [abs(got[phi] - s) for phi, s in expected.items() if s is not None and phi in got]
    if apart:
        tally.deviation(f"profile, {form(cope.stay)} (mm)", where, max(apart))


def compare_edge(tally, where, cope, inset, got, solid):
    """The plan's points against the edge the kernel's own cut left on the solid."""
    edge = solids.cut_edges(cope.stay, inset, cope.member, cope.radius, solid)
    parts = solids.subshapes(edge, TopAbs_EDGE)
    apart = [solids.beyond_tolerance(cope.stay.point(phi, s, inset), parts)
             for phi, s in got.items() if phi % EDGE_STEP_DEG == 0]
    if apart:
        tally.deviation(f"distance to cut edge, {form(cope.stay)} (mm)", where, max(apart))
    return edge


def cut_solid(cope):
    """The half of the stay at this end, with the member cut out of it, and the station of its far face."""
    stay, far = cope.stay, cope.stay.length / 2
    at = solids.nearest(solids.axis_line(stay.front, stay.t), cope.axis)[0]
    station = (at - stay.front) @ stay.t
    slant = np.linalg.norm(np.cross(stay.t, cope.member.direction))
    # Far enough out for the saw to pass wholly through.
    room = (cope.radius + 2 * stay.knots[0][1] + 2 * stay.knots[1][1]) / slant + 20
    low, high = (station - room, far) if cope.end == "front" else (far, station + room)
    tool = solids.member_solid(cope.member, cope.radius, at, 2 * room)
    return solids.kept(stay, cope.end, solids.difference(solids.stay_solid(stay, low, high), tool)), far


def compare_volume(tally, where, cope, outer, bore, solid, far):
    """Only where outside and bore are cut all round: a part cut leaves no closed piece."""
    if len(outer) != 360 or len(bore) != 360:
        return
    stay = cope.stay
    fine, coarse = (volume.left(stay, cope.end, outer, bore, far, cope.member, every) for every in (1, 2))
    stations = [*outer.values(), *bore.values()]
    corner = form(stay) == "tapered" and any(min(stations) < s < max(stations) for s, _ in stay.knots)
    kind = "volume left, taper ends in cut (mm3)" if corner else "volume left (mm3)"
    # Twice the step bounds the error of the step: near a grazing cut a degree is too coarse to integrate.
    if abs(fine - coarse) > TOLERANCES[kind]:
        tally.unresolved_volumes += 1
        return
    tally.number(kind, where, solids.volume_and_centre(solid)[0], fine)


def compare_misses(tally, where, cope, cut):
    tally.word(f"{where} contact", cope.contact, cut.get("contact"))
    if cope.contact != "partial":
        return
    got = sorted((row["from_deg"] % 360, row["to_deg"] - row["from_deg"]) for row in cut.get("misses") or [])
    expected = sorted((start, stop - start) for start, stop in cope.misses)
    tally.word(f"{where} missed ranges", len(expected), len(got))
    for (start, span), (got_start, got_span) in zip(expected, got):
        tally.number("missed range (deg)", f"{where} from", start, got_start)
        tally.number("missed range (deg)", f"{where} span", span, got_span)


def compare_extremes(tally, where, cope, cut):
    long_point, short_point = cope.tips
    low, high = cope.along_axis
    tally.number("long and short point (mm)", f"{where} long", long_point, cut.get("long_point_mm"))
    tally.number("long and short point (mm)", f"{where} short", short_point, cut.get("short_point_mm"))
    tally.number("saw depth (mm)", where, high - low, cut.get("saw_depth_mm"))


def compare_push(tally, where, cope, cut, edge):
    """A cutter that is not the member: slide the stay home, by the plan's push and by the kernel's."""
    tally.number("push (mm)", where, cope.push, cut.get("push_mm"))
    tally.number("gap (mm)", where, cope.gap, cut.get("gap_mm"))
    if edge is None or not isinstance(cut.get("push_mm"), (int, float)):
        return
    home = solids.moved(edge, -cope.forward * cut["push_mm"] * cope.stay.t)
    near = cope.edge_point(0)
    member = solids.member_solid(cope.member, cope.member.radius, near, 200)
    tally.number("touch after push (mm)", where, 0.0, solids.distance(home, member))


def compare_cope(tally, where, stay, end, cut, with_solid):
    """Compares one coped end; returns what the pair's figures need of it, or None where nothing is cut."""
    cope = Cope(stay, end)
    outer, bore = points(cut.get("outer")), points(cut.get("bore"))
    compare_misses(tally, where, cope, cut)
    compare_profile(tally, f"{where} outer", cope, 0.0, outer)
    compare_profile(tally, f"{where} bore", cope, stay.wall, bore)
    if cope.contact == "none":
        return None
    compare_extremes(tally, where, cope, cut)
    edge = None
    if with_solid:
        solid, far = cut_solid(cope)
        edge = compare_edge(tally, f"{where} outer", cope, 0.0, outer, solid)
        compare_edge(tally, f"{where} bore", cope, stay.wall, bore, solid)
        compare_volume(tally, where, cope, outer, bore, solid, far)
    if stay.ends[end].get("cutter_mm") is not None:
        tally.number("push (mm)", f"{where} cutter", stay.ends[end]["cutter_mm"], cut.get("cutter_mm"))
        compare_push(tally, where, cope, cut, edge)
    return cope
