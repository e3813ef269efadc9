//! The demo: the book of an invented house, embedded.

use crate::book::Book;
use crate::document::Source;

macro_rules! demo {
    ($($file:literal),* $(,)?) => {
        /// Its documents: file name and text, as they stand in `examples/sill-and-ebb/`.
        pub const DOCUMENTS: &[(&str, &str)] = &[
            $(($file, include_str!(concat!("../../../examples/sill-and-ebb/", $file))),)*
        ];
    };
}

demo![
    "ebb.toml",
    "frost-line.toml",
    "honey-poached-quince.toml",
    "house.toml",
    "peel-draw-syrup.toml",
    "pomace-soda.toml",
    "quince-juice.toml",
    "quince-leather.toml",
    "quince-peel-shrub.toml",
    "quince-puree.toml",
    "quince.toml",
    "salted-whey-cordial.toml",
    "second-pressing.toml",
    "set-core-cordial.toml",
    "slack-water.toml",
    "strained-yoghurt-whey.toml",
    "weir.toml",
    "whey-cleared.toml",
];

/// The demo book.
#[must_use]
pub fn book() -> Book {
    let mut book = Book::new();
    for (file, text) in DOCUMENTS {
        book.add(Source::new(format!("demo/{file}"), *text));
    }
    book
}
