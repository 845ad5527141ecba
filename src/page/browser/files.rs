//! Saving a file and reading one.

use super::promise;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, HtmlInputElement, Url};

/// A file larger than this is no job.
const MOST_BYTES: f64 = 1e6;

/// Offers `text` for saving under `name`.
pub fn save(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob =
        Blob::new_with_str_sequence_and_options(&js_sys::Array::of1(&JsValue::from_str(text)), &options)?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let anchor: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    Url::revoke_object_url(&url)
}

/// Reads the file chosen in `input` and hands its text on, or what is wrong with it.
pub fn read_chosen(input: &HtmlInputElement, then: impl FnOnce(Result<String, &'static str>) + 'static) {
    let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
    // Emptied, so that choosing the same file again is noticed.
    input.set_value("");
    if file.size() > MOST_BYTES {
        then(Err("the file is too large to be a job"));
        return;
    }
    promise::then(file.text(), |text| {
        let text = text.ok().and_then(|text| text.as_string());
        then(text.ok_or("the file cannot be read as text"));
    });
}
