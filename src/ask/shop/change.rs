//! Taking what was typed into one field of a shop.

use crate::model::shop::{CUTTING, OWN_SPEED, Shop};
use crate::model::{Fault, Spec, capital};
use crate::text::entry::{Understood, understand};
use crate::text::{Style, fault_message};
use crate::units::LengthUnit;
use serde_json::{Map, Value};

/// A changed shop, and what was understood of the text where it does not say so itself.
type Changed = (Shop, Option<String>);

/// The shop with the text of the field at `path`.
///
/// # Errors
/// A sentence on why it cannot be taken.
pub(super) fn typed(shop: &Shop, path: &str, text: &str, unit: LengthUnit) -> Result<Changed, String> {
    let mut file = shop.to_json();
    let place = place(&mut file, path).ok_or("there is no such field any more")?;
    let mut note = None;
    *place = match spec_of(shop, path) {
        Some(spec) if may_be_empty(spec) && text.trim().is_empty() => Value::Null,
        Some(spec) => {
            let Understood { value, note: said } = understand(text, spec, unit)?;
            note = said;
            Value::from(value)
        }
        None => Value::from(text),
    };
    // The way of joining that is used is named by its name.
    if path == format!("processes[{}].name", shop.joined_by) {
        file.as_object_mut().map(|file| file.insert("joined_by".to_owned(), Value::from(text)));
    }
    let shop = Shop::from_json(&file.to_string()).map_err(|faults| sentence(&faults, path, unit))?;
    Ok((shop, note))
}

/// What is known of the figure at a path; `None` for words.
fn spec_of(shop: &Shop, path: &str) -> Option<&'static Spec> {
    let mut found = None;
    shop.each(&mut |known, spec, _| {
        if known == path {
            found = Some(spec);
        }
    });
    found.or_else(|| {
        [&CUTTING, &OWN_SPEED].into_iter().find(|spec| path.split(['.', '[']).any(|part| part == spec.key))
    })
}

fn may_be_empty(spec: &Spec) -> bool {
    spec.key == CUTTING.key || spec.key == OWN_SPEED.key
}

/// The place of a path such as `mill.x.travel_mm` or `hole_saws[2].kerf_mm` in a shop file.
fn place<'a>(file: &'a mut Value, path: &str) -> Option<&'a mut Value> {
    path.split(['.', '[']).try_fold(file, |value, key| match key.strip_suffix(']') {
        Some(index) => value.get_mut(index.parse::<usize>().ok()?),
        None => Some(value.as_object_mut()?.entry(key).or_insert(Value::Object(Map::new()))),
    })
}

/// What is wrong at a field, or first of all.
fn sentence(faults: &[Fault], path: &str, unit: LengthUnit) -> String {
    let here = faults.iter().find(|fault| fault.field == path).or_else(|| faults.first());
    let style = Style { unit, ..Style::default() };
    format!("{}.", capital(&here.map_or_else(String::new, |fault| fault_message(fault, style))))
}
