//! What the bench has to say about a document: amounts that do not fit, steps it cannot compute.

use pomace_book::{
    Book, Document, DocumentId, Finding, Gravity, Span, Spanned, Spot, ToldValue, Topic, Words,
    voice::IN_ITS_FILE,
};

use crate::error::{Place, RunError};

/// A place in a document: its span, and the key in words.
#[derive(Clone, Debug)]
pub(crate) struct Where {
    pub span: Span,
    pub key: String,
}

impl Where {
    pub(crate) fn new(span: Span, key: impl Into<String>) -> Self {
        Self {
            span,
            key: key.into(),
        }
    }

    pub(crate) fn of<T>(value: &Spanned<T>) -> Self {
        Self::new(value.span, "")
    }
}

/// One finding.
pub(crate) fn finding(
    book: &Book,
    id: DocumentId,
    place: &Where,
    (topic, gravity): (Topic, Gravity),
    message: impl Into<Words>,
    mend: impl Into<Words>,
) -> Finding {
    Finding {
        document: book
            .document(id)
            .map_or_else(String::new, |d| d.name().value.clone()),
        place: book.place(id, place.span, &place.key),
        topic,
        gravity,
        message: message.into(),
        authority: None,
        mend: mend.into(),
    }
}

pub(crate) fn unknown_substance(book: &Book, id: DocumentId, name: &Spanned<String>) -> Finding {
    let all = pomace_matter::Substance::ALL.map(pomace_matter::Substance::name);
    let near = pomace_book::names::nearest(name, all, 3);
    let mend = if near.is_empty() {
        Words::of_file(
            "use the substances of `pomace liquid`, or `other`",
            IN_ITS_FILE,
        )
    } else {
        format!("did you mean {}?", pomace_book::names::either(near)).into()
    };
    finding(
        book,
        id,
        &Where::new(name.span, "composition"),
        (Topic::Name, Gravity::Stop),
        format!("`{}` is no substance that is known here", name.value),
        mend,
    )
}

pub(crate) fn over_a_hundred(
    book: &Book,
    id: DocumentId,
    told: &[(Spanned<String>, Spanned<ToldValue>)],
    percent: f64,
) -> Finding {
    let span = told
        .last()
        .map_or_else(Span::default, |(_, value)| value.span);
    finding(
        book,
        id,
        &Where::new(span, "composition"),
        (Topic::Amount, Gravity::Stop),
        format!("the composition sums to {percent:.1} g in 100 g"),
        "take the excess off; what is missing to 100 counts as water".to_owned(),
    )
}

pub(crate) fn unknown_allergen(book: &Book, id: DocumentId, name: &Spanned<String>) -> Finding {
    let all = pomace_larder::Allergen::ALL.map(pomace_larder::Allergen::as_str);
    let near = pomace_book::names::nearest(name, all, 2);
    let mend = if near.is_empty() {
        format!("write one of {}", pomace_book::names::either(all))
    } else {
        format!("did you mean {}?", pomace_book::names::either(near))
    };
    finding(
        book,
        id,
        &Where::new(name.span, "allergens"),
        (Topic::Allergen, Gravity::Stop),
        format!("`{}` is none of the allergen classes", name.value),
        mend,
    )
}

pub(crate) fn not_stated(book: &Book, id: DocumentId, place: &Where, what: &str) -> Finding {
    let place = Where::new(place.span, what);
    finding(
        book,
        id,
        &place,
        (Topic::Amount, Gravity::Note),
        format!("{what} is not stated, so every figure with it in stands on a guess"),
        match what {
            "sugar" => "evaporate a weighed spoonful, or read density and refractometer together"
                .to_owned(),
            "acid" => "titrate it, or ask the maker".to_owned(),
            _ => "ask the maker, or read it with a hydrometer and a refractometer together"
                .to_owned(),
        },
    )
}

/// Something that is not stated, and that nothing stands in for.
pub(crate) fn left_out(book: &Book, id: DocumentId, place: &Where, what: &str) -> Finding {
    Finding {
        gravity: Gravity::Caution,
        message: format!(
            "{what} is not stated and nothing stands in for it: every figure is without it"
        )
        .into(),
        mend: format!("‹add like = …› with something similar, or find out the {what}").into(),
        ..not_stated(book, id, place, what)
    }
}

