//! What comes of a change, as it is sent to the page: a line of JSON, and behind it the parts of the page as
//! they are.
//!
//! HTML is full of quotes, each of which JSON would write with a second sign, and nearly all of an answer is
//! HTML. So the line tells the names of the parts and their lengths, and they follow one after the other.
//! `assets/answer.js` reads it.

use std::collections::BTreeMap;

use axum::http::header;
use axum::response::{IntoResponse, Response};
use pomace_plate::field::Ranges;
use serde::Serialize;

use super::fault::Fault;
use crate::drink::study::Stand;

/// The kind of such an answer; a fault is `application/json`.
const KIND: &str = "text/plain; charset=utf-8";

/// What the page goes on with, and what it is sent.
#[derive(Serialize)]
pub(crate) struct Answer<'a> {
    pub text: &'a str,
    /// Names of the parts that are sent, and their lengths in bytes.
    parts: Vec<(&'static str, usize)>,
    /// Stamps of all parts.
    stamps: BTreeMap<&'static str, String>,
    pub stand: Option<Place>,
    pub scales: Option<Place>,
    pub refused: Vec<String>,
    pub revision: u64,
    /// The parts that are sent.
    #[serde(skip)]
    html: Vec<String>,
}

/// A place on the field, or the tops of its scales.
#[derive(Clone, Copy, Debug, serde::Deserialize, Serialize)]
pub(crate) struct Place {
    pub sour: f64,
    pub sweet: f64,
}

impl From<Stand> for Place {
    fn from(stand: Stand) -> Self {
        Self {
            sour: stand.sourness_g_per_l,
            sweet: stand.sweetness_g_per_100ml,
        }
    }
}

impl From<Ranges> for Place {
    fn from(tops: Ranges) -> Self {
        Self {
            sour: tops.sourness_g_per_l,
            sweet: tops.sweetness_g_per_100ml,
        }
    }
}

impl<'a> Answer<'a> {
    /// An answer without parts so far.
    pub(crate) const fn of(text: &'a str, revision: u64) -> Self {
        Self {
            text,
            parts: Vec::new(),
            stamps: BTreeMap::new(),
            stand: None,
            scales: None,
            refused: Vec::new(),
            revision,
            html: Vec::new(),
        }
    }

    /// Tells of a part, which is sent unless the page has it.
    pub(crate) fn put(&mut self, name: &'static str, html: String, stamp: String, is_there: bool) {
        self.stamps.insert(name, stamp);
        if !is_there {
            self.parts.push((name, html.len()));
            self.html.push(html);
        }
    }

    /// Into one buffer that is large enough from the beginning.
    fn written(&self) -> Result<Vec<u8>, serde_json::Error> {
        let html: usize = self.html.iter().map(String::len).sum();
        let mut body = Vec::with_capacity(html + 2 * self.text.len() + 2048);
        serde_json::to_writer(&mut body, self)?;
        body.push(b'\n');
        for html in &self.html {
            body.extend_from_slice(html.as_bytes());
        }
        Ok(body)
    }
}

impl IntoResponse for Answer<'_> {
    fn into_response(self) -> Response {
        match self.written() {
            Ok(body) => ([(header::CONTENT_TYPE, KIND)], body).into_response(),
            Err(error) => Fault::unwritten(&error).as_json(),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::Value;

    use super::*;

    #[test]
    fn parts_follow_the_line_that_tells_of_them() {
        let mut answer = Answer::of("drink = \"D\"\n", 7);
        answer.put(
            "a",
            "<p class=\"é\">\n</p>".to_owned(),
            "1".to_owned(),
            false,
        );
        answer.put("b", "<p>there</p>".to_owned(), "2".to_owned(), true);
        answer.put("c", "<i>c</i>".to_owned(), "3".to_owned(), false);
        let body = String::from_utf8(answer.written().unwrap()).unwrap();
        let (line, html) = body.split_once('\n').unwrap();
        let told: Value = serde_json::from_str(line).unwrap();
        assert_eq!(told["text"], "drink = \"D\"\n");
        assert_eq!(told["stamps"]["b"], "2");
        assert_eq!(told["parts"], serde_json::json!([["a", 19], ["c", 8]]));
        assert_eq!(html, "<p class=\"é\">\n</p><i>c</i>");
    }
}
