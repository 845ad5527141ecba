//! Questions about errors and finished stays, answered beside the page.

use super::{after, promise};
use crate::session::Session;
use crate::session::follow::Shared;
use crate::session::place::Place;
use js_sys::Promise;
use leptos::prelude::*;
use serde_json::Value;
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// The shell's: a promise of the answer's text.
    #[wasm_bindgen(catch, js_name = staywrightAsk)]
    fn staywright_ask(question: &str) -> Result<Promise, JsValue>;
}

/// The question that is answered just now, and the newest one that came meanwhile.
#[derive(Clone, Copy)]
struct Line {
    busy: StoredValue<bool>,
    next: StoredValue<Option<String>>,
}

/// Keeps the session's answer in step with its question, as long as somebody looks at it.
pub fn attach(session: Session) {
    let line = Line { busy: StoredValue::new(false), next: StoredValue::new(None) };
    after::follow(move |_| {
        if session.settings.place.get() == Place::Check {
            line.next.set_value(Some(session.question()));
            answer_next(session, line);
        }
    });
}

fn answer_next(session: Session, line: Line) {
    if line.busy.get_value() {
        return;
    }
    let Some(question) = line.next.get_value() else { return };
    line.next.set_value(None);
    line.busy.set_value(true);
    ask(&question, move |answer| {
        line.busy.set_value(false);
        session.answer.set(answer.map(Shared::new));
        answer_next(session, line);
    });
}

/// Puts one question; the answer is `None` where the checker could not be started.
pub fn ask(question: &str, then: impl FnOnce(Option<Value>) + 'static) {
    match staywright_ask(question) {
        Ok(promise) => promise::then(promise, move |text| {
            let text = text.ok().and_then(|text| text.as_string());
            then(text.and_then(|text| serde_json::from_str(&text).ok()));
        }),
        Err(_) => then(None),
    }
}