/// Ingredients that are each like the next, without end.
pub(crate) fn too_deep(book: &Book, id: DocumentId) -> Finding {
    finding(
        book,
        id,
        &Where::new(
            book.document(id)
                .map_or_else(Span::default, |d| d.name().span),
            "like",
        ),
        (Topic::Name, Gravity::Stop),
        "so many ingredients are each like the next that this one is not looked up".to_owned(),
        "let one of them start from the catalogue, or from its own ‹composition›".to_owned(),
    )
}

/// A label that no litre can meet.
pub(crate) fn impossible_label(book: &Book, id: DocumentId, span: Span) -> Finding {
    finding(
        book,
        id,
        &Where::new(span, "label"),
        (Topic::Amount, Gravity::Stop),
        "so much alcohol, sugar and acid do not fit into a litre together".to_owned(),
        "look at the label again: strength in %vol, sugar and acid in g/L".to_owned(),
    )
}

/// Pieces of another kind than those whose weight is known.
pub(crate) fn other_pieces(
    book: &Book,
    id: DocumentId,
    place: &Where,
    item: &crate::shelf::Item,
    noun: &str,
) -> Finding {
    let known = item.piece_noun.as_deref().unwrap_or("piece");
    let grams = item.piece_grams.unwrap_or_default();
    finding(
        book,
        id,
        place,
        (Topic::Amount, Gravity::Stop),
        format!(
            "`{noun}` are counted, and of `{}` only the weight of one {known} is known, {grams:.0} g",
            item.name
        ),
        Words::of_file(
            format!(
                "weigh it and write grams; or tell in its ingredient what such a piece weighs, `unit = \"1 {noun} = … g\"`; or count in {known}, if the whole is meant"
            ),
            format!("weigh it and write grams; or count in {known}, if the whole is meant"),
        ),
    )
}

/// A house beside the first.
pub(crate) fn second_house(book: &Book, id: DocumentId, document: &Document) -> Finding {
    finding(
        book,
        id,
        &Where::new(document.name().span, "house"),
        (Topic::Syntax, Gravity::Caution),
        "the book has another house already, and this one is passed over".to_owned(),
        "keep one of them, with the settings of both".to_owned(),
    )
}

/// More of a by-product than one batch leaves.
pub(crate) fn more_batches(
    book: &Book,
    id: DocumentId,
    spot: Spot,
    of: &str,
    batches: f64,
) -> Finding {
    let document = book.document(id);
    let (span, key) = match (spot, document) {
        (Spot::Line(i), Some(Document::Drink(drink))) => (
            drink.lines.get(i).map(|l| l.span),
            format!("line {}", i + 1),
        ),
        (Spot::Step(i), Some(document)) => (
            document.steps().get(i).map(|s| s.span),
            format!("step {}", i + 1),
        ),
        _ => (None, String::new()),
    };
    finding(
        book,
        id,
        &Where::new(span.unwrap_or_default(), key),
        (Topic::Amount, Gravity::Note),
        format!("one batch of `{of}` does not leave so much: this takes {batches:.1} of them"),
        "take less, write `all`, or make more batches of it".to_owned(),
    )
}

/// A run that stopped, as a finding at the place that stopped it.
pub(crate) fn of_error(
    book: &Book,
    id: DocumentId,
    document: &Document,
    error: &RunError,
) -> Finding {
    let (lines, garnish) = match document {
        Document::Drink(drink) => (drink.lines.as_slice(), drink.garnish.as_slice()),
        _ => (&[][..], &[][..]),
    };
    let place = error.place();
    let span = match place {
        Some(Place::Line(i)) => lines.get(i).map(|l| l.span),
        Some(Place::Garnish(i)) => garnish.get(i).map(|g| g.span),
        Some(Place::Step(i)) => document.steps().get(i).map(|s| s.span),
        None => None,
    };
    let (message, mend) = error.told();
    finding(
        book,
        id,
        &Where::new(
            span.unwrap_or(document.name().span),
            place.map_or_else(String::new, |p| p.to_string()),
        ),
        (Topic::Amount, Gravity::Stop),
        message,
        mend,
    )
}
