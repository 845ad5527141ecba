"""The stays and the members as the kernel's solids and surfaces, and what the kernel says about them."""
import numpy as np
from OCP.collections import IndexedMap_TopoDS_Shape_TopTools_ShapeMapHasher
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import (BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakePolygon, BRepBuilderAPI_MakeVertex,
                                BRepBuilderAPI_Transform)
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepGProp import BRepGProp
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.Extrema import Extrema_ExtElC, Extrema_POnCurv
from OCP.Geom import Geom_CylindricalSurface, Geom_Line
from OCP.GeomAPI import GeomAPI_IntCS
from OCP.gp import gp_Ax1, gp_Ax2, gp_Ax3, gp_Dir, gp_Lin, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.TopAbs import TopAbs_EDGE, TopAbs_SOLID, TopAbs_VERTEX
from OCP.TopExp import TopExp
from OCP.TopoDS import TopoDS, TopoDS_Compound

# Two shapes nearer than this are the same: a hundred times the kernel's own tolerance.
SAME_MM = 1e-5
# Relative error asked of the kernel's adaptive integration.
VOLUME_EPS = 1e-10


def pnt(v):
    return gp_Pnt(*map(float, v))


def direction(v):
    return gp_Dir(*map(float, v))


def array(p):
    return np.array([p.X(), p.Y(), p.Z()])


def axis_line(point, along):
    return gp_Lin(pnt(point), direction(along))


def nearest(a, b):
    """The points nearest to each other on two infinite lines, or None where they are parallel."""
    extrema = Extrema_ExtElC(a, b, 1e-12)
    if not extrema.IsDone() or extrema.IsParallel():
        return None
    on_a, on_b = Extrema_POnCurv(), Extrema_POnCurv()
    extrema.Points(1, on_a, on_b)
    return array(on_a.Value()), array(on_b.Value())


# --- generators -----------------------------------------------------------------------------------------

def pieces(stay, inset):
    """The straight pieces of every generator: (from s, to s, radius at s = 0 of the piece, slope)."""
    (a, ra), (b, rb) = stay.knots
    if ra == rb:
        return [(-np.inf, np.inf, ra - inset, 0.0)]
    slope = (rb - ra) / (b - a)
    return [(-np.inf, a, ra - inset, 0.0), (a, b, ra - inset - slope * a, slope), (b, np.inf, rb - inset, 0.0)]


def generator(stay, phi, inset):
    """The pieces of the generator at `phi` as lines, with the s at each line's zero and its step of s."""
    n = stay.normal(phi)
    for low, high, radius, slope in pieces(stay, inset):
        along = stay.t + slope * n
        yield pnt(stay.front + radius * n), direction(along), 1 / np.linalg.norm(along), low, high


def crossings(stay, phi, inset, surface):
    """Every s at which the generator meets the surface, by the kernel's line/surface intersection."""
    found = []
    for start, along, step, low, high in generator(stay, phi, inset):
        meet = GeomAPI_IntCS(Geom_Line(start, along), surface)
        # The parameters come as (u, v on the surface, w on the line).
        stations = [meet.Parameters(i + 1)[2] * step for i in range(meet.NbPoints())]
        found += [s for s in stations if low <= s < high]
    return found


def clear(stay, phi, inset, axis, radius):
    """How far the generator passes outside the member (negative: it enters it), and at which s."""
    passes = []
    for start, along, step, low, high in generator(stay, phi, inset):
        line = gp_Lin(start, along)
        on_line, _ = nearest(line, axis)
        s = min(max((on_line - array(start)) @ array(along) * step, low), high)
        at = pnt(array(start) + s / step * array(along))
        passes.append((axis.Distance(at) - radius, s))
    return min(passes)


def member_surface(member, radius):
    return Geom_CylindricalSurface(gp_Ax3(pnt(member.point), direction(member.direction)), float(radius))


# --- solids ---------------------------------------------------------------------------------------------

def stay_solid(stay, low, high):
    """The hollow stay between two stations: its section turned about its axis."""
    inner = [s for s, _ in stay.knots if low < s < high] if stay.knots[0][1] != stay.knots[1][1] else []
    stations = [low, *inner, high]
    section = BRepBuilderAPI_MakePolygon()
    for s in stations:
        section.Add(pnt(stay.point(0, s)))
    for s in reversed(stations):
        section.Add(pnt(stay.point(0, s, stay.wall)))
    section.Close()
    face = BRepBuilderAPI_MakeFace(section.Wire(), True).Face()
    return BRepPrimAPI_MakeRevol(face, gp_Ax1(pnt(stay.front), direction(stay.t)), True).Shape()


