//! The same drinks and preps that the specimen page shows.

#[path = "../examples/specimen/crowd.rs"]
pub(crate) mod crowd;
#[path = "../examples/specimen/demo.rs"]
pub(crate) mod demo;
