//! Ingredients, as a label, a supplier or the house tells them.

use pomace_larder::Form;

use super::faults::Faults;
use super::table::Table;
use crate::document::scale::{ACID, BRIX, CONTENT, DENSITY, PH, STRENGTH, SUGAR};
use crate::document::{IngredientDoc, PartDoc, Price, ToldAcid, ToldValue, UnitWeight};
use crate::finding::{Gravity, Topic};
use crate::names::fold;
use crate::quantity::cursor::{Cursor, shorten};
use crate::quantity::{Fault, QuantityError};
use crate::span::Spanned;
use crate::voice::{IN_ITS_FILE, Words};

/// Keys of which one at least must be there for anything to be computed.
const TELLING: &[&str] = &[
    "like",
    "composition",
    "strength",
    "sugar",
    "acid",
    "brix",
    "density",
    "part",
];

/// Reads an ingredient whose name is known.
pub(super) fn read(
    name: Spanned<String>,
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> IngredientDoc {
    if !TELLING.iter().any(|key| table.has(key)) {
        faults.add(
            (Topic::Amount, Gravity::Caution),
            name.span,
            "ingredient",
            "nothing is said of what the ingredient is made of",
            Words::of_file(
                "‹add like = …› with a similar ingredient, ‹strength›, ‹sugar›, or a `[composition]` table",
                "fill in ‹like›, ‹strength› or ‹sugar›",
            ),
        );
    }
    let parts = table.tables("part", faults);
    let parts: Vec<PartDoc> = parts
        .into_iter()
        .filter_map(|table| part(table, faults))
        .collect();
    check_shares(&parts, faults);
    IngredientDoc {
        name,
        based_on: table.name("like", faults),
        strength: table.read("strength", faults, |text| STRENGTH.read(text)),
        sugar: table.read("sugar", faults, |text| SUGAR.read(text)),
        acid: table.read("acid", faults, acid),
        ph: table.read("ph", faults, |text| PH.read(text)),
        brix: table.read("brix", faults, |text| BRIX.read(text)),
        density: table.read("density", faults, |text| DENSITY.read(text)),
        composition: composition(table, faults),
        form: form(table, faults),
        allergens: table.texts("allergens", faults),
        price: table.read("price", faults, Price::parse),
        pack: table.amount("pack", faults),
        unit: table.read("unit", faults, UnitWeight::parse),
        parts,
        cautions: table.texts("cautions", faults),
        vegan: table.flag("vegan", faults),
        vegetarian: table.flag("vegetarian", faults),
        origin: table.text("origin", faults),
        note: table.text("note", faults),
    }
}

fn part(mut table: Table<'_>, faults: &mut Faults<'_>) -> Option<PartDoc> {
    let name = table.name("name", faults);
    let share = table.read("share", faults, |text| CONTENT.read(text));
    let based_on = table.name("like", faults);
    let composition = composition(&mut table, faults);
    let form = form(&mut table, faults);
    let allergens = table.texts("allergens", faults);
    let cautions = table.texts("cautions", faults);
    let note = table.text("note", faults);
    table.finish(faults);
    if name.is_none() && !table.has("name") {
        faults.add(
            (Topic::Name, Gravity::Stop),
            table.span,
            &table.at,
            "the part has no name",
            Words::of_file("‹add name = …›, such as `peel`", IN_ITS_FILE),
        );
    }
    let (name, span) = (name?, table.span);
    Some(PartDoc {
        name,
        share,
        based_on,
        composition,
        form,
        allergens,
        cautions,
        note,
        span,
    })
}

fn form(table: &mut Table<'_>, faults: &mut Faults<'_>) -> Option<Spanned<Form>> {
    let forms = || Form::ALL.map(Form::as_str);
    table.word("form", faults, |text| fold(text).parse().ok(), forms)
}

/// `[composition]`: a substance and its content for each key.
fn composition(
    table: &mut Table<'_>,
    faults: &mut Faults<'_>,
) -> Vec<(Spanned<String>, Spanned<ToldValue>)> {
    let Some(mut inner) = table.table("composition", faults) else {
        return Vec::new();
    };
    let mut composition = Vec::new();
    let mut least = 0.0;
    for (substance, text) in inner.entries(faults) {
        let place = inner.key(&shorten(&substance));
        match CONTENT.read(&text) {
            Ok(value) => {
                least += match value {
                    ToldValue::Exactly(value) | ToldValue::Between(value, _) => value,
                    ToldValue::NotStated => 0.0,
                };
                composition.push((substance, Spanned::new(value, text.span)));
            }
            Err(error) => faults.quantity(error, text.span, &place),
        }
    }
    if least > 100.5 {
        faults.add(
            (Topic::Amount, Gravity::Stop),
            inner.span,
            &inner.at,
            format!("the composition adds up to {least:.1} g in 100 g"),
            "check the numbers; the sum must not be above 100 g",
        );
    }
    composition
}

/// The parts of a whole are at most the whole.
fn check_shares(parts: &[PartDoc], faults: &mut Faults<'_>) {
    let least: f64 = parts
        .iter()
        .filter_map(|part| match part.share.as_ref()?.value {
            ToldValue::Exactly(share) | ToldValue::Between(share, _) => Some(share),
            ToldValue::NotStated => None,
        })
        .sum();
    if let Some(last) = parts.last().filter(|_| least > 100.5) {
        faults.add(
            (Topic::Amount, Gravity::Stop),
            last.share.as_ref().map_or(last.span, |share| share.span),
            &format!("part {}, share", parts.len()),
            format!("the shares of the parts add up to {least:.1} %"),
            "check the weights; what is lost on the board makes them less than 100 %, never more",
        );
    }
    for (index, part) in parts.iter().enumerate() {
        let before = parts.iter().take(index);
        if before
            .clone()
            .any(|other| crate::names::same(&other.name, &part.name))
        {
            faults.add(
                (Topic::Name, Gravity::Stop),
                part.name.span,
                &format!("part {}, name", index + 1),
                format!("there are two parts called `{}`", part.name.value),
                "give each part its own name",
            );
        }
    }
}

/// `6 g/L`, `6 g/L citric`, `45 g/L as malic acid`.
fn acid(text: &str) -> Result<ToldAcid, QuantityError> {
    const ACIDS: &[&str] = &[
        "citric",
        "malic",
        "lactic",
        "tartaric",
        "acetic",
        "phosphoric",
        "ascorbic",
    ];
    let mut cursor = Cursor::new(text)?;
    let value = ACID.read_from(&mut cursor)?;
    cursor.take_word(&["as", "of", "in"]);
    let acid = ACIDS.iter().find(|acid| cursor.is_word(0, &[acid]));
    if acid.is_some() {
        cursor.skip(1);
    } else if let Some(word) = cursor
        .word(0)
        .filter(|word| !word.eq_ignore_ascii_case("acid"))
    {
        return Err(QuantityError::new(
            Fault::Leftover,
            cursor.offset(),
            format!("`{}` is no acid that is known here", shorten(word)),
            format!("write {}", crate::names::either(ACIDS.iter().copied())),
        ));
    }
    cursor.take_word(&["acid"]);
    cursor.finish("write it like `6 g/L citric`")?;
    Ok(ToldAcid {
        value,
        acid: acid.map(|acid| (*acid).to_owned()),
    })
}
