//! The page's side of the worker: questions go there as bytes, and each response is held against its question.

use super::{after, promise};
use crate::session::Session;
use js_sys::{Promise, Uint8Array};
use leptos::prelude::*;
use staywright::ask::{Answer, Question, Response};
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// The shell's: a promise of the response's bytes; none where the worker gave none twice.
    #[wasm_bindgen(catch, js_name = staywrightAsk)]
    fn staywright_ask(question: &[u8]) -> Result<Promise, JsValue>;
}

/// Takes a response, with the question that it answers.
type Take = Box<dyn Fn(&Question, Response) + Send + Sync>;

/// The question that is answered just now, and the newest one that came meanwhile.
#[derive(Clone, Copy)]
struct Line {
    about: &'static str,
    session: Session,
    busy: RwSignal<bool>,
    next: StoredValue<Option<Question>>,
    take: StoredValue<Take>,
}

/// Puts the question again whenever a signal that it reads has changed, one at a time and the newest one next. Nothing is asked
/// where there is no question. Where no answer comes, the session is told what it would have been `about`. Whether a question
/// is under way.
pub fn follow(
    about: &'static str,
    question: impl Fn() -> Option<Question> + 'static,
    take: impl Fn(&Question, Response) + Send + Sync + 'static,
) -> ReadSignal<bool> {
    let session = Session::here();
    let line = Line {
        about,
        session,
        busy: RwSignal::new(false),
        next: StoredValue::new(None),
        take: StoredValue::new(Box::new(take)),
    };
    after::follow_painted(move |_| {
        session.asked_again.track();
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
    put(question, move |question, response| {
        if line.busy.try_set(false).is_none() {
            line.session.note_silence(line.about, response.is_none());
            if let Some(response) = response {
                line.take.with_value(|take| take(question, response));
            }
            answer_next(line);
        }
    });
}

/// Puts one question; the answer is `None` where there is nobody to give one.
pub fn ask(question: Question, then: impl FnOnce(Option<Answer>) + 'static) {
    put(question, |_, response| then(response.map(|response| response.answer)));
}

fn put(question: Question, then: impl FnOnce(&Question, Option<Response>) + 'static) {
    let id = question.id();
    match staywright_ask(&question.to_bytes()) {
        Ok(promise) => promise::then(promise, move |bytes| {
            let bytes = bytes.ok().and_then(|bytes| bytes.dyn_into::<Uint8Array>().ok());
            let response = bytes.and_then(|bytes| Response::from_bytes(&bytes.to_vec()));
            // A response to anything else is no answer.
            then(&question, response.filter(|response| response.request == id));
        }),
        Err(_) => then(&question, None),
    }
}
