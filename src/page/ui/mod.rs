//! What is seen: one component a file, each a thin reading of the session.

mod app;
mod check;
mod cut;
mod design;
mod dialog;
mod figure_sheet;
mod job_bar;
mod job_sheet;
mod menu_sheet;
mod new_frame;
mod places;
mod shop;
mod status_line;
mod step_button;

pub use app::App;
