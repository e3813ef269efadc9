//! Faults gathered while one document is read, all of them before anything is said.

use std::cell::OnceCell;

use crate::document::Source;
use crate::finding::{Finding, Gravity, Place, Topic};
use crate::limits::FINDINGS;
use crate::quantity::QuantityError;
use crate::span::Span;
use crate::voice::Words;

/// Where each line of a text starts.
#[derive(Clone, Debug)]
pub(crate) struct Lines {
    starts: Vec<usize>,
}

impl Lines {
    pub(crate) fn of(text: &str) -> Self {
        let after = text
            .bytes()
            .enumerate()
            .filter(|(_, byte)| *byte == b'\n')
            .map(|(at, _)| at + 1);
        Self {
            starts: std::iter::once(0).chain(after).collect(),
        }
    }

    /// Line and column in characters, both from 1.
    pub(crate) fn place(&self, text: &str, byte: usize) -> (usize, usize) {
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        let mut end = byte.min(text.len());
        while !text.is_char_boundary(end) {
            end -= 1;
        }
        (
            line,
            text.get(start..end)
                .map_or(1, |before| before.chars().count() + 1),
        )
    }
}

/// The faults of one document.
#[derive(Debug)]
pub(crate) struct Faults<'s> {
    source: &'s Source,
    /// Most texts have no fault, and nobody asks for a line.
    lines: OnceCell<Lines>,
    findings: Vec<Finding>,
    more: usize,
}

impl<'s> Faults<'s> {
    pub(crate) fn of(source: &'s Source) -> Self {
        Self {
            source,
            lines: OnceCell::new(),
            findings: Vec::new(),
            more: 0,
        }
    }

    pub(crate) fn text(&self) -> &'s str {
        &self.source.text
    }

    /// Notes a fault at a place.
    pub(crate) fn add(
        &mut self,
        (topic, gravity): (Topic, Gravity),
        span: Span,
        key: &str,
        message: impl Into<Words>,
        mend: impl Into<Words>,
    ) {
        if self.is_full() {
            return self.skip();
        }
        let place = self.place(span, key);
        self.findings.push(Finding {
            document: String::new(),
            place,
            topic,
            gravity,
            message: message.into(),
            authority: None,
            mend: mend.into(),
        });
    }

    /// Counts a fault that would not be shown.
    pub(crate) const fn skip(&mut self) {
        self.more += 1;
    }

    /// Whether as many faults are noted as are shown.
    pub(crate) fn is_full(&self) -> bool {
        self.findings.len() >= FINDINGS
    }

    /// Whether one of the faults forbids to go on.
    pub(crate) fn has_stop(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.gravity == Gravity::Stop)
    }

    /// A span as a place.
    fn place(&self, span: Span, key: &str) -> Place {
        let text = &self.source.text;
        let lines = self.lines.get_or_init(|| Lines::of(text));
        let (line, column) = lines.place(text, span.start);
        Place {
            path: self.source.path.clone(),
            line,
            column,
            span,
            key: key.to_owned(),
        }
    }

    /// A quantity that cannot be read, pointed at within its text.
    pub(crate) fn quantity(&mut self, error: QuantityError, span: Span, key: &str) {
        let span = self.within(span, error.offset);
        self.add(
            (Topic::Amount, Gravity::Stop),
            span,
            key,
            error.what,
            error.mend,
        );
    }

    /// The place of a byte of a string, where the string is written without escapes.
    fn within(&self, span: Span, offset: usize) -> Span {
        let written = span.of(&self.source.text);
        let quote = written.chars().next().unwrap_or(' ');
        let plain = matches!(quote, '"' | '\'')
            && !written.contains('\\')
            && !written.starts_with("\"\"\"");
        let start = span.start + 1 + offset;
        if plain && offset > 0 && start < span.end {
            Span {
                start,
                end: span.end - 1,
            }
        } else {
            span
        }
    }

    /// The findings in the order of the text, under the document's name.
    pub(crate) fn finish(mut self, document: Option<&str>) -> Vec<Finding> {
        if self.more > 0 {
            let end = self.source.text.len();
            let place = self.place(Span { start: end, end }, "");
            self.findings.push(Finding {
                document: String::new(),
                place,
                topic: Topic::Syntax,
                gravity: Gravity::Stop,
                message: format!("{} more faults are not shown", self.more).into(),
                authority: None,
                mend: "mend those above and look again".into(),
            });
        }
        let name = document
            .filter(|name| !name.trim().is_empty())
            .unwrap_or(&self.source.path);
        for finding in &mut self.findings {
            name.clone_into(&mut finding.document);
        }
        self.findings
            .sort_by_key(|finding| finding.place.span.start);
        self.findings
    }
}
