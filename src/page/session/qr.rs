//! A link as a QR code (ISO/IEC 18004), to be scanned off the shop wall.

use qrcodegen::{QrCode, QrCodeEcc};

/// Light modules to be left around the code.
pub const QUIET: i32 = 4;

/// A code: how many modules it is wide, and its dark modules as the outline of a path, one unit a module.
#[derive(Clone, Debug, PartialEq)]
pub struct Code {
    /// Modules a side, without the quiet zone.
    pub size: i32,
    /// The path's text.
    pub path: String,
}

/// The code of `text`, or `None` where it is too long for any.
pub fn code(text: &str) -> Option<Code> {
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|x| code.get_module(*x, y)).count();
            if run > 0 {
                path.push_str(&format!("M{x} {y}h{run}v1h-{run}z"));
            }
            x += i32::try_from(run).unwrap_or(0) + 1;
        }
    }
    Some(Code { size, path })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_its_finder_patterns_and_grows_with_its_text() {
        // ISO/IEC 18004 (from memory): version 1 has 21 modules a side, each further version 4 more; a finder pattern is
        // 7 modules wide, in three corners.
        let short = code("staywright");
        assert!(short.as_ref().is_some_and(|code| code.size == 21 && code.path.starts_with("M0 0h7v1h-7z")));
        let long = code(&"x".repeat(300)).map_or(0, |code| code.size);
        assert!(long > 21 && (long - 17) % 4 == 0, "{long}");
        assert_eq!(code(&"x".repeat(5000)), None);
    }
}
