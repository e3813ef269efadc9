//! The drawings: plain numbers in, SVG text out.
//!
//! Each drawing is a pure function of what it shows, a [`Width`] and a prefix for its ids. It is made
//! for that width and not scaled to it, so letters keep their size. Colour comes from the style sheet
//! alone: the text of a drawing holds classes, never a colour or a style. What is not a number
//! (`NaN`, infinity) is left out, and the sentence that goes with each drawing says only what is there.
//!
//! | drawing | shows |
//! | --- | --- |
//! | [`field`] | a drink among the house's own: sweetness over sourness, before ice and as served |
//! | [`path`] | temperature over melt, with the line at which the drink would freeze |
//! | [`glass`] | the glass in section, to scale, beside a staff in mL |
//! | [`flow`] | a prep: parts in, the kept stream and everything else out, one line a fixed mass |
//! | [`strip`] | what each line gave to one figure |
//! | [`whiskers`] | what one reading would settle |
//!
//! Beneath them: [`scale`] (steps that people count in), [`labels`] (which words fit, and where),
//! [`metrics`] (how wide words are), and a small writer of SVG.

mod digits;
pub mod field;
pub mod flow;
pub mod geometry;
pub mod glass;
pub mod labels;
pub mod metrics;
mod number;
pub mod path;
pub mod scale;
pub mod strip;
mod svg;
mod voice;
pub mod whiskers;
mod width;

pub use number::{Doubtful, number};
pub use svg::Drawing;
pub use voice::Voice;
pub use width::Width;
