"""Compares plans with the kernel: `python check.py [options] PLANS_COMMAND...`.

PLANS_COMMAND reads jobs from its standard input, one JSON a line, and writes one plan a line.
"""
import argparse
import json
import subprocess
import sys
import time
from multiprocessing import Pool

import OCP

import jobs
from compare_pair import compare_job
from tally import Tally

WORKERS = 2
LEAST_SHARE = 0.8


def plans_of(command, lines):
    """Runs the command over the jobs; one parsed answer a job."""
    text = "".join(json.dumps(line) + "\n" for line in lines)
    done = subprocess.run(command, input=text, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{command} ended with {done.returncode}:\n{done.stderr[-2000:]}")
    answers = [json.loads(line) for line in done.stdout.splitlines() if line.strip()]
    if len(answers) != len(lines):
        sys.exit(f"{len(lines)} jobs in, {len(answers)} plans out")
    return answers


def compared(job, plan):
    """The tally of one job; a job refused, or a plan that cannot be read, is one failure."""
    tally = Tally()
    if "errors" in plan:
        tally.word(f"{job['name']} accepted", None, plan["errors"])
        return tally
    try:
        compare_job(tally, job, plan)
    except (KeyError, TypeError, AttributeError) as missing:
        tally.word(f"{job['name']} readable", None, repr(missing))
    return tally


def compare_all(lines, answers):
    total = Tally()
    with Pool(WORKERS) as pool:
        for tally in pool.starmap(compared, zip(lines, answers), chunksize=4):
            total.add(tally)
    return total


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=jobs.COUNT)
    parser.add_argument("--seed", type=int, default=jobs.SEED)
    parser.add_argument("--prove-it-can-fail", action="store_true",
                        help="spoil each figure of good plans a little and see that the check notices")
    parser.add_argument("command", nargs=argparse.REMAINDER, metavar="PLANS_COMMAND")
    given = parser.parse_args()
    if not given.command:
        parser.error("PLANS_COMMAND is missing")
    return given


def main():
    given, began = arguments(), time.monotonic()
    print(f"kernel: Open CASCADE Technology by way of cadquery-ocp {OCP.__version__}")
    lines = [jobs.job(index, given.seed) for index in range(given.count)]
    answers = plans_of(given.command, lines)
    if given.prove_it_can_fail:
        from spoil import prove
        sys.exit(prove(lines, answers))
    total = compare_all(lines, answers)
    total.print()
    passed, failed = total.totals()
    print(f"{given.count} jobs, {total.jobs_with_cuts} with a compared cut, {total.unresolved_volumes} volumes left out"
          f" (profile too steep for one degree), {time.monotonic() - began:.0f} s")
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed or total.jobs_with_cuts < LEAST_SHARE * given.count else 0)


if __name__ == "__main__":
    main()
