//! Ids for markup.

/// An id for the field of the figure at `path`.
pub fn id(path: &str) -> String {
    let plain: String =
        path.chars().map(|c| if c.is_ascii_alphanumeric() || c == '_' { c } else { '-' }).collect();
    format!("figure-{plain}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_become_ids() {
        assert_eq!(id("fixture.posts_u_mm[1]"), "figure-fixture-posts_u_mm-1-");
    }
}
