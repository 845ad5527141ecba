"""What is compared, how near it must come, and what came of it."""
from dataclasses import dataclass, field
from math import isfinite

# Each kind of figure and the largest deviation allowed. None is fitted to a result: 1e-6 mm (and the same in
# degrees) is a thousandth of what a machine tool resolves and ten times the kernel's own tolerance of 1e-7 mm.
TOLERANCES = {
    "profile, straight (mm)": 1e-6,
    "profile, tapered (mm)": 1e-6,
    "distance to cut edge, straight (mm)": 1e-6,
    # Beyond the tolerance that the kernel states for the edge.
    "distance to cut edge, tapered (mm)": 1e-6,
    "long and short point (mm)": 1e-6,
    "saw depth (mm)": 1e-6,
    "pair saw depth (mm)": 1e-6,
    "missed range (deg)": 1e-6,
    "push (mm)": 1e-6,
    "gap (mm)": 1e-6,
    "touch after push (mm)": 1e-6,
    # A millionth of a millimetre on the profile of the largest cut face here (70 mm2) is 7e-5 mm3.
    "volume left (mm3)": 1e-4,
    # A taper that begins or ends inside the cut puts a corner in the profile, and over a corner one degree is too
    # coarse a step: halving it moves these volumes by up to 5e-4 mm3.
    "volume left, taper ends in cut (mm3)": 5e-3,
    "angle (deg)": 1e-6,
    "offset (mm)": 1e-6,
    "axis station (mm)": 1e-6,
    "slot station (mm)": 1e-6,
    "slot face (mm of arc)": 1e-6,
    "tilt and swivel (deg)": 1e-6,
    "table readings (mm)": 1e-6,
    "slide and axle height (mm)": 1e-6,
    "posts, axis (mm)": 1e-6,
    "posts, inside and outside (mm)": 1e-6,
    "length, splay, tip to tip": 1e-6,
    "word": 0,
}


@dataclass
class Line:
    count: int = 0
    failed: int = 0
    worst: float = 0.0
    where: str = ""


@dataclass
class Tally:
    lines: dict = field(default_factory=dict)
    failures: list = field(default_factory=list)
    tolerances: dict = field(default_factory=lambda: TOLERANCES)
    jobs_with_cuts: int = 0
    unresolved_volumes: int = 0

    def deviation(self, kind, where, deviation, detail=""):
        """Counts one comparison whose figures lie `deviation` apart."""
        line = self.lines.setdefault(kind, Line())
        line.count += 1
        if not deviation <= self.tolerances[kind]:
            line.failed += 1
            self.failures.append((kind, where, f"{detail} deviation {deviation:.3g}"))
        if deviation >= line.worst and isfinite(deviation):
            line.worst, line.where = float(deviation), where

    def number(self, kind, where, expected, got):
        """Counts one figure of a plan against what the kernel says; a figure that is missing fails."""
        known = isinstance(got, (int, float)) and not isinstance(got, bool) and isfinite(got)
        apart = abs(got - expected) if known else float("inf")
        self.deviation(kind, where, apart, f"expected {expected!r} got {got!r}")

    def word(self, where, expected, got):
        self.deviation("word", where, 0 if got == expected else float("inf"), f"expected {expected!r} got {got!r}")

    def add(self, other):
        for kind, line in other.lines.items():
            mine = self.lines.setdefault(kind, Line())
            mine.count += line.count
            mine.failed += line.failed
            if line.worst >= mine.worst:
                mine.worst, mine.where = line.worst, line.where
        self.failures += other.failures
        self.jobs_with_cuts += other.jobs_with_cuts
        self.unresolved_volumes += other.unresolved_volumes

    def print(self, shown=40):
        for kind, allowed in self.tolerances.items():
            line = self.lines.get(kind, Line())
            print(f"{kind:38} {line.count:6} compared  {line.failed:5} failed  worst {line.worst:9.2e}"
                  f"  allowed {allowed:.0e}  {line.where}")
        for kind, where, text in self.failures[:shown]:
            print(f"FAILED {kind} | {where} | {text}")
        if len(self.failures) > shown:
            print(f"... and {len(self.failures) - shown} more")

    def totals(self):
        count = sum(line.count for line in self.lines.values())
        return count - len(self.failures), len(self.failures)
