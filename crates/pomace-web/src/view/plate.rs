//! The drawings, each for the widths that are wanted.

use maud::{Markup, PreEscaped, html};
use pomace_plate::{Drawing, Width};

/// Which widths are drawn: the one that a page said it has, or all, of which the style sheet shows one.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Widths(pub Option<Width>);

impl Widths {
    pub(crate) fn named(name: &str) -> Self {
        Self(match name {
            "phone" => Some(Width::Phone),
            "tablet" => Some(Width::Tablet),
            "desktop" => Some(Width::Desktop),
            _ => None,
        })
    }

    /// A drawing for each width.
    pub(crate) fn draw(self, name: &str, draw: impl Fn(Width, &str) -> Option<Drawing>) -> Markup {
        let widths = Width::ALL
            .into_iter()
            .filter(|w| self.0.is_none_or(|one| one == *w));
        html! {
            @for width in widths {
                @let (class, letter) = match width {
                    Width::Phone => ("for-phone", 'p'),
                    Width::Tablet => ("for-tablet", 't'),
                    Width::Desktop => ("for-desktop", 'd'),
                };
                @if let Some(drawing) = draw(width, &format!("{name}-{letter}")) {
                    div class=(class) { (PreEscaped(drawing.svg)) }
                }
            }
        }
    }
}
