//! A liquid as JSON.

use serde_json::{Map, Value, json};

use super::{Liquid, notes};
use crate::number::round;

/// The figures by their names, with the unit in the name.
///
/// What is in the liquid was declared by the person who asks; nobody has said yet how far that may
/// be off, so `plus_minus` is null.
pub(super) fn text(liquid: &Liquid) -> String {
    let mut object = Map::new();
    object.insert("mass_g".to_owned(), figure(Some(liquid.contents.total().0)));
    object.insert("celsius".to_owned(), number(Some(liquid.celsius)));
    for (property, value) in liquid.figures.iter() {
        object.insert(property.name().to_owned(), figure(value));
    }
    object.insert("notes".to_owned(), json!(notes::short(&liquid.figures)));
    format!("{:#}\n", Value::Object(object))
}

fn figure(value: Option<f64>) -> Value {
    json!({ "value": number(value), "plus_minus": null, "basis": "declared" })
}

fn number(value: Option<f64>) -> Value {
    value.map_or(Value::Null, |value| json!(round(value)))
}
