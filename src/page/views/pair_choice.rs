//! Chainstays or seat stays.

use super::choice::choice;
use crate::browser::part::Part;
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::PairName;

/// The pair that is looked at.
pub fn pair_choice() -> Part {
    let pick = Session::here().settings.pick;
    let choose = move |key: String| {
        if let Some(pair) = PairName::ALL.into_iter().find(|pair| pair.key() == key) {
            pick.update(|pick| pick.pair = pair);
        }
    };
    let options = [("chainstays", "Chainstays"), ("seatstays", "Seat stays")];
    choice("Pair", "pair", false, &options, move || pick.get().pair.key().to_owned(), choose)
}
