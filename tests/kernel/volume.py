"""The volume left of a cut stay, integrated over the points of a plan's profiles.

The cut face lies on a cylinder about `a`, so the field F = (p.a) a, whose divergence is 1, does not pass through it:
the volume is the flux of F through the outer surface, the bore and the plane at the far end alone. Round the stay
the trapezoid rule converges faster than any power of the step as long as the profile is smooth.
"""
import numpy as np

from solids import pieces

GAUSS, WEIGHTS = np.polynomial.legendre.leggauss(3)   # exact here: the integrand is a cubic in s


def flux(stay, inset, phis, stations, far, a, origin):
    """Flux of F through the surface at `inset` from the profile to the station `far`, pointing off the axis."""
    total = 0.0
    n = np.array([stay.normal(phi) for phi in phis])
    for low, high, radius, slope in pieces(stay, inset):
        start, stop = np.clip(stations, low, high), np.clip(far, low, high)
        middle, half = (start + stop) / 2, (stop - start) / 2
        for node, weight in zip(GAUSS, WEIGHTS):
            s = middle + half * node
            r = radius + slope * s
            p = stay.front - origin + s[:, None] * stay.t + r[:, None] * n
            outwards = r[:, None] * n - (r * slope)[:, None] * stay.t
            total += 2 * np.pi * np.mean(weight * half * (p @ a) * (outwards @ a))
    return total


def far_face(stay, far, a, origin):
    """Flux of F through the ring at the station `far`, along the stay's axis."""
    outer = stay.radius(far)
    area = np.pi * (outer**2 - (outer - stay.wall)**2)
    return (stay.t @ a) * area * ((stay.front + far * stay.t - origin) @ a)


def left(stay, end, outer, bore, far, member, every=1):
    """Volume between the cut and the station `far`; `outer` and `bore` map phi to s."""
    phis = sorted(outer)[::every]
    a, origin = member.direction, member.point
    stations = [np.array([profile[phi] for phi in phis]) for profile in (outer, bore)]
    total = (flux(stay, 0.0, phis, stations[0], far, a, origin)
             - flux(stay, stay.wall, phis, stations[1], far, a, origin) + far_face(stay, far, a, origin))
    return total if end == "front" else -total
