//! A mark on whatever does not follow what was entered.

use crate::session::Session;
use leptos::prelude::*;

/// Names the fields that the last good plan does not follow; nothing while it follows all.
#[component]
pub fn Stale() -> impl IntoView {
    let session = Session::here();
    let names = move || {
        let mut names: Vec<String> =
            session.faulty.with(|list| list.values().map(|faulty| faulty.name.clone()).collect());
        session.follow.faults.with(|faults| {
            for fault in faults {
                let spec = session.follow.figure(&fault.field).map(|(spec, _)| spec.name.to_owned());
                let name = spec.unwrap_or_else(|| crate::session::pick::place_name(&fault.field));
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        });
        names
    };
    let mark = move || {
        let names = names();
        (!names.is_empty())
            .then(|| view! { <p class="stale">{format!("Not following: {}", names.join(", "))}</p> })
    };
    view! { <div role="status">{mark}</div> }
}
