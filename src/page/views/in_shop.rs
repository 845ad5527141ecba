//! Jobs as they start in the builder's own shop.

use crate::browser::worker_client;
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Answer, Question};
use staywright::link;
use staywright::model::Job;

/// Hands `then` the job with the shop's own fixture, and whether that is another one; the job as it is where the shop has none.
pub fn in_shop(session: Session, job: Job, then: impl FnOnce(Job, bool) + 'static) {
    let shop = session.settings.shop.get_untracked();
    if shop.is_empty() {
        then(job, false);
        return;
    }
    worker_client::ask(Question::InShop { job: link::encode(&job), shop }, move |answer| {
        let own = match answer {
            Some(Answer::Opened(own)) => link::decode(&own).ok(),
            _ => None,
        };
        let is_other = own.as_ref().is_some_and(|own| *own != job);
        then(own.unwrap_or(job), is_other);
    });
}
