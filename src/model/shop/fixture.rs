//! The fixture as it is measured: bodies that a cutter could run into, scales, and how far everything goes.

use super::scale::{AngleScale, LengthScale};
use crate::model::Fixture;
use crate::model::group::group;
use crate::units::{Angle, Length};

group! {
    /// The bed that everything stands on; its underside is the base face.
    Bed {
        /// Its front end along the fixture, from the front datum line.
        front: Length = "front_u_mm", "bed front end", -45.0, -1000.0..=1500.0;
        /// Its rear end along the fixture.
        rear: Length = "rear_u_mm", "bed rear end", 470.0, -1000.0..=2500.0;
        /// Its width, centred on the centre plane.
        width: Length = "width_mm", "bed width", 64.0, 1.0..=600.0;
        /// Its thickness, upwards from the base face.
        thickness: Length = "thickness_mm", "bed thickness", 12.0, 0.0..=300.0;
    }
}

group! {
    /// The mounting block, whose faces are touched; its width is the job's.
    Block {
        /// Its front end along the fixture.
        front: Length = "front_u_mm", "block front end", 120.0, -1000.0..=1500.0;
        /// Its rear end along the fixture.
        rear: Length = "rear_u_mm", "block rear end", 220.0, -1000.0..=2500.0;
        /// Its thickness, upwards from the base face.
        thickness: Length = "thickness_mm", "block thickness", 20.0, 0.0..=500.0;
    }
}

group! {
    /// A clamp post round one tube. Posts stand at the stations that the job gives.
    PostBody {
        /// Its width along the fixture.
        along: Length = "along_mm", "post width along", 25.0, 1.0..=200.0;
        /// Its width across the fixture, the tube in its middle.
        across: Length = "across_mm", "post width across", 36.0, 1.0..=200.0;
        /// Its height above the stay plane.
        above: Length = "above_mm", "post height above the stays", 18.0, 0.0..=200.0;
        /// Nearest to the front that a post can stand.
        front: Length = "front_u_mm", "foremost post place", -200.0, -200.0..=1500.0;
        /// Furthest to the rear that a post can stand.
        rear: Length = "rear_u_mm", "rearmost post place", 1500.0, -200.0..=1500.0;
    }
}

group! {
    /// The dummy axle.
    AxleBody {
        /// Its diameter.
        diameter: Length = "diameter_mm", "dummy axle diameter", 12.0, 1.0..=60.0;
        /// Its length, centred on the centre plane.
        length: Length = "length_mm", "dummy axle length", 170.0, 1.0..=400.0;
    }
}

group! {
    /// How far the fixture goes; nothing is ruled out until it is measured. The slide's and the axle holder's ranges are the job's.
    FixtureLimits {
        /// Nearest to the centre line that a clamp goes.
        half_spacing_min: Length = "half_spacing_min_mm", "least clamp spacing", 0.0, 0.0..=300.0;
        /// Furthest from the centre line that a clamp goes.
        half_spacing_max: Length = "half_spacing_max_mm", "largest clamp spacing", 300.0, 0.0..=300.0;
        /// Smallest angle of the fixture to the mill's table.
        tilt_min: Angle = "tilt_min_deg", "least tilt", 0.0, 0.0..=90.0;
        /// Largest angle of the fixture to the mill's table.
        tilt_max: Angle = "tilt_max_deg", "largest tilt", 90.0, 0.0..=90.0;
        /// Largest swivel to either side.
        swivel_max: Angle = "swivel_max_deg", "largest swivel", 90.0, 0.0..=90.0;
    }
}

/// The fixture by measurement.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct MeasuredFixture {
    /// What a new job takes over. A job's own figures win.
    pub figures: Fixture,
    /// The bed.
    pub bed: Bed,
    /// The mounting block.
    pub block: Block,
    /// The clamp posts.
    pub post: PostBody,
    /// The dummy axle.
    pub axle: AxleBody,
    /// How far it goes.
    pub limits: FixtureLimits,
    /// The slide's scale, whose true figure counts from the front datum line to the dummy axle.
    pub slide: LengthScale,
    /// The axle holder's scale, whose true figure counts up from the stay plane.
    pub axle_height: LengthScale,
    /// The posts' scale, whose true figure counts from the centre line out to a tube's middle.
    pub half_spacing: LengthScale,
    /// The gauge, whose true figure is the fixture's angle to the mill's table.
    pub tilt: AngleScale,
    /// The swivel's scale, whose true figure counts as the plan's `swivel_deg`.
    pub swivel: AngleScale,
}