def member_solid(member, radius, near, half_length):
    """The member as a solid cylinder, long enough either way from `near`."""
    middle = member.point + ((near - member.point) @ member.direction) * member.direction
    base = gp_Ax2(pnt(middle - half_length * member.direction), direction(member.direction))
    return BRepPrimAPI_MakeCylinder(base, float(radius), 2 * float(half_length)).Shape()


def subshapes(shape, kind):
    """The parts of one kind, each once however many others share it."""
    found = IndexedMap_TopoDS_Shape_TopTools_ShapeMapHasher()
    TopExp.MapShapes_s(shape, kind, found)
    return [found.FindKey(i + 1) for i in range(found.Size())]


def volume_and_centre(solid):
    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid, props, VOLUME_EPS)
    return props.Mass(), array(props.CentreOfMass())


def difference(solid, tool):
    operation = BRepAlgoAPI_Cut(solid, tool)
    if not operation.IsDone():
        raise RuntimeError("the kernel could not cut")
    return operation.Shape()


def kept(stay, end, cut):
    """The part the saw leaves: the one that reaches furthest away from the end that is cut."""
    forward = 1 if end == "front" else -1
    return max(subshapes(cut, TopAbs_SOLID), key=lambda part: forward * (volume_and_centre(part)[1] @ stay.t))


def radius_from(p, point, along):
    return np.linalg.norm(np.cross(p - point, along))


def cut_edges(stay, inset, member, radius, solid):
    """The edges of the solid that lie both on the member and on the stay's surface at `inset`, as one shape."""
    found, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(found)
    for shape in subshapes(solid, TopAbs_EDGE):
        edge = TopoDS.Edge(shape)
        if not BRep_Tool.Degenerated_s(edge) and lies_on_both(edge, stay, inset, member, radius):
            builder.Add(found, edge)
    return found


def lies_on_both(edge, stay, inset, member, radius):
    curve = BRepAdaptor_Curve(edge)
    for share in (0.1, 0.5, 0.8):
        p = array(curve.Value(curve.FirstParameter() * (1 - share) + curve.LastParameter() * share))
        s = (p - stay.front) @ stay.t
        off_stay = radius_from(p, stay.front, stay.t) - stay.radius(s) + inset
        off_member = radius_from(p, member.point, member.direction) - radius
        if max(abs(off_stay), abs(off_member)) > SAME_MM:
            return False
    return True


def vertices(solid):
    return [array(BRep_Tool.Pnt_s(TopoDS.Vertex(shape))) for shape in subshapes(solid, TopAbs_VERTEX)]


def distance(a, b):
    return BRepExtrema_DistShapeShape(a, b).Value()


def distance_to(p, shape):
    return distance(BRepBuilderAPI_MakeVertex(pnt(p)).Vertex(), shape)


def beyond_tolerance(p, edges):
    """How far a point lies from the nearest edge, less the tolerance that the kernel itself states for that edge: its
    edges are curves fitted to where two surfaces meet, and near a grazing cut they stray from both by up to that."""
    away = lambda edge: distance_to(p, edge) - BRep_Tool.Tolerance_s(TopoDS.Edge(edge))
    return max(0.0, min(map(away, edges), default=float("inf")))


def moved(shape, shift):
    by = gp_Trsf()
    by.SetTranslation(gp_Vec(*map(float, shift)))
    return BRepBuilderAPI_Transform(shape, by, True).Shape()


def prism(corners, along):
    """A polygon's face pushed along a vector."""
    outline = BRepBuilderAPI_MakePolygon()
    for corner in corners:
        outline.Add(pnt(corner))
    outline.Close()
    face = BRepBuilderAPI_MakeFace(outline.Wire(), True).Face()
    return BRepPrimAPI_MakePrism(face, gp_Vec(*map(float, along))).Shape()


def pierced(solid, line, reach):
    """Parameters along the line at which it passes the skin of the solid."""
    hits = IntCurvesFace_ShapeIntersector()
    hits.Load(solid, 1e-9)
    hits.Perform(line, -reach, reach)
    return sorted(hits.WParameter(i + 1) for i in range(hits.NbPnt()))
