//! Questions that are answered beside the page.

use super::{after, promise};
use js_sys::{Promise, Uint8Array};
use leptos::prelude::*;
use staywright::ask::{Answer, Question};
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// The shell's: a promise of the answer's bytes.
    #[wasm_bindgen(catch, js_name = staywrightAsk)]
    fn staywright_ask(question: &[u8]) -> Result<Promise, JsValue>;
}

/// The question that is answered just now, and the newest one that came meanwhile.
#[derive(Clone, Copy)]
struct Line {
    busy: RwSignal<bool>,
    next: StoredValue<Option<Question>>,
    take: StoredValue<Box<dyn Fn(Option<Answer>) + Send + Sync>>,
}

/// Puts the question again whenever a signal that it reads has changed, one at a time and the newest one next. Nothing is asked
/// where there is no question. Whether one is under way.
pub fn follow(
    question: impl Fn() -> Option<Question> + 'static,
    take: impl Fn(Option<Answer>) + Send + Sync + 'static,
) -> ReadSignal<bool> {
    let line = Line {
        busy: RwSignal::new(false),
        next: StoredValue::new(None),
        take: StoredValue::new(Box::new(take)),
    };
    after::follow_painted(move |_| {
        if let Some(question) = question() {
            line.next.set_value(Some(question));
            answer_next(line);
        }
    });
    line.busy.read_only()
}

fn answer_next(line: Line) {
    // Whoever asked may have gone meanwhile.
    if line.busy.try_get_untracked() != Some(false) {
        return;
    }
    let Some(question) = line.next.try_update_value(Option::take).flatten() else { return };
    line.busy.set(true);
    ask(&question, move |answer| {
        if line.busy.try_set(false).is_none() {
            line.take.with_value(|take| take(answer));
            answer_next(line);
        }
    });
}

/// Puts one question; the answer is `None` where there is nobody to give one.
pub fn ask(question: &Question, then: impl FnOnce(Option<Answer>) + 'static) {
    match staywright_ask(&question.to_bytes()) {
        Ok(promise) => promise::then(promise, move |bytes| {
            let bytes = bytes.ok().and_then(|bytes| bytes.dyn_into::<Uint8Array>().ok());
            then(bytes.and_then(|bytes| Answer::from_bytes(&bytes.to_vec())));
        }),
        Err(_) => then(None),
    }
}
