//! A prep's page, as far as it is not a drink's too: its plate, and what is told from outside.

mod flow;
pub(crate) mod plate;
pub(crate) mod told;
