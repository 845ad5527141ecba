//! A button that repeats while it is held.

use leptos::leptos_dom::helpers::{IntervalHandle, TimeoutHandle};
use leptos::prelude::*;
use std::time::Duration;

const FIRST: Duration = Duration::from_millis(450);
const NEXT: Duration = Duration::from_millis(90);

/// The timers of one button.
#[derive(Clone, Copy)]
pub struct Hold {
    wait: StoredValue<Option<TimeoutHandle>>,
    beat: StoredValue<Option<IntervalHandle>>,
    repeated: StoredValue<bool>,
}

impl Hold {
    /// Timers that stop when their button goes.
    pub fn new() -> Self {
        let hold = Self {
            wait: StoredValue::new(None),
            beat: StoredValue::new(None),
            repeated: StoredValue::new(false),
        };
        on_cleanup(move || hold.stop());
        hold
    }

    /// The button went down: `act` again and again, once it has been held for a while.
    pub fn press(self, act: impl Fn() + Copy + 'static) {
        self.stop();
        self.repeated.set_value(false);
        let start = move || {
            self.repeated.set_value(true);
            act();
            self.beat.set_value(set_interval_with_handle(act, NEXT).ok());
        };
        self.wait.set_value(set_timeout_with_handle(start, FIRST).ok());
    }

    /// The button went up, or the finger began to scroll.
    pub fn stop(self) {
        if let Some(Some(wait)) = self.wait.try_update_value(Option::take) {
            wait.clear();
        }
        if let Some(Some(beat)) = self.beat.try_update_value(Option::take) {
            beat.clear();
        }
    }

    /// Whether the click that follows belongs to a press that has already acted.
    pub fn spent(self) -> bool {
        self.repeated.try_update_value(std::mem::take).unwrap_or(false)
    }
}
