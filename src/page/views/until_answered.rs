//! Answers of the worker keep their place on the page while they are worked out anew.

use crate::browser::part::Part;
use crate::session::Answered;

/// Hides what stands in `part` while it is no answer to what would be asked now: its place is kept, its words are not shown.
pub fn until_answered<K, T>(part: Part, answered: Answered<K, T>) -> Part
where
    K: PartialEq + Send + Sync + 'static,
    T: Send + Sync + 'static,
{
    until(part, Box::new(move || answered.is_behind()))
}

fn until(part: Part, behind: Box<dyn Fn() -> bool>) -> Part {
    let behind = std::rc::Rc::new(behind);
    let busy = behind.clone();
    part.toggle("behind", move || behind()).follow("aria-busy", move || busy().then(|| "true".to_owned()))
}
