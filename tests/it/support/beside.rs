//! What a stay has beside it, worked out from the job file's figures alone.

use nalgebra::{Point3, Vector3};
use staywright::clearance::Obstacle;
use staywright::model::{Hand, Job};
use staywright::plan::Plan;

/// A solid as the test knows it: distance of a point outside.
pub enum Known {
    /// About a line along y through (x, z): from and to radius, from and to y, swollen by.
    Round {
        x: f64,
        z: f64,
        radii: (f64, f64),
        ys: (f64, f64),
        by: f64,
    },
    Box {
        middle: Vector3<f64>,
        along: Vector3<f64>,
        out: Vector3<f64>,
        halves: [f64; 3],
    },
}

impl Known {
    /// From its surface; what lies inside counts as 0.
    pub fn distance(&self, p: &Point3<f64>) -> f64 {
        match self {
            Self::Round { x, z, radii, ys, by } => {
                let radius = (p.x - x).hypot(p.z - z);
                let near = Vector3::new(radius.max(radii.0).min(radii.1), p.y.max(ys.0).min(ys.1), 0.0);
                (Vector3::new(radius, p.y, 0.0) - near).norm() - by
            }
            Self::Box { middle, along, out, halves } => {
                let apart = p.coords - middle;
                let local = [apart.dot(along), apart.dot(out), apart.y];
                let beyond = local.iter().zip(halves).map(|(x, half)| (x.abs() - half).max(0.0).powi(2));
                beyond.sum::<f64>().sqrt()
            }
        }
    }
}

/// The neighbours of one stay, worked out here from the job file's figures.
pub fn known(job: &Job, plan: &Plan, hand: Hand, to: Obstacle) -> Known {
    let all = job.surroundings.unwrap();
    let side = |from: f64, to: f64| if hand == Hand::Right { (from, to) } else { (-to, -from) };
    let (ax, az, half) = (plan.axle.x, plan.axle.z, 0.5 * job.frame.axle_spacing.mm());
    let crank = all.crank.unwrap();
    match to {
        Obstacle::Tyre => {
            let (w, h) = (job.wheel.tyre_width.mm(), job.wheel.tyre_height.mm());
            let (low, high, round) = (311.0 + w.min(h) / 2.0, 311.0 + h - w.min(h) / 2.0, w.min(h) / 2.0);
            let over = (w - h).max(0.0) / 2.0;
            Known::Round {
                x: ax,
                z: az,
                radii: (low, high),
                ys: (-over, over),
                by: round + all.limits.run_out.mm(),
            }
        }
        Obstacle::Chainring(i) => {
            let ring = all.rings.iter().nth(i).unwrap();
            let tips = 12.7 * (0.6 + 1.0 / (std::f64::consts::PI / ring.teeth.number()).tan());
            let (middle, half) = (ring.chainline.mm(), ring.thickness.mm() / 2.0);
            Known::Round {
                x: 0.0,
                z: 0.0,
                radii: (0.0, tips / 2.0),
                ys: (middle - half, middle + half),
                by: 0.0,
            }
        }
        Obstacle::Crank => {
            let reach = crank.arm.mm() + crank.over.mm();
            Known::Round { x: 0.0, z: 0.0, radii: (0.0, reach), ys: side(crank.inside.mm(), 900.0), by: 0.0 }
        }
        Obstacle::Heel => {
            let (x, z, ys) = (crank.heel_back.mm(), crank.heel_up.mm(), side(crank.heel_inside.mm(), 900.0));
            Known::Round { x, z, radii: (0.0, crank.arm.mm()), ys, by: 0.0 }
        }
        Obstacle::Chain => {
            let chain = all.sprocket.unwrap();
            let pitch = 12.7 / (std::f64::consts::PI / chain.teeth.number()).sin();
            let (middle, wide) = (half - chain.from_dropout.mm(), chain.chain_width.mm() / 2.0);
            let radii = (0.0, (pitch + chain.chain_height.mm()) / 2.0);
            Known::Round { x: ax, z: az, radii, ys: side(middle - wide, middle + wide), by: 0.0 }
        }
        Obstacle::Rotor => {
            let rotor = all.rotor.unwrap();
            let (middle, thick) = (half - rotor.from_dropout.mm(), rotor.thickness.mm() / 2.0);
            let ys = side(middle - thick, middle + thick);
            Known::Round { x: ax, z: az, radii: (0.0, rotor.diameter.mm() / 2.0), ys, by: 0.0 }
        }
        Obstacle::Caliper => {
            let rotor = all.rotor.unwrap();
            let angle = rotor.caliper.radians();
            let out = Vector3::new(-angle.cos(), 0.0, angle.sin());
            let y = -(half - rotor.from_dropout.mm());
            let middle = plan.axle.coords + Vector3::y() * y + out * rotor.caliper_out.mm();
            let halves =
                [rotor.caliper_length, rotor.caliper_height, rotor.caliper_width].map(|size| size.mm() / 2.0);
            Known::Box { middle, along: Vector3::new(angle.sin(), 0.0, angle.cos()), out, halves }
        }
        Obstacle::Other | Obstacle::Post(_) => panic!("looked at elsewhere"),
    }
}
