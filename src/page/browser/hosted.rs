//! A place in a component for elements that are put together at run time.

use super::part::Part;
use leptos::html::Div;
use leptos::prelude::*;

/// The elements that `make` makes, in an element with the classes `class`, until the component goes.
#[component]
pub fn Hosted(
    /// The classes of the element around them.
    #[prop(optional)]
    class: &'static str,
    /// Makes them, once the element stands in the page.
    make: impl FnOnce() -> Vec<Part> + 'static,
) -> impl IntoView {
    host(class, Box::new(make))
}

fn host(class: &'static str, make: Box<dyn FnOnce() -> Vec<Part>>) -> AnyView {
    let node: NodeRef<Div> = NodeRef::new();
    let kept = StoredValue::new_local(Vec::new());
    let owner = Owner::current().unwrap_or_default();
    node.on_load(move |element| {
        let parts = owner.with(|| untrack(make));
        for part in &parts {
            part.put_into(&element);
        }
        let _ = kept.try_update_value(|kept| *kept = parts);
    });
    // The element may serve whatever comes next in its place.
    on_cleanup(move || {
        let parts = kept.try_update_value(std::mem::take).unwrap_or_default();
        parts.into_iter().for_each(Part::remove);
    });
    view! { <div class=class node_ref=node></div> }.into_any()
}
