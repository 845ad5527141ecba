//! Neighbouring facets of one tone as one area, and their lines as chains.

use super::overlap::{Bounds, Convex};
use super::painted::PaintedFacet;
use crate::drawing::Point;

/// How many runs a facet may be painted earlier than it comes.
const LOOK_BACK: usize = 60;

/// Facets of one body in one tone that are painted together, and the lines over them.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// The body's place in the scene.
    pub body: usize,
    /// How light it is, from 0, the darkest.
    pub tone: u8,
    /// Outlines, mm on the sheet; all run the same way round.
    pub areas: Vec<Vec<Point>>,
    /// Chains of lines.
    pub lines: Vec<Vec<Point>>,
}

/// Painted facets joined to patches, in the order to paint them.
pub(super) fn patches(painted: Vec<PaintedFacet>) -> Vec<Patch> {
    let mut runs: Vec<Run> = Vec::new();
    for facet in painted {
        let outline = Convex::new(&facet.corners);
        match place(&runs, &facet, &outline).and_then(|place| runs.get_mut(place)) {
            Some(run) => run.push(facet, outline),
            None => runs.push(Run::new(facet, outline)),
        }
    }
    runs.into_iter().map(Run::patch).collect()
}

/// The run that a facet can be painted with: one of its body and tone none of whose lines it hides, while no later run lies behind it.
fn place(runs: &[Run], facet: &PaintedFacet, outline: &Convex) -> Option<usize> {
    for (place, run) in runs.iter().enumerate().rev().take(LOOK_BACK) {
        let alike = (run.body, run.tone) == (facet.body, facet.tone);
        if alike && !run.lines.iter().any(|line| outline.holds_part_of(line)) {
            return Some(place);
        }
        if run.overlaps(outline) {
            return None;
        }
    }
    None
}

/// Facets of one body in one tone, whatever of them is painted first.
struct Run {
    body: usize,
    tone: u8,
    facets: Vec<Convex>,
    lines: Vec<[Point; 2]>,
    bounds: Bounds,
}

impl Run {
    fn new(facet: PaintedFacet, outline: Convex) -> Self {
        let bounds = outline.bounds;
        let mut run =
            Self { body: facet.body, tone: facet.tone, facets: Vec::new(), lines: Vec::new(), bounds };
        run.push(facet, outline);
        run
    }

    fn push(&mut self, facet: PaintedFacet, outline: Convex) {
        self.bounds = self.bounds.with(&outline.bounds);
        self.lines.extend(facet.lines);
        self.facets.push(outline);
    }

    fn overlaps(&self, outline: &Convex) -> bool {
        self.bounds.overlaps(&outline.bounds) && self.facets.iter().any(|facet| facet.overlaps(outline))
    }

    fn patch(self) -> Patch {
        Patch { body: self.body, tone: self.tone, areas: outlines(&self.facets), lines: chains(self.lines) }
    }
}

/// What facets cover together: the sides that two of them share are left out, and the others joined to outlines.
fn outlines(run: &[Convex]) -> Vec<Vec<Point>> {
    let mut sides: Vec<[Point; 2]> = Vec::new();
    for facet in run {
        for (a, b) in facet.corners.iter().zip(facet.corners.iter().cycle().skip(1)) {
            match sides.iter().position(|[c, d]| same(a, d) && same(b, c)) {
                Some(place) => drop(sides.swap_remove(place)),
                None => sides.push([*a, *b]),
            }
        }
    }
    let mut chains = chains(sides);
    for chain in &mut chains {
        if chain.len() > 1 && chain.first().zip(chain.last()).is_some_and(|(a, b)| same(a, b)) {
            chain.pop();
        }
    }
    chains
}

/// Lines joined where one ends and another starts.
fn chains(mut lines: Vec<[Point; 2]>) -> Vec<Vec<Point>> {
    lines.reverse();
    let mut chains = Vec::new();
    while let Some([first, second]) = lines.pop() {
        let mut chain = vec![first, second];
        let mut end = second;
        while let Some(place) = lines.iter().rposition(|[a, _]| same(a, &end)) {
            let [_, next] = lines.remove(place);
            chain.push(next);
            end = next;
        }
        chains.push(chain);
    }
    chains
}

/// Two places nearer to each other than can be seen, mm.
fn same(a: &Point, b: &Point) -> bool {
    (a.x - b.x).abs() < 1e-6 && (a.y - b.y).abs() < 1e-6
}
