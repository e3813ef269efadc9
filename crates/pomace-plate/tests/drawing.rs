//! What holds for every drawing: it is XML, inside its box, named, and coloured by the sheet alone.

use pomace_plate::geometry::Rect;
use pomace_plate::{Drawing, Voice};
use roxmltree::{Document, Node};

/// A text of a drawing and the room that it takes.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub(crate) words: String,
    pub(crate) class: String,
    pub(crate) room: Rect,
}

/// Checks a drawing, and gives its texts.
pub(crate) fn checked(drawing: &Drawing, prefix: &str) -> Vec<Words> {
    let document = Document::parse(&drawing.svg).expect("well-formed XML");
    let root = document.root_element();
    assert_eq!(root.attribute("role"), Some("img"));
    let sizes: Vec<f64> = numbers(root.attribute("viewBox").unwrap());
    let (wide, high) = (sizes[2], sizes[3]);
    assert!(
        wide > 100.0 && high > 40.0 && wide < 1000.0,
        "{wide} × {high}"
    );
    assert!(high < 3000.0, "{high}");
    let child = |name: &str| root.children().find(|child| child.has_tag_name(name));
    assert!(!child("title").unwrap().text().unwrap().is_empty());
    assert_eq!(
        child("desc").unwrap().text().unwrap_or_default(),
        drawing.description
    );

    let mut ids = Vec::new();
    let mut texts = Vec::new();
    for node in document.descendants().filter(Node::is_element) {
        for attribute in node.attributes() {
            let name = attribute.name();
            assert!(
                [
                    "class",
                    "id",
                    "role",
                    "viewBox",
                    "aria-labelledby",
                    "clip-path"
                ]
                .contains(&name)
                    || ["x", "y", "width", "height", "cx", "cy", "r", "d"].contains(&name),
                "{name}"
            );
            assert!(!attribute.value().contains("NaN") && !attribute.value().contains("inf"));
        }
        if let Some(id) = node.attribute("id") {
            assert!(id.starts_with(prefix), "{id}");
            assert!(!ids.contains(&id), "{id} twice");
            ids.push(id);
        }
        for (x, y) in places(&node) {
            assert!(
                (-0.1..=wide + 0.1).contains(&x) && (-0.1..=high + 0.1).contains(&y),
                "{x} {y} outside {wide} × {high}: {node:?}"
            );
        }
        if node.has_tag_name("text") {
            let words = room(&node);
            assert!(
                Rect::new(-1.5, -1.5, wide + 1.5, high + 1.5).encloses(words.room),
                "{words:?} outside {wide} × {high}"
            );
            texts.push(words);
        }
    }
    let named: Vec<&str> = root
        .attribute("aria-labelledby")
        .unwrap()
        .split(' ')
        .collect();
    assert!(named.iter().all(|id| ids.contains(id)), "{named:?}");
    texts
}

fn numbers(text: &str) -> Vec<f64> {
    text.split(' ')
        .map(|number| number.parse().unwrap())
        .collect()
}

fn number(node: &Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name)
        .map_or(0.0, |number| number.parse().unwrap())
}

/// All places that an element names, the edges of circles among them.
fn places(node: &Node<'_, '_>) -> Vec<(f64, f64)> {
    match node.tag_name().name() {
        "rect" => {
            let (x, y) = (number(node, "x"), number(node, "y"));
            vec![
                (x, y),
                (x + number(node, "width"), y + number(node, "height")),
            ]
        }
        "circle" => {
            let (x, y, r) = (number(node, "cx"), number(node, "cy"), number(node, "r"));
            vec![(x - r, y - r), (x + r, y + r)]
        }
        "text" => vec![(number(node, "x"), number(node, "y"))],
        "path" => traced(node.attribute("d").unwrap()),
        _ => Vec::new(),
    }
}

/// The places of a path's data: the commands that the writer knows, and no others.
pub(crate) fn traced(data: &str) -> Vec<(f64, f64)> {
    let mut places = Vec::new();
    let (mut x, mut y) = (0.0, 0.0);
    let mut rest = data;
    while let Some(command) = rest.chars().next() {
        let end = rest[1..]
            .find(|c: char| c.is_ascii_alphabetic())
            .map_or(rest.len(), |at| at + 1);
        let arguments = rest[1..end].trim();
        let values = if arguments.is_empty() {
            Vec::new()
        } else {
            numbers(arguments)
        };
        match (command, values.as_slice()) {
            ('M' | 'L', [a, b]) => (x, y) = (*a, *b),
            ('H', [a]) => x = *a,
            ('V', [b]) => y = *b,
            ('C', [a, b, c, d, e, f]) => {
                places.extend([(*a, *b), (*c, *d)]);
                (x, y) = (*e, *f);
            }
            ('h', [length]) => assert!(length.abs() < 1e-9),
            ('Z', []) => {}
            other => panic!("{other:?} in {data}"),
        }
        places.push((x, y));
        rest = &rest[end..];
    }
    places
}

fn room(node: &Node<'_, '_>) -> Words {
    let class = node.attribute("class").unwrap().to_owned();
    let mut parts = class.split(' ');
    let voice = parts.next().unwrap();
    let voice = *Voice::ALL
        .iter()
        .find(|known| known.class() == voice)
        .unwrap();
    let words = node.text().unwrap_or_default().to_owned();
    let wide = voice.width(&words);
    let (x, y) = (number(node, "x"), number(node, "y"));
    let left = match parts.next() {
        None => x,
        Some("m") => x - wide / 2.0,
        Some("e") => x - wide,
        Some(other) => panic!("{other}"),
    };
    Words {
        words,
        class,
        room: Rect::new(
            left,
            y - voice.size() * 0.70,
            left + wide,
            y + voice.size() * 0.22,
        ),
    }
}
