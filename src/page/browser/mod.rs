//! All that the page asks of the browser. Nothing else of the page knows `web_sys`.

pub mod address;
pub mod after;

pub mod clip;
pub mod details;
pub mod drag;
pub mod files;
pub mod hold;
pub mod keep;
pub mod keys;
mod method;
pub mod mount;
pub mod part;
pub mod print;
mod promise;
pub mod scroll;
pub mod share;
pub mod sight;
pub mod size;
pub mod steady;
mod store;
pub mod theme;
pub mod topic;
pub mod travel;
pub mod typed;
pub mod unread;
pub mod wake;
pub mod worker_client;
