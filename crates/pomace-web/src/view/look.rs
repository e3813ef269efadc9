//! The page that shows every part of the look, for whoever builds pages.

use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_book::{Document, demo};
use pomace_plate::{field, glass, path, strip, whiskers};

use super::plate::Widths;
use crate::drink::glass::glass as glass_of;
use crate::drink::study::Study;
use crate::drink::{ice, plate};

const INKS: [(&str, &str); 8] = [
    ("ink", "words and lines"),
    ("second", "units, notes"),
    ("faint", "names of other drinks"),
    ("mark", "edges of what can be pressed"),
    ("rule", "rules that divide"),
    ("hair", "hairlines between rows"),
    ("accent", "what is served, chosen, asked"),
    ("wash", "tint under ink"),
];

pub(crate) fn page() -> Markup {
    html! {
        main id="main" {
            header class="title" { h1 { "The look" } p { "every part, in its states" } }
            (drawings())
            div class="halves" {
                div {
                    section class="section" { header { h2 { "Type" } }
                        p class="said" { "Brygada, for words and numerals: 0123456789, ½ ⅓ ¼, −1.2 °C, 4.1 ± 0.5" }
                        p { small { "Ysabeau, for units, scales and notes: g in 100 mL, % vol, 30 h at 18 °C" } }
                        p { em { "Brygada italic, for captions and what is from memory" } }
                    }
                    section class="section" { header { h2 { "Inks" } }
                        ul class="points" { @for (name, does) in INKS {
                            li { span class={ "ink-" (name) } aria-hidden="true" {} span { (name) } span class="dots" {} i { (does) } }
                        } }
                    }
                    section class="section" { header { h2 { "Buttons" } }
                        div class="buttons" {
                            button class="button chief" type="button" { "Keep as revision 8" }
                            button class="button" type="button" { "Try beside it" }
                            button class="button quiet" type="button" { "Later" }
                            button class="button" type="button" disabled { "Not yet" }
                        }
                    }
                    section class="section" { header { h2 { "Steppers" } }
                        (stepper("40", "37.5", "42.5", "mL"))
                        (stepper("240", "230", "250", "g"))
                    }
                }
                div {
                    section class="section" { header { h2 { "Fields" } }
                        label class="field" { span { "Name" } input value="Crème de coing, Łódź ½ ⅓ ¼"; }
                        label class="field search" { span { "Anything in the book" } input placeholder="a drink, a prep, an ingredient"; }
                    }
                    section class="section" { header { h2 { "Messages" } }
                        p class="message" { b { "Kept." } " Revision 8." }
                        p class="message offline" { b { "No connection." } " What you enter is kept on this device and sent when it is back." }
                        p class="message conflict" { b { "Changed by someone else." } " Both are kept; choose." }
                    }
                    section class="section" { header { h2 { "A question" } }
                        div class="question" { p { "Is this whey measured or guessed? One titration settles it." }
                            div class="buttons" { button class="button" type="button" { "Enter a reading" } button class="button quiet" type="button" { "Later" } } }
                    }
                    section class="section" { header { h2 { "Steps" } }
                        ol class="steps" {
                            li { span class="number" { "1" } p { "Shake 9 s " small { "dry 32 mm cubes" } } p { "132 g" small { "−4.9 °C" } } }
                            li { span class="number" { "2" } p { "Pour " small { "through a fine sieve" } } p { "129 g" small { "−4.9 °C" } } }
                        }
                    }
                }
            }
        }
    }
}

/// The drawings, of a drink of the demo.
fn drawings() -> Markup {
    let book = demo::book();
    let bench = Bench::new(&book);
    let found = book
        .by_name("Second Pressing")
        .and_then(|id| Some((id, book.document(id)?)));
    let Some((id, Document::Drink(drink))) = found else {
        return html! {};
    };
    let study = Study::of(&bench, id, drink);
    let among = plate::field(&study, &[], Vec::new(), None, None);
    let (on_ice, in_glass) = (ice::path_of(&study), glass_of(&study));
    let shares = strip::Strip {
        figure: "acid".to_owned(),
        unit: "g".to_owned(),
        shares: [("b", "shrub", 0.57, true), ("c", "whey", 0.54, false)]
            .map(|(letter, name, amount, of_ingredient)| strip::Share {
                letter: letter.to_owned(),
                name: name.to_owned(),
                amount,
                of_ingredient,
            })
            .to_vec(),
    };
    let read = whiskers::Whiskers {
        figure: "sourness".to_owned(),
        unit: "g in 1 L".to_owned(),
        now: pomace_plate::Doubtful::new(4.1, 0.5),
        once_read: 0.2,
    };
    let all = Widths::default();
    html! {
        section class="section" { header { h2 { "Drawings" } }
            div class="plate" { figure {
                (all.draw("look-field", |width, prefix| Some(field::draw(&among, width, prefix))))
                figcaption { b { "Field." } " Where a drink stands, and what ice does to it." }
            } }
            div class="pair" {
                @if let Some(path) = &on_ice { figure {
                    (all.draw("look-path", |width, prefix| path::draw(path, width, prefix)))
                    figcaption { b { "Path." } " Temperature over melt." }
                } }
                @if let Some(glass) = &in_glass { figure {
                    (all.draw("look-glass", |width, prefix| glass::draw(glass, width, prefix)))
                    figcaption { b { "Glass." } " In section, to scale." }
                } }
            }
            // Not side by side: a drawing is made for the whole width, and its words shrink with it.
            div {
                figure {
                    (all.draw("look-strip", |width, prefix| strip::draw(&shares, width, prefix)))
                    figcaption { b { "Strip." } " What each line gives." }
                }
                figure {
                    (super::figures::whiskers_of(&read, all))
                    figcaption { b { "Whiskers." } " What one reading would settle." }
                }
            }
        }
    }
}

fn stepper(value: &str, less: &str, more: &str, unit: &str) -> Markup {
    html! {
        div class="line" {
            span class="letter" { "a" } p class="name" { "aquavit, 42 %" }
            form class="stepper" {
                button class="minus" type="button" { (less) }
                label { span class="unseen" { "amount" } input value=(value) size="4"; span class="unit" { (unit) } }
                button class="plus" type="button" { (more) }
            }
        }
    }
}
