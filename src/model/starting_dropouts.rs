//! Dropouts to start from: invented, no maker's; each to be measured before a stay is cut for it.

use super::dropout::{Dropout, DropoutBody, RoundDropout, Tabbed};
use super::dropout_tabs::{PlateTab, Plug, Socket};
use crate::units::{Angle, Length};

const fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// Their names and figures.
pub fn starting_dropouts() -> [(&'static str, Dropout); 4] {
    [
        ("Plate, 6 mm", plate(6.0, 0.0)),
        ("Plate, 7 mm, hub recessed 3.5 mm", plate(7.0, 3.5)),
        ("Round, 25.4 mm", round()),
        ("Socket, plugs for 16 and 11 mm stays", socket()),
    ]
}

fn plate(thickness: f64, recess: f64) -> Dropout {
    let body = DropoutBody { thickness: mm(thickness), recess: mm(recess), ..DropoutBody::default() };
    let tab = PlateTab::default();
    Dropout::Plate(Tabbed { body, tabs: None, chainstay: tab, seatstay: tab })
}

fn round() -> Dropout {
    Dropout::Round(RoundDropout { od: mm(25.4), width: mm(20.0), ..RoundDropout::default() })
}

fn socket() -> Dropout {
    let body = DropoutBody { thickness: mm(7.0), turn: Angle::from_degrees(0.0), ..DropoutBody::default() };
    let plug = |od| Socket { figures: Plug { od: mm(od), ..Plug::default() }, splay: None };
    Dropout::Socket(Tabbed { body, tabs: None, chainstay: plug(14.3), seatstay: plug(9.5) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::starting_job;

    #[test]
    fn every_dropout_can_be_put_in() {
        for (name, dropout) in starting_dropouts() {
            assert_eq!(starting_job().with_dropouts(dropout, None).faults(), [], "{name}");
        }
    }
}
