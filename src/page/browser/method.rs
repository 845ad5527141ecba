//! Calling what some browsers lack.

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// Whether `target` has a method of that name.
pub fn has(target: &JsValue, name: &str) -> bool {
    get(target, name).is_some_and(|value| value.is_function())
}

/// The property `name` of `target`, where there is one.
pub fn get(target: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(target, &JsValue::from_str(name))
        .ok()
        .filter(|value| !value.is_undefined() && !value.is_null())
}

/// Calls `target.name(argument)` and takes what it promises; `None` where it is lacking or refuses at once.
pub fn promised(target: &JsValue, name: &str, argument: &JsValue) -> Option<Promise> {
    let method: Function = get(target, name)?.dyn_into().ok()?;
    let answer = method.apply(target, &Array::of1(argument)).ok()?;
    answer.dyn_into().ok()
}
