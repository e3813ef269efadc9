//! The same answers in JSON, with names that others rely on.

use pomace_bench::record::Record;
use pomace_bench::report::{DrinkReport, Figures, prep_json, tidy};
use pomace_bench::shelf::Item;
use pomace_bench::{Bench, Made, Mixed};
use pomace_book::{DocumentId, DrinkDoc, Marks, PrepDoc, Spot, Verb};
use serde_json::{Value, json};

use super::said;

fn set(value: &Value) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

pub(crate) fn drink(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &DrinkDoc,
    mixed: &Mixed,
    report: &DrinkReport,
) -> String {
    let lines: Vec<Value> = doc
        .lines
        .iter()
        .enumerate()
        .map(|(index, line)| {
            let grams = mixed.amount(Spot::Line(index)).map(tidy);
            json!({
                "what": line.what.value,
                "amount": line.amount.as_ref().map(|a| a.value.text.clone()),
                "mass_g": grams,
            })
        })
        .collect();
    let mut value = json!({ "drink": doc.name.value });
    if let (Value::Object(map), Value::Object(figures)) = (&mut value, report.json()) {
        map.extend(figures);
        map.insert("lines".into(), lines.into());
        map.insert(
            "steps".into(),
            steps(doc.steps.iter().map(|s| s.verb.value), &mixed.records),
        );
        map.insert("marks".into(), marks(&doc.marks));
        map.insert("questions".into(), questions(bench, id));
        map.insert("findings".into(), findings(bench, id));
    }
    set(&value)
}

pub(crate) fn prep(
    bench: &Bench<'_>,
    id: DocumentId,
    doc: &PrepDoc,
    made: &Made,
    figures: &Figures,
) -> String {
    let by_products: Vec<(String, usize)> = doc
        .steps
        .iter()
        .enumerate()
        .filter(|(index, _)| made.left.get(*index).is_some_and(|l| l.total() > 1e-9))
        .map(|(index, step)| {
            let name = step
                .by_product
                .as_ref()
                .map_or_else(|| "left behind".to_owned(), |b| b.value.clone());
            (name, index)
        })
        .collect();
    let mut value = json!({ "prep": doc.name.value });
    if let (Value::Object(map), Value::Object(figures)) =
        (&mut value, prep_json(made, figures, &by_products))
    {
        map.extend(figures);
        map.insert("cautions".into(), json!(bench.cautions(&made.kept)));
        map.insert(
            "steps".into(),
            steps(doc.steps.iter().map(|s| s.verb.value), &made.records),
        );
        map.insert("marks".into(), marks(&doc.marks));
        map.insert("questions".into(), questions(bench, id));
        map.insert("findings".into(), findings(bench, id));
    }
    set(&value)
}

pub(crate) fn ingredient(bench: &Bench<'_>, id: DocumentId, item: Option<&Item>) -> String {
    let name = bench.book().document(id).map(|d| d.name().value.clone());
    let Some(item) = item else {
        return set(&json!({ "ingredient": name, "findings": findings(bench, id) }));
    };
    let composition: serde_json::Map<String, Value> = item
        .gram
        .matter()
        .iter()
        .filter(|(_, g)| *g > 1e-12)
        .map(|(s, g)| (s.name().to_owned(), json!(tidy(100.0 * g))))
        .collect();
    let figures = item.form.pours().then(|| {
        let mut stream = item.gram.clone();
        stream.liquid = stream.liquid * 100.0;
        Figures::of(&stream).json()
    });
    set(&json!({
        "ingredient": name,
        "source": item.source,
        "basis": item.gram.carried.basis.map(|b| b.as_str()),
        "composition_g_per_100g": composition,
        "figures_of_100_g": figures,
        "allergens": item.gram.carried.allergens.iter().map(|a| a.as_str()).collect::<Vec<_>>(),
        "allergens_possible": item.gram.carried.maybe().map(|a| a.as_str()).collect::<Vec<_>>(),
        "cautions": item.cautions,
        "remarks": item.remarks,
        "findings": findings(bench, id),
    }))
}

/// The house's own marks, 0 to 5.
fn marks(marks: &Marks) -> Value {
    let given = marks
        .given()
        .map(|(name, mark)| (name.to_owned(), json!(mark)));
    Value::Object(given.collect())
}

fn steps(verbs: impl Iterator<Item = Verb>, records: &[Record]) -> Value {
    verbs
        .zip(records)
        .map(|(verb, record)| {
            let lost: serde_json::Map<String, Value> = record
                .lost
                .iter()
                .map(|(to, grams)| (to.word().to_owned(), json!(tidy(*grams))))
                .collect();
            json!({
                "do": verb.word(),
                "before_g": tidy(record.before),
                "added_g": tidy(record.added),
                "after_g": tidy(record.after),
                "left_g": tidy(record.left),
                "lost_g": lost,
                "temperature_celsius": tidy(record.celsius),
                "remarks": record.remarks.iter().map(ToString::to_string).collect::<Vec<_>>(),
            })
        })
        .collect()
}

/// Amounts that can be read in two ways, and what each reading makes.
fn questions(bench: &Bench<'_>, id: DocumentId) -> Value {
    bench
        .questions(id)
        .iter()
        .map(|question| {
            let readings: Vec<Value> = question
                .readings
                .iter()
                .enumerate()
                .map(|(index, reading)| {
                    let answered = bench.answered(question, index);
                    let result = match answered.report(id) {
                        Ok((_, report)) => report.json(),
                        Err(_) => answered
                            .make::<f64>(id)
                            .map_or(Value::Null, |made| Figures::of(&made.kept).json()),
                    };
                    json!({ "reading": reading.to_string(), "result": result })
                })
                .collect();
            json!({ "amount": question.text, "why": question.why, "readings": readings })
        })
        .collect()
}

fn findings(bench: &Bench<'_>, id: DocumentId) -> Value {
    said::findings(bench, id).map(|f| json!(f)).collect()
}
