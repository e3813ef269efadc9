//! The drawings of a prep's page.

pub(crate) mod flow;
