"""How long the kernel takes for the cuts of one job: `python bench.py < JOB` prints the median, in milliseconds.

For each coped end: the hollow stay, the member, the one cut out of the other, and the edges that the cut left.
"""
import json
import statistics
import sys
import time

import solids
from axes import PAIRS, SIDES, stay_of
from compare_cut import cut_solid
from profiles import Cope

RUNS = 7


def cut_all(job):
    for pair in PAIRS:
        for side in SIDES:
            stay = stay_of(job, pair, side)
            for end in ("front", "rear"):
                cope = Cope(stay, end)
                solid, _ = cut_solid(cope)
                for inset in (0.0, stay.wall):
                    solids.cut_edges(stay, inset, cope.member, cope.radius, solid)


def time_of(job):
    began = time.perf_counter()
    cut_all(job)
    return (time.perf_counter() - began) * 1e3


if __name__ == "__main__":
    given = json.load(sys.stdin)
    print(f"{statistics.median(time_of(given) for _ in range(RUNS)):.1f}")
