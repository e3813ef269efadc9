//! The drink's page: what it is worked out from, its drawings, its parts.

mod figures;
pub(crate) mod plate;
pub(crate) mod study;

use maud::{Markup, html};
use pomace_bench::report::Figures;
use pomace_book::edit::{Draft, Path};
use pomace_book::{Reading, Spot};
use pomace_matter::liquid::Property;
use pomace_plate::field::{self, Ranges};
use pomace_plate::{glass, path};

use crate::kitchen::Mark;
use crate::view::lines::{self, LineView};
use crate::view::plate::Widths;
use crate::view::steps::{self, StepView};
use crate::view::{self, At, Doc, Part, said, title};
use crate::words::{Unit, known, letter, set};
use study::{Outcome, Stand, Study};

/// What a page of a drink is asked to show.
pub(crate) struct Page<'a> {
    pub doc: Doc<'a>,
    pub text: &'a str,
    pub widths: Widths,
    /// As served before the last change.
    pub was: Option<Stand>,
    /// Scales of the field so far.
    pub kept: Option<Ranges>,
    /// Drinks of the house around it.
    pub house: Vec<(String, Mark)>,
    /// Addresses of the documents that lines lead to.
    pub links: Vec<Option<String>>,
}

/// The parts, and where the drink stands now, for the next change.
pub(crate) struct Shown {
    pub parts: Vec<Part>,
    pub stand: Option<Stand>,
    pub ranges: Ranges,
}

pub(crate) fn show(study: &Study<'_>, page: Page<'_>) -> Shown {
    let pushes = pushes(study, page.doc.unit);
    let stands: Vec<(usize, Stand)> = pushes
        .iter()
        .filter_map(|push| Some((push.line, push.stand?)))
        .collect();
    let field = plate::field(study, &stands, page.house, page.was, page.kept);
    let ranges = field::ranges(&field);
    let draft = Draft::open(page.text).ok();
    let parts = vec![
        Part::new(
            "title",
            title(
                &page.doc,
                &study.doc.name,
                study.doc.note.as_ref().map_or("", |note| &note.value),
            ),
        ),
        Part::new("plate", plate_part(study, &field, page.widths)),
        Part::new("range", range_part(study, &page.doc, draft.as_ref())),
        Part::new("ice", ice_part(study, page.widths)),
        Part::new("figures", figures::part(study, page.widths)),
        Part::new(
            "lines",
            lines_part(study, &page.doc, draft.as_ref(), &pushes, &page.links),
        ),
        Part::new("asked", asked_part(study, &page.doc, page.widths)),
        Part::new("steps", steps_part(study, &page.doc, draft.as_ref())),
        Part::new("garnish", garnish_part(study, &page.doc, draft.as_ref())),
        Part::new("brief", brief_part(study, &page.doc)),
        Part::new("allergens", allergens_part(study)),
    ];
    let outcome = study.outcome.as_ref().ok();
    Shown {
        parts,
        stand: outcome.and_then(|outcome| Stand::of(&outcome.report.after)),
        ranges,
    }
}

/// What one step more of a line does.
struct Pushed {
    line: usize,
    stand: Option<Stand>,
    words: Option<String>,
}

fn pushes(study: &Study<'_>, unit: Unit) -> Vec<Pushed> {
    let Ok(outcome) = &study.outcome else {
        return Vec::new();
    };
    let served = &outcome.report.after;
    study
        .doc
        .lines
        .iter()
        .enumerate()
        .map(|(line, doc)| {
            let spot = Spot::Line(line);
            let amount = doc.amount.as_ref().map(|amount| &amount.value);
            let more = study.shown(spot, amount, unit).steps.more;
            let reading = more
                .as_deref()
                .and_then(|more| stepped(study, spot, amount, unit, more));
            let found = match (&more, reading) {
                (Some(more), Some(reading)) => study.push(spot, &reading, more).map(|f| (more, f)),
                _ => None,
            };
            match found {
                Some((more, (stand, figures))) => Pushed {
                    line,
                    stand: Some(stand),
                    words: Some(in_words(served, &figures, more)),
                },
                None => Pushed {
                    line,
                    stand: None,
                    words: None,
                },
            }
        })
        .collect()
}

/// The amount that a step begins from, in the kind that the step is in.
fn stepped(
    study: &Study<'_>,
    spot: Spot,
    amount: Option<&pomace_book::Amount>,
    unit: Unit,
    more: &str,
) -> Option<Reading> {
    let shown = study.shown(spot, amount, unit);
    let text = format!("{} {}", shown.value, shown.unit);
    let from = pomace_book::parse_amount(text.trim()).ok()?.reading;
    let to = pomace_book::parse_amount(more).ok()?.reading;
    (std::mem::discriminant(&from) == std::mem::discriminant(&to)).then_some(from)
}

