//! A name leads to one document: a change that would give a document another's name is not made.
//!
//! What calls for a document is called anew with it; called by a name that two have, it could not be told
//! apart again when the name is changed back.

use pomace_store::Id;

use crate::app::App;
use crate::change::Asked;

/// Why a document of this kind cannot have the name that a change gives it; none where it can.
pub(crate) fn taken(app: &App, id: &Id, kind: &str, asked: &Asked) -> Option<String> {
    let is_name =
        asked.change == "set" && asked.list.is_none() && asked.key.as_deref() == Some("name");
    if !is_name {
        return None;
    }
    let kitchen = app.kitchen();
    // Drinks are called for by nothing, so what goes into one may have its name.
    let (_, other) = kitchen
        .named(asked.value.trim())
        .find(|(other, kept)| *other != id && (kept.kind == "drink") == (kind == "drink"))?;
    Some(format!(
        "“{}” is the name of another {} already: call this one something else",
        other.name, other.kind
    ))
}
