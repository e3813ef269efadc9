//! The same drinks and preps that the specimen page shows.

#[path = "../examples/specimen/crowd.rs"]
pub(crate) mod crowd;
#[path = "../examples/specimen/demo.rs"]
pub(crate) mod demo;
#[path = "../examples/specimen/preps.rs"]
pub(crate) mod preps;
