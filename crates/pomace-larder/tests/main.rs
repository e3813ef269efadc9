//! Tests of the larder: the tables, the matter made of them, and the search in them.

mod energy;
mod matching;
mod mixtures;
mod names;
mod parts;
mod sources;
mod yields;
