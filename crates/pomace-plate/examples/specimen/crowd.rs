//! A house of forty drinks that stand close together.

use pomace_plate::field::Field;

use super::demo;

const FIRST: [&str; 8] = [
    "Long", "Low", "Grey", "Cold", "Neap", "Spring", "Inner", "Last",
];
const SECOND: [&str; 5] = ["Reach", "Water", "Sill", "Gate", "Towpath"];

pub(crate) fn field() -> Field {
    let mut field = demo::field();
    field.house = (0..40)
        .map(|index| {
            let turn = f64::from(index) * 2.399_963;
            let away = f64::from(index).sqrt() * 0.55;
            let name = format!(
                "{} {}",
                FIRST.get(index as usize % 8).unwrap_or(&""),
                SECOND.get(index as usize / 8).unwrap_or(&"")
            );
            demo::other(
                &name,
                4.6 + away * turn.cos(),
                6.0 + away * turn.sin(),
                f64::from(index % 4) * 8.0,
            )
        })
        .collect();
    field
}
