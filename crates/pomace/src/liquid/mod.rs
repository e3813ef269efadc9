//! `pomace liquid`: what a liquid is, from the grams of what is in it.

mod grams;
mod json;
mod names;
pub(crate) mod notes;
mod page;
mod table;

use pomace_matter::Mixture;
use pomace_matter::liquid::{Properties, properties};
use pomace_matter::units::Celsius;

use crate::cli;
use crate::fault::{Answer, Fault, Stop};
use crate::page::show;

/// Reads what is in the liquid, and shows what it is.
pub(crate) fn run(asked: &cli::Liquid) -> Result<Answer, Stop> {
    if let Some(path) = &asked.csv {
        return table::run(path, asked.celsius);
    }
    let contents = grams::read(&asked.grams.join(" ")).map_err(Stop::Faults)?;
    if contents.total().0 <= 0.0 {
        return Err(Stop::from(Fault::new(
            "there is nothing in the liquid: all grams are zero",
            "write what is in it: `water=60 g, sucrose=10 g`",
        )));
    }
    let liquid = Liquid::new(contents, asked.celsius);
    if asked.json {
        show(&json::text(&liquid))?;
    } else {
        show(&page::page(&liquid, crate::page::width()))?;
    }
    Ok(Answer::Done)
}

/// A liquid with its figures.
#[derive(Debug)]
struct Liquid {
    contents: Mixture,
    celsius: f64,
    figures: Properties,
}

impl Liquid {
    fn new(contents: Mixture, celsius: f64) -> Self {
        let figures = properties(&contents, Celsius(celsius));
        Self {
            contents,
            celsius,
            figures,
        }
    }
}