/// `42.5 mL: less sweet by 0.06, less sour by 0.05`.
fn in_words(served: &Figures, then: &Figures, more: &str) -> String {
    let mut told = Vec::new();
    let mut tell = |property, more: &str, less: &str, decimals: usize, least: f64| {
        if let (Some(now), Some(then)) = (served.get(property), then.get(property)) {
            let by = then - now;
            if by.abs() >= least {
                let word = if by > 0.0 { more } else { less };
                told.push(format!("{word} by {}", set(by.abs(), decimals)));
            }
        }
    };
    tell(Property::Sweetness, "sweeter", "less sweet", 2, 0.02);
    tell(Property::TitratableAcidity, "sourer", "less sour", 2, 0.02);
    tell(Property::Strength, "stronger", "weaker", 1, 0.05);
    if told.is_empty() {
        format!("{more}: hardly a change")
    } else {
        format!("{more}: {}", told.join(", "))
    }
}

fn plate_part(study: &Study<'_>, field: &field::Field, widths: Widths) -> Markup {
    let report = study.outcome.as_ref().ok().map(|outcome| &outcome.report);
    let gist = |label: &str, value: Option<f64>, decimals: usize, unit: &str, class: &str| {
        html! { div class=(class) { dt { (label) } dd { (known(value, decimals)) " " small { (unit) } } } }
    };
    html! {
        div class="plate stay" {
            figure {
                (widths.draw("field", |width, prefix| Some(field::draw(field, width, prefix))))
                figcaption { b { "Fig. 1." } " Ice and soda carry a drink straight toward water; only the lines turn it." }
            }
            @if let Some(report) = report {
                dl class="gist" aria-live="polite" {
                    (gist("volume", report.after.volume.value, 0, "mL", "wide"))
                    (gist("strength", report.after.get(Property::Strength), 1, "% vol", ""))
                    (gist("sweetness", report.after.get(Property::Sweetness), 1, "g", ""))
                    (gist("sourness", report.after.get(Property::TitratableAcidity), 1, "g", ""))
                    (gist("served at", report.after.celsius.value, 1, "°C", ""))
                }
            }
        }
    }
}

/// The range that the drink is held against: chosen, edited, or none.
fn range_part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let choose = At {
        change: "range",
        list: None,
        index: None,
        key: None,
    };
    let chosen = study.doc.range.as_ref().and_then(|range| range.of.as_ref());
    let chosen = chosen.map_or("", |of| of.value.as_str());
    let fields = [
        ("range.of", "of", "Of what"),
        ("range.sourness", "sourness", "Sourness, from and to"),
        ("range.sweetness", "sweetness", "Sweetness, from and to"),
    ];
    html! {
        details class="fold" data-key="range" {
            summary { @if study.doc.range.is_some() { "Held against: " (chosen) ", from memory, unchecked" } @else { "Hold it against a usual range" } }
            (doc.form(&choose, "field-row", &html! {
                label class="field" { span { "Usual ranges, from memory and unchecked; a house may stand outside on purpose" }
                    select name="value" {
                        option value="" { "none" }
                        @for known in &crate::ranges::KNOWN { option value=(known.of) selected[known.of == chosen] { (known.of) } }
                    } }
                button class="act" { "keep" }
            }))
            @if study.doc.range.is_some() {
                @for (key, name, label) in fields {
                    @let at = At { change: "set", list: None, index: None, key: Some(key) };
                    @let value = draft.and_then(|d| d.get(&pomace_book::edit::Path::within("range", name))).unwrap_or_default();
                    (doc.form(&at, "field-row", &html! {
                        label class="field" { span { (label) } input name="value" value=(value); }
                        button class="act" { "keep" }
                    }))
                }
            }
        }
    }
}

fn ice_part(study: &Study<'_>, widths: Widths) -> Markup {
    let path = plate::path(study).filter(|path| path.on_ice.len() > 1 || path.in_glass.len() > 1);
    let glass = plate::glass(study);
    if path.is_none() && glass.is_none() {
        return html! {};
    }
    html! {
        section class="section" {
            header { h2 { @if path.is_some() { "On ice, and in the glass" } @else { "In the glass" } } }
            div class={ @if path.is_some() && glass.is_some() { "pair" } } {
                @if let Some(path) = &path {
                    figure {
                        (widths.draw("path", |width, prefix| path::draw(path, width, prefix)))
                        figcaption { b { "Fig. 2." } " From the tin to a quarter of an hour in the glass. Final temperature and melt are unvalidated: weigh one drink before and after." }
                    }
                }
                @if let Some(glass) = &glass {
                    figure {
                        (widths.draw("glass", |width, prefix| glass::draw(glass, width, prefix)))
                        figcaption { b { "Fig. 3." } " The glass, in section." }
                    }
                }
            }
        }
    }
}

