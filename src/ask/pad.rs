//! The flat for a brake mount as a form.

use super::form::{Change, FormSection, Formed, Refused, ToForm, figure};
use crate::model::{BrakeMountFlat, Group, Spec};
use crate::text::entry::{Understood, understand};

const WORDS: &str = "Read these off the mount or its drawing: none of them is a fact here. The flat is parallel to the plane of the \
                     pair.";

/// The pad of kept bytes; the one to start from where there are none, or none that can be read.
pub(super) fn read(bytes: &[u8]) -> BrakeMountFlat {
    let mut kept = bytes.chunks_exact(8).filter_map(|eight| Some(f64::from_le_bytes(eight.try_into().ok()?)));
    BrakeMountFlat::default()
        .map("", &mut |_, spec, plain| kept.next().filter(|kept| spec.bounds.contain(*kept)).unwrap_or(plain))
}

fn write(pad: &BrakeMountFlat) -> Vec<u8> {
    let mut bytes = Vec::new();
    pad.each("", &mut |_, _, number| bytes.extend(number.to_le_bytes()));
    bytes
}

pub(super) fn formed(asked: &ToForm) -> Formed {
    let mut pad = read(&asked.bytes);
    let mut done = Formed::default();
    for edit in &asked.edits {
        let Change::Type(path, text) = &edit.change else { continue };
        let Some(spec) = spec_of(&pad, path) else { continue };
        match understand(text, spec, asked.unit) {
            Ok(Understood { value, note }) => {
                pad = pad.map("", &mut |known, _, old| if known == path { value } else { old });
                done.notes.extend(note.map(|note| (path.clone(), note)));
            }
            Err(fault) => {
                done.refused.push(Refused {
                    serial: edit.serial,
                    path: path.clone(),
                    text: text.clone(),
                    fault,
                });
            }
        }
    }
    let mut top = FormSection {
        key: "pad".into(),
        title: "Flat for a brake mount".into(),
        words: WORDS.into(),
        ..FormSection::default()
    };
    pad.each("", &mut |path, spec, value| top.fields.push(figure(path, spec, Some(value), asked.unit)));
    Formed {
        bytes: if asked.edits.is_empty() { asked.bytes.clone() } else { write(&pad) },
        sections: vec![top],
        ..done
    }
}

fn spec_of(pad: &BrakeMountFlat, path: &str) -> Option<&'static Spec> {
    let mut found = None;
    pad.each("", &mut |known, spec, _| {
        if known == path {
            found = Some(spec);
        }
    });
    found
}
