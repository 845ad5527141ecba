"""Compares bent stays and their rooms with the kernel: `python check_bent.py [--count N] PLANS_COMMAND ROOMS_COMMAND`.

Both commands read jobs from their standard input, one JSON a line, and write one JSON a line. Of 200 pairs of stays with one
to three bends four fifths taper or are oval, or both, and half are butted. A tube is bent by the kernel's own turns
(`bent_tube`), laid by a search of its own and swept into solids (`bent_solids`). All pairs are compared in all: where they run
with what is swept (`compare_bent`), each room with the kernel's least distance between solids and with dense samples
(`compare_rooms`). Nothing is taken from the plan but the figures that are compared.
"""
import argparse
import subprocess
import sys
import time
from multiprocessing import Pool

import OCP

import bent_jobs
from bent_solids import Laid  # noqa: F401, the set-ups lay theirs by it
from bent_tally import BentTally
from bent_tube import at  # noqa: F401
from check import WORKERS, plans_of
from compare_bent import compare_job


def compared(job, plan, rooms):
    """The tally of one job; a job refused, or an answer that cannot be read, is one failure."""
    tally = BentTally()
    if "errors" in plan or "errors" in rooms:
        tally.word(f"{job['name']} accepted", None, plan.get("errors"))
        return tally
    try:
        compare_job(tally, job, plan, rooms)
    except (KeyError, TypeError, AttributeError) as missing:
        tally.word(f"{job['name']} readable", None, repr(missing))
    return tally


def compare_all(lines, plans, rooms):
    total = BentTally()
    with Pool(WORKERS) as pool:
        for tally in pool.starmap(compared, zip(lines, plans, rooms), chunksize=4):
            total.add(tally)
    return total


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=bent_jobs.COUNT)
    parser.add_argument("--prove-it-can-fail", action="store_true",
                        help="spoil each figure of good answers a little and see that the check notices")
    parser.add_argument("plans")
    parser.add_argument("rooms")
    given, began = parser.parse_args(), time.monotonic()
    print(f"kernel: Open CASCADE Technology by way of cadquery-ocp {OCP.__version__}")
    lines = [bent_jobs.job(index) for index in range(given.count)]
    plans, rooms = plans_of([given.plans], lines), plans_of([given.rooms], lines)
    if given.prove_it_can_fail:
        from spoil_bent import prove
        sys.exit(prove(compared, list(zip(lines, plans, rooms))))
    total = compare_all(lines, plans, rooms)
    total.print()
    passed, failed = total.totals()
    print(f"{given.count} pairs, {total.missed} rooms where the kernel's search missed the nearest place,"
          f" {time.monotonic() - began:.0f} s")
    print(f"{passed} passed, {failed} failed")
    # A room is compared by its figure only where stay and neighbour are apart: most are.
    apart = total.lines["room, kernel's distance (mm)"].count if passed else 0
    sys.exit(1 if failed or apart < 5 * given.count else 0)


if __name__ == "__main__":
    main()