fn lines_part(
    study: &Study<'_>,
    doc: &Doc<'_>,
    draft: Option<&Draft>,
    pushes: &[Pushed],
    links: &[Option<String>],
) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.lines.len();
    let views = study.doc.lines.iter().enumerate().map(|(index, line)| {
        let amount = line.amount.as_ref().map(|amount| &amount.value);
        let place = format!("line {}", index + 1);
        let push = pushes.iter().find(|push| push.line == index);
        let leads_nowhere = said::at(&findings, &place).any(|f| {
            f.topic == pomace_book::Topic::Name && f.gravity == pomace_book::Gravity::Stop
        });
        // What cannot be read as an amount stays where it was typed.
        let path = Path::item("line", index, "amount");
        let written = draft.and_then(|draft| draft.get(&path)).unwrap_or_default();
        let mut shown = study.shown(Spot::Line(index), amount, doc.unit);
        if amount.is_none() {
            shown.value.clone_from(&written);
        }
        // Asked in our own words: a page writes no TOML.
        let said = if written.trim().is_empty() {
            vec![(
                "how much of it?".to_owned(),
                "until that is said, only its allergens count".to_owned(),
            )]
        } else {
            said::at(&findings, &place).map(said::both).collect()
        };
        LineView {
            index,
            steps: study.doc.steps.iter().map(enters_by).collect(),
            measures: study.bench.house().measures().to_vec(),
            leads_nowhere,
            letter: letter(index),
            name: line.what.value.clone(),
            link: links.get(index).cloned().flatten(),
            shown,
            push: push.and_then(|push| push.words.clone()),
            said,
            enters: line.enters.as_ref().map(|step| step.value.clone()),
            count,
        }
    });
    html! {
        section class="section lines" {
            header { h2 { "Lines" }
                div class="acts" { (view::undo()) }
                div class="acts" {
                    @for unit in Unit::ALL {
                        a class="act" href={ "?in=" (unit.key()) } data-unit=(unit.key()) aria-current=[(unit == doc.unit).then_some("true")] { (unit.label()) }
                    }
                }
            }
            @for view in views { (lines::line(doc, &view)) }
            (lines::empty(doc, letter(count), count == 0))
        }
    }
}

fn asked_part(study: &Study<'_>, doc: &Doc<'_>, widths: Widths) -> Markup {
    let findings = said::of(study.bench, study.id);
    let questions = study.bench.questions(study.id);
    html! {
        @for question in questions.iter().filter(|q| q.document == study.id) {
            section class="question" {
                p { "`" (question.text) "`: which is meant? " (crate::words::sentence(&question.why)) "." }
                div class="buttons" {
                    @for (index, reading) in question.readings.iter().enumerate() {
                        @let (list, at) = match question.spot {
                            Spot::Line(at) => ("line", at),
                            Spot::Step(at) => ("step", at),
                            Spot::Garnish(at) => ("garnish", at),
                        };
                        @let at = At { change: "set", list: Some(list), index: Some(at), key: Some("amount") };
                        @let told = answered(study, question, index);
                        (doc.form(&at, "inline", &html! {
                            input type="hidden" name="value" value=(reading);
                            button class="button" { (reading) small { (told) } }
                        }))
                    }
                }
            }
        }
        @if let Err(error) = &study.outcome {
            section class="question" role="status" {
                @if study.doc.lines.is_empty() { p { "Put in what comes first, with how much of it, and the drink begins." } }
                @else { p { "No figures yet: " (error) "." } }
            }
        }
        (said::elsewhere(&findings))
        @if let Some((sentence, drawn)) = worth_reading(study) {
            section class="question" {
                p { (sentence) }
                (crate::view::figures::whiskers_of(&drawn, widths))
            }
        }
    }
}

/// What an answer makes of the drink.
fn answered(study: &Study<'_>, question: &pomace_bench::Question, reading: usize) -> String {
    let bench = study.bench.answered(question, reading);
    match bench.report(study.id) {
        Ok((_, report)) => format!(
            "{} mL, {} % vol, sour {}, sweet {}",
            known(report.after.volume.value, 0),
            known(report.after.get(Property::Strength), 1),
            known(report.after.get(Property::TitratableAcidity), 1),
            known(report.after.get(Property::Sweetness), 1),
        ),
        Err(error) => error.to_string(),
    }
}

