//! Jobs in, plans out: one JSON job a line on standard input, one JSON plan a line on standard output.
//!
//! A faulty job gives `{"errors": [{"field", "value", "message"}]}` on its line, and the rest go on. Empty lines are
//! passed over.

use staywright::files::plan_json;
use std::io::{self, BufRead, Write};

fn main() -> io::Result<()> {
    let mut plans = io::BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().split(b'\n') {
        let line = line?;
        // A line that is not UTF-8 is a faulty job like any other.
        let job = String::from_utf8_lossy(&line);
        if !job.trim().is_empty() {
            writeln!(plans, "{}", plan_json(&job))?;
        }
    }
    plans.flush()
}
