//! How long a plan takes: reads a job from standard input and prints the median time of its plan, with the rooms about its
//! stays where it has surroundings, in milliseconds.
//!
//! Built for the machine itself or for WebAssembly: the same work in both.

use staywright::model::Job;
use staywright::{clearance, placement};
use std::hint::black_box;
use std::io::{self, Error, Read};
use std::time::Instant;

const WARM: usize = 100;
const RUNS: usize = 1000;

fn main() -> io::Result<()> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let job = Job::from_json(&text).map_err(|faults| Error::other(format!("{faults:?}")))?;
    let mut times: Vec<f64> = (0..WARM + RUNS).map(|_| time_of(&job)).skip(WARM).collect();
    times.sort_by(f64::total_cmp);
    println!("{:.4}", times.get(RUNS / 2).copied().unwrap_or_default());
    Ok(())
}

fn time_of(job: &Job) -> f64 {
    let began = Instant::now();
    let plan = placement::solve(black_box(job));
    if job.surroundings.is_some() {
        black_box(clearance::clearances(&plan));
    }
    black_box(plan);
    began.elapsed().as_secs_f64() * 1e3
}