/// The one reading worth taking: where most of the doubt in sourness or sweetness comes from one source.
fn worth_reading(study: &Study<'_>) -> Option<(String, pomace_plate::whiskers::Whiskers)> {
    let outcome = study.outcome.as_ref().ok()?;
    let told = [
        (Property::TitratableAcidity, "sourness", "g in 1 L"),
        (Property::Sweetness, "sweetness", "g in 100 mL"),
    ];
    told.into_iter().find_map(|(property, label, unit)| {
        let figure = outcome.report.after.figure(property)?;
        let (value, doubt) = (figure.value?, figure.plus_minus?);
        let name = pomace_bench::doubt::FigureName {
            stage: "after_ice",
            name: property.name(),
        };
        let largest = outcome.doubt.largest(name, 1).first().copied()?;
        if largest.is_model || largest.share < 0.45 || doubt < 0.1 * value {
            return None;
        }
        let sentence = format!(
            "Most of the doubt in the {label} comes from {}. What would settle it: {}.",
            largest.name, largest.reading
        );
        Some((
            sentence,
            pomace_plate::whiskers::Whiskers {
                figure: label.to_owned(),
                unit: unit.to_owned(),
                now: pomace_plate::Doubtful::new(value, doubt),
                once_read: doubt * (1.0 - largest.share).max(0.0).sqrt(),
            },
        ))
    })
}

/// The word by which a line says that it enters at a step.
fn enters_by(step: &pomace_book::Step) -> String {
    match &step.name_as {
        Some(name) => name.value.clone(),
        None => step.verb.value.word().to_owned(),
    }
}

/// What a step is, in few words and in more.
pub(crate) fn step_words(step: &pomace_book::Step, letters: &[char]) -> (String, String) {
    let text = |value: Option<String>| value.unwrap_or_default();
    let mut words = step.verb.value.word().to_owned();
    if let Some(what) = &step.what {
        words.push_str(&format!(" {}", what.value));
    }
    if let Some(amount) = &step.amount {
        words.push_str(&format!(", {}", amount.value.text.trim()));
    }
    if !letters.is_empty() {
        if step.verb.value == pomace_book::Verb::Top {
            words.push_str(" with");
        }
        let named: Vec<String> = letters.iter().map(char::to_string).collect();
        words.push_str(&format!(" {}", crate::words::and(&named)));
    }
    if let Some(time) = &step.time {
        words.push_str(&format!(" {}", time.value));
    }
    let notes = [
        text(
            step.temperature
                .as_ref()
                .map(|t| format!("{} °C", set(t.value, 0))),
        ),
        text(
            step.through
                .as_ref()
                .map(|t| format!("through {}", t.value)),
        ),
        text(step.ice.as_ref().map(|i| i.value.text.clone())),
        text(
            step.glass
                .as_ref()
                .map(|g| format!("into {}", g.value.text)),
        ),
        text(step.over.as_ref().map(|o| format!("over {}", o.value))),
        text(step.name_as.as_ref().map(|n| format!("called {}", n.value))),
        text(step.keep.as_ref().map(|k| format!("kept: {}", k.value))),
        text(
            step.by_product
                .as_ref()
                .map(|b| format!("leaves {}", b.value)),
        ),
        text(step.note.as_ref().map(|n| n.value.clone())),
    ];
    let notes: Vec<String> = notes.into_iter().filter(|n| !n.is_empty()).collect();
    (words, notes.join(", "))
}

/// What is in the vessel after a step.
fn after(outcome: &Outcome, index: usize) -> Option<(String, String)> {
    let record = outcome.mixed.records.get(index)?;
    Some((
        format!("{} g", set(record.after, 0)),
        format!("{} °C", set(record.celsius, 1)),
    ))
}

fn steps_part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.steps.len();
    let views: Vec<(StepView, pomace_book::Verb)> = study
        .doc
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let enters = |line: &pomace_book::Line| match &line.enters {
                None => index == 0,
                Some(name) => {
                    name.value == step.verb.value.word()
                        || step
                            .name_as
                            .as_ref()
                            .is_some_and(|own| own.value == name.value)
                }
            };
            let letters: Vec<char> = study
                .doc
                .lines
                .iter()
                .enumerate()
                .filter(|(_, line)| enters(line))
                .map(|(at, _)| letter(at))
                .collect();
            let (words, note) = step_words(step, &letters);
            let place = format!("step {}", index + 1);
            let view = StepView {
                index,
                count,
                verb: step.verb.value.word().to_owned(),
                words,
                note,
                after: study.outcome.as_ref().ok().and_then(|o| after(o, index)),
                said: said::at(&findings, &place).map(said::both).collect(),
            };
            (view, step.verb.value)
        })
        .collect();
    let outcome = study.outcome.as_ref().ok();
    html! {
        section class="section" {
            header { h2 { "Steps" } }
            (steps::list(doc, draft, &views))
            details class="fold" { summary { "Add a step" } (steps::add(doc, steps::OF_A_DRINK, false)) }
            @if let Some(outcome) = outcome {
                @let verbs = study.doc.steps.iter().map(|step| step.verb.value);
                (said::remarks(outcome.mixed.records.iter().zip(verbs)
                    .flat_map(|(record, verb)| record.remarks.iter().map(move |remark| (verb, remark)))))
            }
        }
    }
}

