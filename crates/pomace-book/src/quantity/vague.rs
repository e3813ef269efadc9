//! Words that people use for an amount and that fix none.

use super::cursor::{Cursor, shorten};
use super::error::{Fault, QuantityError};

/// Takes `to taste` and its like.
pub(super) fn take_to_taste(cursor: &mut Cursor<'_>) -> bool {
    let found = cursor.is_word(0, &["to", "by"]) && cursor.is_word(1, &["taste"]);
    cursor.skip(if found { 2 } else { 0 });
    found
}

/// An error if the next word is one of no fixed size.
pub(super) fn refuse(cursor: &Cursor<'_>) -> Option<QuantityError> {
    const VAGUE: &[&str] = &[
        "splash", "splashes", "splish", "squeeze", "glug", "glugs", "bit", "touch", "hint", "some",
        "few", "several", "couple", "many", "enough", "lots", "little", "plenty", "rinse",
        "spritz", "whisper", "lug", "knob", "as", "q.s", "qs", "rest",
    ];
    const FILLING: &[&str] = &["top", "fill", "float", "topped", "lengthen"];
    let word = cursor.word(0)?;
    let lower = word.to_lowercase();
    // `to top`, `to top up`
    let fills = cursor.is_word(0, &["to"]) && cursor.is_word(1, FILLING);
    if fills || FILLING.contains(&lower.as_str()) {
        let word = if fills {
            shorten(cursor.rest())
        } else {
            word.to_owned()
        };
        return Some(QuantityError::new(
            Fault::Vague,
            cursor.offset(),
            format!("`{word}` says when, not how much"),
            "write the amount that goes in, such as `60 mL`, and ‹enters = top›",
        ));
    }
    VAGUE.contains(&lower.as_str()).then(|| {
        QuantityError::new(
            Fault::Vague,
            cursor.offset(),
            format!("`{word}` is no measure that two people pour alike"),
            "measure it once and write it, such as `5 mL`; or `to taste, from 5 mL`",
        )
    })
}
