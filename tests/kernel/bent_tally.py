"""What is compared of bent stays, how near it must come, and what came of it."""
from tally import Tally

TOLERANCES = {
    "length, chord and marks (mm)": 1e-7,
    "splay (deg)": 1e-7,
    "butts left (mm)": 1e-7,
    "bends (mm)": 1e-7,
    "posts, axis and straight tube (mm)": 1e-6,
    # The end faces of the swept solids, as the kernel integrates over them.
    "end faces, middle (mm)": 1e-6,
    "end faces, direction": 1e-7,
    # The solids hold what the sections sweep, to 1e-4 mm of a stay's length.
    "volume swept (mm3)": 2e-2,
    # Not figures of a plan: how far the kernel's solids may be from what they stand for.
    "fitted solids, off the tube (mm)": 5e-5,
    # Over what the fitted solids miss.
    "room, place named off the skin (mm)": 5e-5,
    "room, station of the place (mm)": 1e-3,
    "room, between the points named (mm)": 1e-6,
    "room, point named on the neighbour (mm)": 1e-6,
    "room, kernel's distance (mm)": 1e-6,
    "room, dense samples (mm)": 1e-6,
    "room, run into or not": 0,
    "room to the other stay, round (mm)": 1e-5,
    # To what a nearest place beside an oval is brought down, on either side.
    "room to the other stay, oval (mm)": 1e-4,
    "word": 0,
}


class BentTally(Tally):
    """Counts as well how often the kernel's search missed the nearest place."""

    def __init__(self):
        super().__init__(tolerances=TOLERANCES)
        self.missed = 0

    def add(self, other):
        super().add(other)
        self.missed += other.missed