fn garnish_part(study: &Study<'_>, doc: &Doc<'_>, draft: Option<&Draft>) -> Markup {
    let findings = said::of(study.bench, study.id);
    let count = study.doc.garnish.len();
    let outcome = study.outcome.as_ref().ok();
    let views: Vec<StepView> = study
        .doc
        .garnish
        .iter()
        .enumerate()
        .map(|(index, garnish)| {
            let what = garnish.what.as_ref().map_or("", |what| what.value.as_str());
            let mut notes = Vec::new();
            if let Some(eaten) = &garnish.eaten {
                notes.push(format!("{} % of it is eaten", set(100.0 * eaten.value, 0)));
            }
            if let Some(lead) = &garnish.lead {
                notes.push(format!("begin {} before", lead.value));
            }
            if garnish.optional {
                notes.push("can be left off".to_owned());
            }
            if let Some(note) = &garnish.note {
                notes.push(note.value.clone());
            }
            let grams =
                outcome.and_then(|o| o.mixed.garnish.iter().find(|(place, _, _)| *place == index));
            let place = format!("garnish {}", index + 1);
            StepView {
                index,
                count,
                verb: garnish.action.value.word().to_owned(),
                words: format!("{} {what}", garnish.action.value.word()),
                note: notes.join(", "),
                after: grams.map(|(_, grams, _)| (format!("{} g", set(*grams, 1)), String::new())),
                said: said::at(&findings, &place).map(said::both).collect(),
            }
        })
        .collect();
    html! {
        section class="section" {
            header { h2 { "Garnish" } }
            (steps::garnish(doc, draft, &views))
            details class="fold" { summary { "Add to the garnish" } (steps::add_garnish(doc)) }
        }
    }
}

fn brief_part(study: &Study<'_>, doc: &Doc<'_>) -> Markup {
    let at = At {
        change: "add",
        list: Some("brief"),
        index: None,
        key: None,
    };
    html! {
        section class="section" {
            header { h2 { "Brief" } }
            @if !study.doc.brief.is_empty() {
                ul class="points" {
                    @for brief in &study.doc.brief {
                        li {
                            span { (brief.note.as_ref().map_or("", |note| note.value.as_str())) }
                            @if let Some(sense) = &brief.sense { small { (sense.value.word()) } }
                            span class="dots" {}
                            i { @for name in &brief.carried_by {
                                @match plate::letter_of(study, name) { Some(letter) => { (letter) " " }, None => { (name.value) " " } }
                            } }
                        }
                    }
                }
            }
            details class="fold" { summary { "Add what it should bring to mind" }
                (doc.form(&at, "put-in", &html! {
                    label class="field" { span { "A dish, a place, a memory: one piece of it" } input name="key" placeholder="orchard after rain"; }
                    button class="button" { "Add it" }
                }))
            }
        }
    }
}

fn allergens_part(study: &Study<'_>) -> Markup {
    let Ok(outcome) = &study.outcome else {
        return html! {};
    };
    let serve = &outcome.report.per_serve;
    let value = |figure: pomace_bench::report::Figure, decimals| known(figure.value, decimals);
    html! {
        section class="section" {
            header { h2 { "Allergens" } }
            (said::allergens(&serve.allergens, &serve.allergens_possible, &serve.cautions))
        }
        section class="section" {
            header { h2 { "A serve" } }
            p class="said" {
                (value(serve.alcohol_g, 1)) " g of alcohol (" (value(serve.uk_units, 1)) " UK units, "
                (value(serve.us_standard_drinks, 1)) " US standard drinks), "
                (value(serve.energy_kcal, 0)) " kcal, " (value(serve.sugar_g, 1)) " g of sugar"
                @if serve.caffeine_mg.value.is_some_and(|mg| mg >= 0.5) { ", " (value(serve.caffeine_mg, 0)) " mg of caffeine" }
                "."
            }
        }
    }
}
