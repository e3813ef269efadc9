//! An ingredient's page: what it comes apart into, what is in each part, and who uses it.

pub(crate) mod contents;
pub(crate) mod parts;
mod uses;
