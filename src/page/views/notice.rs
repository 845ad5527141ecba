//! What the page says once at its top.

use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;

/// The notice, until it is put away.
pub fn notice_bar() -> Part {
    let session = Session::here();
    let bar = move || {
        let bar = |notice: crate::session::Notice| {
            let close = part("button").set("type", "button").on_click(move || session.notice.set(None));
            let mut lines = notice.text.lines();
            let first = part("p").text(lines.next().unwrap_or_default());
            let list = lines.fold(part("ul"), |list, line| list.add(part("li").text(line)));
            part("div")
                .class(if notice.bad { "notice bad" } else { "notice" })
                .add(part("div").add(first).add(list))
                .add(close.text("Close"))
        };
        session.notice.get().map(bar).into_iter().collect()
    };
    part("div").class("notices").set("role", "status").live(bar)
}
