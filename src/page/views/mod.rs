//! What is seen: one component a file, each a thin reading of the session.

mod app;
mod button;
mod choice;
mod cut_detail;
mod drawing;
mod end_box;
mod explained;
mod facts;
mod field;
mod figures;
mod fixture_box;
mod header;
mod ids;
mod job_text;
mod layout;
mod limits_box;
mod link_box;
mod mill;
mod nav;
mod notice;
mod place_check;
mod place_cuts;
mod place_frame;
mod place_set_up;
mod place_stays;
mod print_card;
mod profile_table;
mod qr_view;
mod stale;
mod start_box;
mod step_button;
mod step_item;
mod triangle;
mod warnings;

pub use app::app;
