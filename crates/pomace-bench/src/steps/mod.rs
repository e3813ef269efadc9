//! The steps, one idea per file. Each takes a vessel and leaves it so that every gram is accounted
//! for.

pub(crate) mod blend;
pub(crate) mod boiling;
pub(crate) mod brown;
pub(crate) mod charge;
pub(crate) mod clarify;
pub(crate) mod dissolve;
pub(crate) mod draw;
pub(crate) mod dry;
pub(crate) mod ferment;
pub(crate) mod freeze;
pub(crate) mod ice;
pub(crate) mod juice;
pub(crate) mod pour;
pub(crate) mod separate;
pub(crate) mod simmer;
pub(crate) mod steep;
pub(crate) mod wash;
