//! The profile of a cut as a table, for a paper template or a check with a rotary table.

use super::choice::Choice;
use crate::session::Session;
use crate::session::cut_facts::{ProfileRow, cut_of, profile};
use crate::session::show;
use leptos::prelude::*;

/// The table, worked out only while it is open.
#[component]
pub fn ProfileTable() -> impl IntoView {
    let session = Session::here();
    let open = RwSignal::new(false);
    let step = RwSignal::new(15_u32);
    let rows = move || {
        if !open.get() {
            return Vec::new();
        }
        let pick = session.settings.pick.get();
        session
            .follow
            .plan
            .with(|plan| cut_of(plan, pick).round().map(|cut| profile(cut, step.get())).unwrap_or_default())
    };
    let has_profile = Memo::new(move |_| {
        let pick = session.settings.pick.get();
        session.follow.plan.with(|plan| cut_of(plan, pick).round().is_some())
    });
    let unit = session.settings.unit;
    let row = move |row: ProfileRow| {
        view! {
            <tr>
                <th scope="row">{format!("{}°", row.phi)}</th>
                <td>{show::length_or_dash(row.outer, unit.get())}</td>
                <td>{show::length_or_dash(row.bore, unit.get())}</td>
            </tr>
        }
    };
    let toggle = move |event| open.set(crate::browser::details::is_open(&event));
    let chosen = Signal::derive(move || step.get().to_string());
    let choose = move |key: String| step.set(key.parse().unwrap_or(15));
    let options = vec![("5", "5°"), ("10", "10°"), ("15", "15°"), ("30", "30°")];
    view! {
        <Show when=move || has_profile.get()>
            <details class="more" on:toggle=toggle>
                <summary>"Profile table"</summary>
                <p>
                    "Round the stay from its upper side in the fixture, seen from the front looking rearwards; lengths along the \
                     stay from the front reference point."
                </p>
                <Choice legend="Step" name="profile-step" titled=true options=options.clone() chosen=chosen choose=choose />
                <table>
                    <thead>
                        <tr><th scope="col">"Round"</th><th scope="col">"Outer edge"</th><th scope="col">"Bore"</th></tr>
                    </thead>
                    <tbody>{move || rows().into_iter().map(row).collect_view()}</tbody>
                </table>
            </details>
        </Show>
    }
}
