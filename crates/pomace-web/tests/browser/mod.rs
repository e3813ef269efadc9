//! Stories of people at the pages, each in a browser of its own.

mod axe;
mod chromium;
mod page;
mod pages;
mod server;
mod wet_hands;
mod wire;

mod at_the_bar;
mod changing;
mod devices;
mod finding;
mod from_nothing;
mod history;
mod keyboard;
mod looks;
mod lost;
mod own;
mod plain;
mod the_house;
mod together;
mod traffic;
mod turns;
