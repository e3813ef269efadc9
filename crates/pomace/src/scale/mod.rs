//! `pomace scale`: what so many serves ask for, and how many serves are in the hand.

mod hand;
mod page;
mod round;

use pomace_bench::Bench;
use pomace_bench::scale::{Plan, Wanted};
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
    let plan = plan(&bench, id, wanted(&bench, id, asked)?)?;
    let answer = if asked.json {
        page::json(&bench, id, &plan)
    } else {
        page::page(&bench, id, &plan, width())
    };
    show(&answer)?;
    Ok(Answer::Done)
}

fn plan(bench: &Bench<'_>, id: DocumentId, wanted: Wanted) -> Result<Plan, Stop> {
    bench
        .scale(id, wanted)
        .map_err(|error| stuck(bench, id, &error))
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
    let amount =
        parse_amount(text).map_err(|error| Fault::new(error.what.clone(), error.mend.clone()))?;
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
