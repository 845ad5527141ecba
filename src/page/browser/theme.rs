//! The theme, as an attribute of the page that the style sheet reads.

use super::after;
use crate::session::{Session, Theme};
use leptos::prelude::*;

/// Follows the setting from now on.
pub fn attach(session: Session) {
    after::follow(move |_| {
        let Some(root) = document().document_element() else { return };
        let _ = match session.settings.theme.get() {
            Theme::Device => root.remove_attribute("data-theme"),
            theme => root.set_attribute("data-theme", theme.key()),
        };
    });
}
