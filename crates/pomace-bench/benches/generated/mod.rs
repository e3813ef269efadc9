//! A book of any size, made up.

use pomace_book::{Book, Source};

/// So many drinks, and a fifth as many preps.
pub(crate) fn generated(drinks: usize) -> Book {
    let preps = drinks / 5;
    let mut book = Book::new();
    for prep in 0..preps {
        let text = format!(
            "prep = \"Prep {prep}\"\n[[step]]\ndo = \"weigh\"\nwhat = \"lemon peel\"\namount = \"{} g\"\nas = \"peel\"\n[[step]]\ndo = \"add\"\nwhat = \"cider vinegar\"\namount = \"140 % of peel\"\n[[step]]\ndo = \"steep\"\ntime = \"{} h\"\n[[step]]\ndo = \"press\"\nby_product = \"pulp {prep}\"\n[[step]]\ndo = \"dissolve\"\nwhat = \"honey\"\namount = \"200 g\"\n",
            100 + prep % 300,
            1 + prep % 40,
        );
        book.add(Source::new(format!("prep-{prep}.toml"), text));
    }
    for drink in 0..drinks {
        let text = format!(
            "drink = \"Drink {drink}\"\n[[line]]\nwhat = \"gin, {} %\"\namount = \"{} mL\"\n[[line]]\nwhat = \"Prep {}\"\namount = \"20 mL\"\n[[line]]\nwhat = \"apple juice\"\namount = \"30 mL\"\n[[step]]\ndo = \"shake\"\ntime = \"{} s\"\n[[step]]\ndo = \"pour\"\nthrough = \"fine sieve\"\n",
            38 + drink % 10,
            20 + drink % 40,
            drink % preps.max(1),
            8 + drink % 8,
        );
        book.add(Source::new(format!("drink-{drink}.toml"), text));
    }
    book
}
