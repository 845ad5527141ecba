"""A pair of stays against the kernel: slide, axle height, posts, lengths, tips and the depth of the common saw."""
import numpy as np

import solids
from axes import SIDES, Y, axle, one_plane, stay_of
from compare_cut import compare_cope
from compare_setting import compare_setting
from compare_slot import compare_slot

FAR = 1e4


def compare_end(tally, where, job, stay, end, cut, with_solid):
    """Compares one end; returns its Cope where there is one."""
    kind = stay.ends[end]["kind"]
    tally.word(f"{where} kind", kind, cut.get("kind"))
    if kind == "slot":
        compare_slot(tally, where, stay, end, cut)
    if kind in ("slot", "square"):
        return None
    compare_setting(tally, where, job, stay, end, cut)
    return compare_cope(tally, where, stay, end, cut, with_solid)


def tip(stay, end, cope):
    """Where the tube ends: the long point, or the end of a tube that is not coped. None where nothing is cut."""
    given = stay.ends[end]
    if given["kind"] in ("cope", "boss"):
        return cope.tips[0] if cope else None
    return 0.0 if end == "front" else stay.length + given.get("overhang_mm", 0.0)


def home(job, stay):
    """Slide and height of the dummy axle in the stay's clamp frame."""
    way = axle(job["frame"]) - stay.clamp.origin
    return way @ stay.clamp.u, way @ stay.clamp.w


def compare_stay(tally, where, job, stay, got, with_solid, shared):
    kind = "length, splay, tip to tip"
    tally.number(kind, f"{where} length", stay.length, got.get("length_mm"))
    tally.number(kind, f"{where} splay", np.degrees(np.arcsin(stay.sigma * stay.t[1])), got.get("splay_deg"))
    if not shared:
        for key, value in zip(("slide_mm", "axle_height_mm"), home(job, stay)):
            tally.number("slide and axle height (mm)", f"{where} {key}", value, got.get(key))
    copes = {end: compare_end(tally, f"{where}.{end}", job, stay, end, got[end], with_solid)
             for end in ("front", "rear")}
    tips = [tip(stay, end, copes[end]) for end in ("front", "rear")]
    if None not in tips:
        tally.number(kind, f"{where} tip to tip", tips[1] - tips[0], got.get("tip_to_tip_mm"))
    return copes


def axis_at(stay, u):
    """Distance of the stay's axis from the centre line at a post."""
    share = (u - (stay.front - stay.clamp.origin) @ stay.clamp.u) / (stay.t @ stay.clamp.u)
    return abs(stay.front[1] + share * stay.t[1])


def compare_posts(tally, where, job, stays, got, shared):
    stations = job["fixture"]["posts_u_mm"]
    tally.word(f"{where} posts", stations, [post["u_mm"] for post in got["posts"]])
    skins = {side: solids.stay_solid(stay, -200.0, stay.length + 200.0) for side, stay in stays.items()}
    for u, post in zip(stations, got["posts"]):
        at = f"{where} post {u}"
        for side, stay in stays.items():
            tally.number("posts, axis (mm)", f"{at} {side}", axis_at(stay, u), post.get(f"{side}_mm"))
        if not shared:
            tally.word(f"{at} inside and outside", (None, None), (post.get("inside_mm"), post.get("outside_mm")))
            continue
        inside, outside = calipers(stays, skins, u)
        tally.number("posts, inside and outside (mm)", f"{at} inside", inside, post.get("inside_mm"))
        tally.number("posts, inside and outside (mm)", f"{at} outside", outside, post.get("outside_mm"))


def calipers(stays, skins, u):
    """Between and over the two tubes, along a line straight across the fixture in the stays' plane."""
    clamp = stays["right"].clamp
    line = solids.axis_line(clamp.origin + u * clamp.u, Y)
    hits = {side: solids.pierced(skins[side], line, FAR) for side in stays}
    return min(hits["right"]) - max(hits["left"]), max(hits["right"]) - min(hits["left"])


def compare_pair_depth(tally, where, copes, end, got):
    """The extent of both stays along the cutter's axis, where both are cut by the same saw."""
    both = [copes[side][end] for side in SIDES]
    if None in both or both[0].member.name != both[1].member.name or both[0].radius != both[1].radius:
        return
    reach = [cope.along_axis for cope in both]
    extent = max(high for _, high in reach) - min(low for low, _ in reach)
    tally.number("pair saw depth (mm)", f"{where}.{end}", extent, got.get(f"{end}_saw_depth_mm"))


def compare_pair(tally, where, job, pair, got):
    stays = {side: stay_of(job, pair, side) for side in SIDES}
    shared = one_plane(job, pair)
    tally.word(f"{where} one_plane", shared, got.get("one_plane"))
    for key, value in zip(("slide_mm", "axle_height_mm"), home(job, stays["right"])):
        tally.number("slide and axle height (mm)", f"{where} {key}", value, got.get(key))
    # A mirrored left stay has a mirrored solid: its figures are compared, its solid is not cut again.
    solid_sides = SIDES if "left" in job[pair] else ("right",)
    copes = {side: compare_stay(tally, f"{where}.{side}", job, stays[side], got[side], side in solid_sides, shared)
             for side in SIDES}
    compare_posts(tally, where, job, stays, got, shared)
    if shared:
        for end in ("front", "rear"):
            compare_pair_depth(tally, where, copes, end, got)
    return any(cope for side in copes.values() for cope in side.values())


def compare_job(tally, job, plan):
    """Compares every figure of one plan; counts the job when at least one cut was compared."""
    compared = [compare_pair(tally, f"{job['name']} {pair}", job, pair, plan["pairs"][pair])
                for pair in ("chainstays", "seatstays")]
    tally.jobs_with_cuts += any(compared)
