//! Jobs in, rooms out: one JSON job a line on standard input, one JSON of its rooms a line on standard output.
//!
//! A faulty job gives `{"errors": [{"field", "value", "message"}]}` on its line, and the rest go on. Empty lines are
//! passed over.

use staywright::files::rooms_json;
use std::io::{self, BufRead, Write};

fn main() -> io::Result<()> {
    let mut rooms = io::BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().split(b'\n') {
        let line = line?;
        let job = String::from_utf8_lossy(&line);
        if !job.trim().is_empty() {
            writeln!(rooms, "{}", rooms_json(&job))?;
        }
    }
    rooms.flush()
}
