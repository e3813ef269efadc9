//! Drawings as they are: to be read when they change.

use pomace_plate::{Width, field, flow, glass, path, strip, whiskers};

use crate::specimen::demo;

/// One element on each line.
fn lines(svg: &str) -> String {
    svg.replace("><", ">\n<")
}

#[test]
fn drawings() {
    let shown = [
        (
            "field_phone",
            Some(field::draw(&demo::field(), Width::Phone, "f")),
        ),
        (
            "field_changed",
            Some(field::draw(&demo::changed(), Width::Desktop, "f")),
        ),
        ("path", path::draw(&demo::path(), Width::Tablet, "p")),
        ("glass", glass::draw(&demo::glass(), Width::Tablet, "g")),
        ("glass_over", glass::draw(&demo::over(), Width::Phone, "g")),
        ("flow_phone", flow::draw(&demo::juice(), Width::Phone, "w")),
        ("strip", strip::draw(&demo::acid(), Width::Phone, "s")),
        (
            "strip_parts",
            strip::draw_parts(&demo::parts(), Width::Phone, "s"),
        ),
        (
            "whiskers",
            whiskers::draw(&demo::whey_doubt(), Width::Phone, "d"),
        ),
    ];
    for (name, drawing) in shown {
        insta::assert_snapshot!(name, lines(&drawing.unwrap().svg));
    }
}

#[test]
fn sentences() {
    let shown = [
        field::draw(&demo::field(), Width::Phone, "f"),
        field::draw(&demo::changed(), Width::Phone, "f"),
        field::draw(&demo::dry(), Width::Phone, "f"),
        path::draw(&demo::path(), Width::Phone, "p").unwrap(),
        path::draw(&demo::stirred(), Width::Phone, "p").unwrap(),
        glass::draw(&demo::rocks(), Width::Phone, "g").unwrap(),
        glass::draw(&demo::over(), Width::Phone, "g").unwrap(),
        flow::draw(&demo::shrub(), Width::Phone, "w").unwrap(),
        flow::draw(&demo::cordial(), Width::Phone, "w").unwrap(),
        strip::draw(&demo::acid(), Width::Phone, "s").unwrap(),
        whiskers::draw(&demo::whey_doubt(), Width::Phone, "d").unwrap(),
    ];
    let said: Vec<String> = shown
        .into_iter()
        .map(|drawing| drawing.description)
        .collect();
    insta::assert_snapshot!("sentences", said.join("\n\n"));
}
