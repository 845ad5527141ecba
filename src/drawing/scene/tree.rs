//! The order of painting for any way of looking: a binary tree of planes (Fuchs, Kedem and Naylor, 1980).
//!
//! It is made once for a scene. Where a plane separates two sets of pieces, those on the viewer's side hide the others and never the
//! other way round. A set whose pieces all lie on the surface of one convex body needs no order: of these, no two that face the viewer overlap.

use super::polygon::{Lies, ON, Polygon};
use super::solid::Plane;
use nalgebra::Vector3;

/// Planes tried of the pieces, and as many of the seams, for each division.
const TRIED: usize = 10;

/// Pieces by which a plane is judged, at most.
const LOOKED_AT: usize = 150;

/// What cutting a piece costs, in pieces of imbalance.
const CUT: usize = 6;

/// Sets of more pieces are not looked at for lying on one convex body.
const CONVEX: usize = 160;

/// A node: its pieces are painted between what lies on its two sides.
#[derive(Debug)]
struct Node {
    plane: Option<Plane>,
    pieces: Vec<Polygon>,
    front: Option<usize>,
    back: Option<usize>,
}

/// The pieces of a scene's facets, to be painted in order.
#[derive(Debug, Default)]
pub(super) struct Tree {
    nodes: Vec<Node>,
}

/// How many pieces lie where.
#[derive(Clone, Copy, Default)]
struct Count {
    front: usize,
    back: usize,
    across: usize,
}

impl Tree {
    /// The tree of these pieces. `seams` are planes that may cut few of them.
    pub(super) fn new(pieces: Vec<Polygon>, seams: &[Plane]) -> Self {
        let mut tree = Self::default();
        let mut open = vec![(pieces, seams.to_vec(), None)];
        while let Some((pieces, seams, parent)) = open.pop() {
            if pieces.is_empty() {
                continue;
            }
            let place = tree.nodes.len();
            tree.hang(parent, place);
            let plane = if lies_on_convex(&pieces) { None } else { best(&pieces, &seams) };
            let Some(plane) = plane else {
                tree.nodes.push(Node { plane: None, pieces, front: None, back: None });
                continue;
            };
            let [on, front, back] = divided(pieces, &plane);
            tree.nodes.push(Node { plane: Some(plane), pieces: on, front: None, back: None });
            let near = |pieces: &[Polygon]| reaching(&seams, pieces);
            let (before, behind) = (near(&front), near(&back));
            open.push((front, before, Some((place, true))));
            open.push((back, behind, Some((place, false))));
        }
        tree
    }

    fn hang(&mut self, parent: Option<(usize, bool)>, place: usize) {
        let Some((parent, in_front)) = parent else { return };
        if let Some(node) = self.nodes.get_mut(parent) {
            let branch = if in_front { &mut node.front } else { &mut node.back };
            *branch = Some(place);
        }
    }

    /// How many pieces there are.
    pub(super) fn len(&self) -> usize {
        self.nodes.iter().map(|node| node.pieces.len()).sum()
    }

    /// Sets of pieces in the order to paint them, seen by a viewer who is far away in the direction `towards`. Within a set no piece
    /// that faces the viewer hides another.
    pub(super) fn walk(&self, towards: &Vector3<f64>) -> Vec<&[Polygon]> {
        enum Visit {
            Node(usize),
            Pieces(usize),
        }
        let mut order = Vec::new();
        let mut open = if self.nodes.is_empty() { Vec::new() } else { vec![Visit::Node(0)] };
        while let Some(visit) = open.pop() {
            match visit {
                Visit::Pieces(place) => order.extend(self.nodes.get(place).map(|node| &*node.pieces)),
                Visit::Node(place) => {
                    let Some(node) = self.nodes.get(place) else { continue };
                    let ahead = node.plane.is_some_and(|plane| plane.normal.dot(towards) > 0.0);
                    let (near, far) = if ahead { (node.front, node.back) } else { (node.back, node.front) };
                    open.extend(near.map(Visit::Node));
                    open.push(Visit::Pieces(place));
                    open.extend(far.map(Visit::Node));
                }
            }
        }
        order
    }
}

/// Whether each piece has all others behind it.
fn lies_on_convex(pieces: &[Polygon]) -> bool {
    let behind = |plane: &Plane, other: &Polygon| other.corners.iter().all(|c| plane.height(&c.at) <= ON);
    pieces.len() <= CONVEX
        && pieces.iter().all(|piece| pieces.iter().all(|other| behind(&piece.plane, other)))
}

/// The seams that still run through some piece's neighbourhood: those with pieces on both sides.
fn reaching(seams: &[Plane], pieces: &[Polygon]) -> Vec<Plane> {
    let parts = |seam: &&Plane| {
        let (mut front, mut back) = (false, false);
        for piece in pieces {
            let lies = piece.lies(seam);
            front |= lies == Lies::Front;
            back |= lies == Lies::Back;
            if front && back {
                return true;
            }
        }
        false
    };
    seams.iter().filter(parts).copied().collect()
}

/// The plane that cuts few pieces and leaves about as many on either side.
fn best(pieces: &[Polygon], seams: &[Plane]) -> Option<Plane> {
    let own = spread(pieces, TRIED).map(|piece| piece.plane);
    let own = own.map(|plane| (score(pieces, &plane, false), plane));
    let cutting = spread(seams, TRIED).map(|plane| (score(pieces, plane, true), *plane));
    let found = own.chain(cutting).filter_map(|(score, plane)| Some((score?, plane)));
    found.min_by_key(|(score, _)| *score).map(|(_, plane)| plane)
}

/// At most so many of a list, evenly taken.
fn spread<T>(list: &[T], most: usize) -> impl Iterator<Item = &T> {
    let step = list.len().div_ceil(most).max(1);
    list.iter().skip(step / 2).step_by(step)
}

/// The lower the better; `None` for a seam that separates nothing.
fn score(pieces: &[Polygon], plane: &Plane, is_seam: bool) -> Option<usize> {
    let mut count = Count::default();
    for piece in spread(pieces, LOOKED_AT) {
        match piece.lies(plane) {
            Lies::On => {}
            Lies::Front => count.front += 1,
            Lies::Back => count.back += 1,
            Lies::Across => count.across += 1,
        }
    }
    if is_seam && (count.front == 0 || count.back == 0) {
        return None;
    }
    Some(count.across * CUT + count.front.abs_diff(count.back))
}

/// Pieces on a plane, before it and behind it.
fn divided(pieces: Vec<Polygon>, plane: &Plane) -> [Vec<Polygon>; 3] {
    let [mut on, mut front, mut back] = [const { Vec::new() }; 3];
    for piece in pieces {
        match piece.lies(plane) {
            Lies::On => on.push(piece),
            Lies::Front => front.push(piece),
            Lies::Back => back.push(piece),
            Lies::Across => {
                let [before, behind] = piece.split(plane);
                front.push(before);
                back.push(behind);
            }
        }
    }
    [on, front, back]
}
