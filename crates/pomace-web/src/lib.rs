//! The pages of pomace.
//!
//! Everything is rendered here, in Rust: a page is HTML that works by itself, each change a plain form. A
//! browser that runs the small modules in `assets/` sends the same forms without leaving the page, shows
//! what they did in the same breath, and keeps what is typed until the server has it on disk.
//!
//! A change goes two ways. *Try* works out a text that nobody has kept yet and gives back the parts of the
//! page that differ ([`Server`] answers within a millisecond or so); *save* writes the text as a revision
//! and answers when it is on disk. So plus and minus are quick, and a revision is what someone paused at.
//!
//! | to find | look in |
//! | --- | --- |
//! | an address and what answers there | `routes/` |
//! | what a drink's page is worked out from | `drink/` |
//! | what a prep's and an ingredient's page draw | `prep/`, `ingredient/` |
//! | how a line, a step, a figure looks as HTML | `view/` |
//! | what the book and the bench have to say, in words of the pages | `voice.rs` |
//! | what one revision has otherwise than another | `differ.rs` |
//! | the book in memory, search | `kitchen/` |
//! | what a form may change | `change.rs`, `whole.rs` |
//! | what a page does without being left | `assets/live.js`, and what it imports |
//! | who may ask | `guard.rs`, `devices/` |
//! | addresses, encryption | `listen/` |

mod app;
mod assets;
mod change;
mod devices;
mod differ;
mod drink;
mod guard;
mod ingredient;
mod kitchen;
mod listen;
mod prep;
mod ranges;
mod routes;
mod serve;
mod view;
mod voice;
mod whole;
mod words;

pub use listen::certificate::{CertificateError, CertificateFiles};
pub use serve::{Book, Lan, Options, ServeError, Server};
