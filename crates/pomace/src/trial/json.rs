//! The same in JSON, with the names of `pomace show --json`.

use pomace_bench::difference::Named;
use serde_json::{Map, Value, json};

use super::changes::{Change, What};
use super::{Outcome, SideBySide, Variant, changes};

pub(super) fn json(all: &SideBySide<'_>) -> String {
    let trials: Vec<Value> = all.variants.iter().map(|v| one(all, v)).collect();
    let mut value = json!({ (all.document.kind()): all.document.name().value });
    if let Value::Object(map) = &mut value {
        map.insert("as_written".into(), figures(&all.base));
        map.insert("trials".into(), trials.into());
        map.insert("findings".into(), json!(all.findings));
    }
    format!(
        "{}\n",
        serde_json::to_string_pretty(&value).unwrap_or_default()
    )
}

fn one(all: &SideBySide<'_>, variant: &Variant<'_>) -> Value {
    let trial = variant.trial;
    let changes: Vec<Value> = changes::of(all.book, all.id, all.document, trial)
        .iter()
        .map(change)
        .collect();
    let (apart, stuck) = match &variant.outcome {
        Outcome::Computed(apart) => (Some(apart), None),
        Outcome::Promoted => (None, None),
        Outcome::Stuck(why) => (None, Some(why)),
    };
    json!({
        "trial": trial.name.value,
        "note": trial.note.as_ref().map(|note| &note.value),
        "promoted": trial.promoted,
        "changes": changes,
        "figures": apart.map(|apart| figures(&apart.figures)),
        "less_as_written": apart.map(|apart| differences(&apart.less_base)),
        "no_figures_because": stuck,
    })
}

fn change(change: &Change) -> Value {
    let mut value =
        json!({ "list": change.list.key(), "number": change.number, "name": change.name });
    let Value::Object(map) = &mut value else {
        return value;
    };
    match &change.what {
        What::LeftOut => {
            map.insert("left_out".into(), json!(true));
        }
        What::Changed(keys) => {
            let keys = keys
                .iter()
                .map(|(key, was, now)| (key.clone(), json!({ "was": was, "now": now })));
            map.insert("changed".into(), Value::Object(keys.collect()));
        }
        What::Added(keys) => {
            let keys = keys.iter().map(|(key, text)| (key.clone(), json!(text)));
            map.insert("added".into(), Value::Object(keys.collect()));
        }
    }
    value
}

/// Figures by stage and name.
fn figures(named: &Named) -> Value {
    let mut stages: Map<String, Value> = Map::new();
    for (name, figure) in &named.0 {
        let stage = stages
            .entry(name.stage.to_string())
            .or_insert_with(|| json!({}));
        if let Value::Object(stage) = stage {
            stage.insert(name.name.into(), figure.json());
        }
    }
    Value::Object(stages)
}

/// The same, each with whether it is smaller than its doubt; `null` where that is not known.
fn differences(named: &Named) -> Value {
    let mut stages = figures(named);
    for (name, figure) in &named.0 {
        let smaller = figure.value.zip(figure.plus_minus);
        let smaller = smaller.map(|(value, doubt)| value.abs() <= doubt);
        if let Some(Value::Object(found)) = stages
            .get_mut(name.stage.to_string())
            .and_then(|stage| stage.get_mut(name.name))
        {
            found.insert("smaller_than_doubt".into(), json!(smaller));
        }
    }
    stages
}
