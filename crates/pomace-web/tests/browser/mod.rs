//! Stories of people at the pages, each in a browser of its own.

mod chromium;
mod page;
mod server;

mod at_the_bar;
mod changing;
mod finding;
mod from_nothing;
mod lost;
mod plain;
mod together;
