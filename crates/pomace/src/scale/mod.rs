//! `pomace scale`: what so many serves ask for, and how many serves are in the hand.

mod bottles;
mod hand;
mod page;
mod round;

use pomace_bench::scale::Wanted;
use pomace_bench::{Bench, RunError};
use pomace_book::{Document, DocumentId, Reading, parse_amount};

use crate::cli::Scale;
use crate::fault::{Answer, Fault, Stop};
use crate::page::{show, width};
use crate::show::{find, stuck};

/// Answers `pomace scale`.
pub(crate) fn run(asked: &Scale) -> Result<Answer, Stop> {
    let book = find::book(asked.name.as_deref().unwrap_or(""), asked.book.as_deref())?;
    let bench = Bench::new(&book);
    let named = match &asked.name {
        Some(name) => Some(find::document(&bench, name)?),
        None => None,
    };
    if let Some(text) = &asked.hand {
        let hand = hand::read(text)?.on_the_shelf(&bench);
        let found = hand::serves(&bench, named, &hand)?;
        let answer = if asked.json {
            hand::json(&bench, &hand, &found)
        } else {
            hand::page(&bench, &hand, &found, width())
        };
        show(&answer)?;
        return Ok(Answer::Done);
    }
    let Some(id) = named else {
        return Err(Fault::new("nothing was named", "name a drink or a prep").into());
    };
    if !matches!(
        book.document(id),
        Some(Document::Drink(_) | Document::Prep(_))
    ) {
        return Err(Fault::new(
            format!("`{}` is made of nothing here", page::name_of(&bench, id)),
            "name a drink or a prep, or say what there is of it: `--hand \"2 kg of …\"`",
        )
        .into());
    }
    if let Some(tool) = asked.round {
        return round::run(&bench, id, tool, asked.json);
    }
    let bottles = asked.bottles.as_deref().map(bottles::read).transpose()?;
    let wanted = match (&bottles, asked.make.is_some() || asked.serves.is_some()) {
        (Some(bottles), false) => Wanted::Millilitres(bottles.all()),
        _ => wanted(&bench, id, asked)?,
    };
    let plan = match bench.scale(id, wanted) {
        Err(RunError::Nothing) if bottles.is_some() => {
            return Err(bottles::no_bottle(page::name_of(&bench, id)).into());
        }
        found => found.map_err(|error| stuck(&bench, id, &error))?,
    };
    let filled = bottles
        .map(|bottles| bottles.filled(&bench, id, &plan))
        .transpose()?;
    let answer = if asked.json {
        page::json(&bench, id, &plan, filled.as_ref())
    } else {
        page::page(&bench, id, &plan, filled.as_ref(), width())
    };
    show(&answer)?;
    Ok(Answer::Done)
}

fn wanted(bench: &Bench<'_>, id: DocumentId, asked: &Scale) -> Result<Wanted, Stop> {
    let is_drink = matches!(bench.book().document(id), Some(Document::Drink(_)));
    if let Some(serves) = asked.serves {
        if !is_drink {
            return Err(Fault::new(
                "a prep is not told in serves",
                "say how much of it: `--make \"2 L\"`",
            )
            .into());
        }
        return Ok(Wanted::Serves(serves));
    }
    let Some(text) = &asked.make else {
        return Ok(Wanted::Batches(1.0));
    };
    let amount = parse_amount(text)
        .map_err(|error| Fault::new(error.what.to_string(), error.mend.to_string()))?;
    match amount.reading {
        Reading::Mass { grams } if grams > 0.0 => Ok(Wanted::Grams(grams)),
        Reading::Volume { millilitres } if millilitres > 0.0 => {
            Ok(Wanted::Millilitres(millilitres))
        }
        _ => Err(Fault::new(
            format!("`{text}` is no mass and no volume"),
            "write `1.5 kg` or `2 L`",
        )
        .into()),
    }
}
