//! What the buttons of the shop's form do.

use crate::model::shop::{
    EndMill, HoleSaw, Origin, Process, Shop, SlittingSaw, Speeds, Sure, demo_shop, inch_hole_saws,
    metric_hole_saws, published_processes, slitting_saws,
};
use crate::units::SpindleSpeed;

/// Most entries of a list.
const MOST: usize = 120;

/// The list whose fields get new names by a button.
pub(super) fn list_of(key: &str) -> Option<&str> {
    let (act, what) = key.split_once(' ')?;
    match act {
        "all" => Some(""),
        "remove" | "list" => Some(what.split(['[', ' ']).next().unwrap_or(what)),
        _ => None,
    }
}

/// Does what the button with that key does; nothing where there is no such button.
pub(super) fn act(shop: &mut Shop, key: &str) {
    match key {
        "all example" => *shop = demo_shop(),
        "all lists" => *shop = Shop::default(),
        "list hole_saws metric" => shop.hole_saws = metric_hole_saws(),
        "list hole_saws inch" => shop.hole_saws = inch_hole_saws(),
        "list slitting_saws" => shop.slitting_saws = slitting_saws(),
        "list processes" => {
            shop.processes = published_processes();
            shop.joined_by = 0;
        }
        "list mill.speeds_rpm steps" => shop.mill.speeds = Speeds::Steps(vec![slowest(shop)]),
        "list mill.speeds_rpm range" => {
            shop.mill.speeds = Speeds::Range(slowest(shop), SpindleSpeed::from_rpm(fastest(shop)));
        }
        "add hole_saws" => add(&mut shop.hole_saws, HoleSaw::default()),
        "add slitting_saws" => add(&mut shop.slitting_saws, SlittingSaw::default()),
        "add end_mills" => add(&mut shop.end_mills, EndMill::default()),
        "add processes" => add_process(shop),
        "add mill.speeds_rpm" => add_speed(shop),
        _ => at_one(shop, key),
    }
}

/// A new entry like the last one; the plain one where the list is empty.
fn add<T: Clone>(list: &mut Vec<T>, plain: T) {
    if list.len() < MOST {
        list.push(list.last().cloned().unwrap_or(plain));
    }
}

fn add_process(shop: &mut Shop) {
    let Some(name) = (1..).map(|count| format!("own way {count}")).find(|name| is_free(shop, name)) else {
        return;
    };
    let gap = shop.process().map_or_else(Default::default, |process| process.gap);
    if shop.processes.len() < MOST {
        shop.processes.push(Process { name, gap, origin: Origin::new(Sure::Own, "") });
    }
}

fn is_free(shop: &Shop, name: &str) -> bool {
    shop.processes.iter().all(|process| process.name != name)
}

fn add_speed(shop: &mut Shop) {
    let next = fastest(shop);
    if let Speeds::Steps(steps) = &mut shop.mill.speeds
        && steps.len() < MOST
    {
        steps.push(SpindleSpeed::from_rpm(next));
    }
}

fn slowest(shop: &Shop) -> SpindleSpeed {
    crate::machining::slowest(&shop.mill.speeds).unwrap_or(SpindleSpeed::from_rpm(60.0))
}

fn fastest(shop: &Shop) -> f64 {
    match &shop.mill.speeds {
        Speeds::Steps(steps) => steps.iter().map(|speed| speed.rpm()).fold(slowest(shop).rpm(), f64::max),
        Speeds::Range(_, fastest) => fastest.rpm(),
    }
}

/// What is done at one entry of a list: `remove hole_saws[2]`.
fn at_one(shop: &mut Shop, key: &str) {
    let Some((act, place)) = key.split_once(' ') else { return };
    let Some((list, index)) = place.trim_end_matches(']').split_once('[') else { return };
    let Ok(index) = index.parse::<usize>() else { return };
    match (act, list) {
        ("remove", "hole_saws") => remove(&mut shop.hole_saws, index),
        ("remove", "slitting_saws") => remove(&mut shop.slitting_saws, index),
        ("remove", "end_mills") => remove(&mut shop.end_mills, index),
        ("remove", "processes") => {
            remove(&mut shop.processes, index);
            if index < shop.joined_by || shop.joined_by >= shop.processes.len() {
                shop.joined_by = shop.joined_by.saturating_sub(1);
            }
        }
        ("remove", "mill.speeds_rpm") => {
            if let Speeds::Steps(steps) = &mut shop.mill.speeds
                && steps.len() > 1
            {
                remove(steps, index);
            }
        }
        ("arbor", "hole_saws") => {
            if let Some(arbor) = shop.hole_saws.get(index).map(|saw| saw.arbor) {
                shop.hole_saws.iter_mut().for_each(|saw| saw.arbor = arbor);
            }
        }
        _ => {}
    }
}

fn remove<T>(list: &mut Vec<T>, index: usize) {
    if index < list.len() {
        list.remove(index);
    }
}
