//! A page that shows every drawing and every part of the look:
//! `cargo run -p pomace-plate --example specimen -- OUTDIR`.
//!
//! The figures are those of the demo book, as `pomace show NAME --book demo --json` gives them; what
//! that does not give is said in `demo.rs`.

#![allow(missing_docs, reason = "an example")]

mod crowd;
mod demo;
mod preps;

use std::error::Error;
use std::fs;
use std::path::Path;

use pomace_plate::{Drawing, Width, field, flow, glass, path, strip, whiskers};

fn main() -> Result<(), Box<dyn Error>> {
    let target = std::env::args()
        .nth(1)
        .ok_or("say a folder: specimen OUTDIR")?;
    let target = Path::new(&target);
    let assets = Path::new(env!("CARGO_MANIFEST_DIR")).join("../pomace-web/assets");
    fs::create_dir_all(target.join("fonts"))?;
    fs::copy(assets.join("look.css"), target.join("look.css"))?;
    for font in fs::read_dir(assets.join("fonts"))? {
        let font = font?;
        if font.path().extension().is_some_and(|kind| kind == "woff2") {
            fs::copy(font.path(), target.join("fonts").join(font.file_name()))?;
        }
    }
    for (name, template) in [
        ("drink.html", include_str!("drink.html")),
        ("prep.html", include_str!("prep.html")),
        ("drawings.html", include_str!("drawings.html")),
        ("parts.html", include_str!("parts.html")),
    ] {
        for look in ["light", "dim"] {
            let page = filled(&lined(template)).replace("{look}", look);
            fs::write(target.join(format!("{look}-{name}")), page)?;
        }
    }
    Ok(())
}

/// The template with a drawing in the place of each `{draw NAME}`.
fn filled(template: &str) -> String {
    let mut page = String::new();
    for (index, part) in template.split("{draw ").enumerate() {
        match part.split_once('}') {
            Some((name, rest)) if index > 0 => {
                page.push_str(&drawn(name));
                page.push_str(rest);
            }
            _ => page.push_str(part),
        }
    }
    page
}

/// One drawing, made for each of the widths; the style sheet shows the one that fits.
fn drawn(name: &str) -> String {
    Width::ALL
        .iter()
        .map(|width| {
            let (class, short) = match width {
                Width::Phone => ("for-phone", "p"),
                Width::Tablet => ("for-tablet", "t"),
                Width::Desktop => ("for-desktop", "d"),
            };
            let prefix = format!("{}-{short}", name.replace(' ', "-"));
            match one(name, *width, &prefix) {
                Some(drawing) => format!("<div class=\"{class}\">{}</div>", drawing.svg),
                None => format!("<p class=\"{class} said\">Nothing to draw.</p>"),
            }
        })
        .collect()
}

fn one(name: &str, width: Width, prefix: &str) -> Option<Drawing> {
    match name {
        "field" => Some(field::draw(&demo::field(), width, prefix)),
        "field changed" => Some(field::draw(&demo::changed(), width, prefix)),
        "field crowded" => Some(field::draw(&crowd::field(), width, prefix)),
        "field dry" => Some(field::draw(&demo::dry(), width, prefix)),
        "field syrup" => Some(field::draw(&demo::syrup(), width, prefix)),
        "field vinegar" => Some(field::draw(&demo::vinegar(), width, prefix)),
        "field empty" => Some(field::draw(&demo::empty(), width, prefix)),
        "path" => path::draw(&demo::path(), width, prefix),
        "path stirred" => path::draw(&demo::stirred(), width, prefix),
        "glass" => glass::draw(&demo::glass(), width, prefix),
        "glass coupe" => glass::draw(&demo::coupe(), width, prefix),
        "glass rocks" => glass::draw(&demo::rocks(), width, prefix),
        "glass stem" => glass::draw(&demo::stem(), width, prefix),
        "glass crushed" => glass::draw(&demo::crushed(), width, prefix),
        "glass unknown" => glass::draw(&demo::unknown(), width, prefix),
        "glass over" => glass::draw(&demo::over(), width, prefix),
        "flow" => flow::draw(&demo::shrub(), width, prefix),
        "flow juice" => flow::draw(&demo::juice(), width, prefix),
        "flow cordial" => flow::draw(&demo::cordial(), width, prefix),
        "flow long" => flow::draw(&preps::long(), width, prefix),
        "parts" => strip::draw_parts(&demo::parts(), width, prefix),
        "strip" => strip::draw(&demo::acid(), width, prefix),
        "whiskers" => whiskers::draw(&demo::whey_doubt(), width, prefix),
        _ => {
            let mut preps = preps::of_the_demo().into_iter();
            let prep = preps.find(|prep| name == format!("flow {}", prep.name))?;
            flow::draw(&prep, width, prefix)
        }
    }
}

/// The template with a line and its stepper for each `{line LETTER|NAME|PUSH|AMOUNT|LESS|MORE|UNIT}`.
fn lined(template: &str) -> String {
    let mut page = String::new();
    for (index, part) in template.split("{line ").enumerate() {
        match part.split_once('}') {
            Some((words, rest)) if index > 0 => {
                page.push_str(&line(&words.split('|').collect::<Vec<_>>()));
                page.push_str(rest);
            }
            _ => page.push_str(part),
        }
    }
    page
}

fn line(words: &[&str]) -> String {
    let [letter, name, push, amount, less, more, unit] = words else {
        return String::new();
    };
    let push = if push.is_empty() {
        String::new()
    } else {
        format!("<p class=\"push\">{push}</p>")
    };
    let ticks: String = (1..20)
        .map(|tick| format!("M{} {}V11", tick * 5, if tick % 4 == 2 { 3 } else { 6 }))
        .collect();
    format!(
        "<div class=\"line\"><span class=\"letter\">{letter}</span>\
         <p class=\"name\"><a href=\"#\">{name}</a></p>\
         <div class=\"stepper\"><button class=\"minus\" aria-label=\"to {less} {unit}\">{less}</button>\
         <label><span class=\"unseen\">{name}</span><input value=\"{amount}\" inputmode=\"decimal\" size=\"4\">\
         <span class=\"unit\">{unit}</span></label>\
         <button class=\"plus\" aria-label=\"to {more} {unit}\">{more}</button>\
         <svg class=\"ticks\" viewBox=\"0 0 100 11\" preserveAspectRatio=\"none\" aria-hidden=\"true\">\
         <path d=\"{ticks}\"/><path class=\"now\" d=\"M50 2V11\"/></svg></div>{push}</div>"
    )
}
