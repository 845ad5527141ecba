//! A shop as its JSON text.

use super::Shop;
use super::cutter::HoleSaw;
use super::fixture::MeasuredFixture;
use super::mill::{Axis, Mill, Speeds};
use super::process::Process;
use super::read::FORMAT;
use super::scale::Sense;
use super::walk::CUTTING;
use crate::model::group::Group;
use crate::model::{Fixture, TouchSide};
use serde_json::{Map, Value, json};

impl Shop {
    /// The shop file, every key written, which [`Shop::from_json`] reads back to the same shop.
    pub fn to_json(&self) -> Value {
        let own: Map<String, Value> = self
            .own_speeds
            .iter()
            .map(|(metal, speed)| (metal.key().to_owned(), speed.m_per_min().into()))
            .collect();
        let mut file = json!({
            "format": FORMAT,
            "name": self.name,
            "hole_saws": self.hole_saws.iter().map(hole_saw).collect::<Vec<_>>(),
            "slitting_saws": self.slitting_saws.iter().map(figures).collect::<Vec<_>>(),
            "end_mills": self.end_mills.iter().map(figures).collect::<Vec<_>>(),
            "fixture": fixture(&self.fixture),
            "mill": mill(&self.mill),
            "metal": self.metal.key(),
            "processes": self.processes.iter().map(process).collect::<Vec<_>>(),
            "own_speeds_m_min": own,
        });
        if let Some(file) = file.as_object_mut() {
            file.extend(figure_map(&self.touch));
            file.extend(self.process().map(|used| ("joined_by".to_owned(), used.name.clone().into())));
        }
        file
    }
}

/// The figures of a group by key.
fn figures(group: &impl Group<f64>) -> Value {
    Value::Object(figure_map(group))
}

fn figure_map(group: &impl Group<f64>) -> Map<String, Value> {
    let mut map = Map::new();
    group.each("", &mut |key, _, value| {
        map.insert(key.to_owned(), Value::from(value));
    });
    map
}

fn hole_saw(saw: &HoleSaw) -> Value {
    let mut map = figure_map(&saw.size);
    map.insert(CUTTING.key.to_owned(), saw.cutting.map_or(Value::Null, |cutting| cutting.mm().into()));
    map.insert("tooth".to_owned(), saw.tooth.key().into());
    map.extend(figure_map(&saw.arbor));
    Value::Object(map)
}

fn process(process: &Process) -> Value {
    let mut map = figure_map(&process.gap);
    map.insert("name".to_owned(), process.name.clone().into());
    map.insert("sure".to_owned(), process.origin.sure.key().into());
    map.insert("source".to_owned(), process.origin.source.clone().into());
    Value::Object(map)
}

fn fixture(fixture: &MeasuredFixture) -> Value {
    let mut map = job_fixture(&fixture.figures);
    map.insert("bed".to_owned(), figures(&fixture.bed));
    map.insert("block".to_owned(), figures(&fixture.block));
    map.insert("post".to_owned(), figures(&fixture.post));
    map.insert("axle".to_owned(), figures(&fixture.axle));
    map.insert("limits".to_owned(), figures(&fixture.limits));
    let scales = json!({
        "slide": scale(&fixture.slide.figures, fixture.slide.sense),
        "axle_height": scale(&fixture.axle_height.figures, fixture.axle_height.sense),
        "half_spacing": scale(&fixture.half_spacing.figures, fixture.half_spacing.sense),
        "tilt": scale(&fixture.tilt.figures, fixture.tilt.sense),
        "swivel": scale(&fixture.swivel.figures, fixture.swivel.sense),
    });
    map.insert("scales".to_owned(), scales);
    Value::Object(map)
}

/// The keys that a job's fixture has too.
fn job_fixture(fixture: &Fixture) -> Map<String, Value> {
    let mut map = figure_map(&fixture.bench);
    let posts: Vec<f64> = fixture.posts.iter().map(|post| post.mm()).collect();
    map.insert("posts_u_mm".to_owned(), posts.into());
    if fixture.touch_from != TouchSide::default() {
        map.insert("touch_from".to_owned(), fixture.touch_from.key().into());
    }
    map
}

fn scale(group: &impl Group<f64>, sense: Sense) -> Value {
    let mut map = figure_map(group);
    map.insert("sense".to_owned(), sense.key().into());
    Value::Object(map)
}

fn mill(mill: &Mill) -> Value {
    let mut map = figure_map(&mill.body);
    let mut put = |key: &str, value: Value| map.insert(key.to_owned(), value);
    put("spindle", mill.spindle.key().into());
    put("fixture_along", mill.lies_along.key().into());
    put("rear_toward", mill.rear_toward.key().into());
    put("side_to_spindle", mill.side_to_spindle.key().into());
    put("block_side", mill.block_side.key().into());
    put("mounting", mill.mounting.key().into());
    for axis in Axis::ALL {
        let (figures, sense) = mill.readout(axis);
        put(axis.key(), scale(&figures, sense));
    }
    match &mill.speeds {
        Speeds::Steps(steps) => {
            put("speeds_rpm", steps.iter().map(|speed| speed.rpm()).collect::<Vec<_>>().into());
        }
        Speeds::Range(slowest, fastest) => {
            put("slowest_rpm", slowest.rpm().into());
            put("fastest_rpm", fastest.rpm().into());
        }
    }
    Value::Object(map)
}
