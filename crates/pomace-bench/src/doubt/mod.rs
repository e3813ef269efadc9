//! Doubt: how far off every figure may be, and where that comes from.
//!
//! A document, and each prep that it is made with, is run once with numbers that carry how they move with every
//! source ([`pomace_matter::Traced`]); what is solved for, as pH, freezing and melt, hands over its implicit
//! slopes. Sources do not depend on one another, so their effects add as squares; so does what the models
//! themselves may be off by. Where a run comes near a kink (ice that is just gone, sugar that just
//! dissolves), slopes do not tell: there all sources are drawn at random together, always with the same
//! seed, and the reach of 95 of 100 draws counts. Where one source is known to a factor only, and stands in an
//! exponent, it is taken at three points.

mod draw;
mod model;
mod three_points;

use pomace_matter::scalar::{Scalar, Slopes, Traced, slopes, tracing};

use crate::error::RunError;
use crate::inputs::{Inputs, Source, SourceKey};
use crate::numbers::Named;
use crate::report::{DrinkReport, Figure, Figures};

pub use crate::numbers::{FigureName, Stage};

/// Something with figures, always in the same order.
pub trait HasFigures {
    /// Shows every figure.
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure));
}

impl Figures {
    fn each_at(&mut self, stage: Stage, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        let mut show = |name, figure: &mut Figure| visit(FigureName { stage, name }, figure);
        show("mass_g", &mut self.mass);
        show("volume_ml", &mut self.volume);
        show("temperature_celsius", &mut self.celsius);
        if let Some(dilution) = &mut self.dilution_percent {
            show("dilution_percent", dilution);
        }
        for (property, figure) in &mut self.properties {
            show(property.name(), figure);
        }
    }
}

impl HasFigures for Figures {
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        self.each_at(Stage::Kept, visit);
    }
}

impl HasFigures for DrinkReport {
    fn each(&mut self, visit: &mut dyn FnMut(FigureName, &mut Figure)) {
        self.before.each_at(Stage::BeforeIce, visit);
        self.after.each_at(Stage::AfterIce, visit);
        let serve = &mut self.per_serve;
        for (name, figure) in [
            ("alcohol_g", &mut serve.alcohol_g),
            ("uk_units", &mut serve.uk_units),
            ("us_standard_drinks", &mut serve.us_standard_drinks),
            ("energy_kcal", &mut serve.energy_kcal),
            ("sugar_g", &mut serve.sugar_g),
            ("caffeine_mg", &mut serve.caffeine_mg),
        ] {
            let stage = Stage::PerServe;
            visit(FigureName { stage, name }, figure);
        }
        for (minute, figures) in &mut self.over_time {
            figures.each_at(Stage::Minute(*minute), visit);
        }
    }
}

/// Something whose numbers can be found in any number type.
pub(crate) trait Study {
    /// All of them, always in the same order.
    fn numbers<S: Scalar>(&self, inputs: &Inputs) -> Result<Named<S>, RunError>;

    /// A source along which they curve so much that slopes at its value do not tell. None that a kept prep has
    /// read: that stays at its value.
    fn curves_along(&self) -> Option<SourceKey> {
        None
    }
}

/// The doubt of all figures of a document.
#[derive(Clone, Debug)]
pub struct Doubt {
    sources: Vec<Source>,
    figures: Vec<OfFigure>,
    /// What one standard deviation of each source does to each figure.
    slopes: Slopes,
}

/// The doubt of one figure.
#[derive(Clone, Debug)]
struct OfFigure {
    name: FigureName,
    value: Option<f64>,
    /// One standard deviation from all sources together.
    own: f64,
    /// One standard deviation of what the model is off by.
    model: f64,
}

/// One part of a figure's doubt.
#[derive(Clone, Debug, PartialEq)]
pub struct Share<'a> {
    /// What it comes from.
    pub name: String,
    /// The reading that would settle it.
    pub reading: &'a str,
    /// Its part of the variance, 0 to 1.
    pub share: f64,
    /// Whether it is what the model may be off by, and no source.
    pub is_model: bool,
}

/// So far apart, draws and slopes do not agree: three times what chance does to the reach of 300 draws.
const APART: f64 = 0.16;

impl Doubt {
    pub(crate) fn of(study: &impl Study) -> Result<Self, RunError> {
        let inputs = Inputs::noting();
        let mut run = tracing(|| traced(study, &inputs))?;
        if let Some(key) = study.curves_along()
            && let Some(place) = inputs.place(key)
        {
            let moved = |by| tracing(|| traced(study, &inputs.with_moved(key, by)));
            let ends = [moved(-three_points::NODE)?, moved(three_points::NODE)?];
            run = three_points::together(run, &ends, place);
        }
        let sources = inputs.into_sources();
        let (mut figures, slopes) = run;
        if slopes.is_bent {
            let told: Vec<Option<f64>> = figures.iter().map(|f| f.value).collect();
            let drawn = draw::deviations(study, &sources, &told);
            for (figure, drawn) in figures.iter_mut().zip(drawn) {
                if let Some(drawn) = drawn
                    && (drawn - figure.own).abs() > APART * figure.own.max(drawn)
                {
                    figure.own = drawn;
                }
            }
        }
        Ok(Self {
            sources,
            figures,
            slopes,
        })
    }

    /// Writes two standard deviations beside every figure that is known here.
    pub fn write(&self, report: &mut impl HasFigures) {
        let mut next = 0;
        report.each(&mut |name, figure| {
            // Both have the same order, but one may have more.
            let (before, rest) = self.figures.split_at(next);
            let name = name.at_once();
            let Some(ahead) = rest
                .iter()
                .chain(before)
                .position(|known| known.name == name)
            else {
                return;
            };
            let place = (next + ahead) % self.figures.len();
            next = place + 1;
            if let Some(known) = self.figures.get(place)
                && known.value.is_some()
            {
                figure.plus_minus = Some(2.0 * known.own.hypot(known.model));
            }
        });
    }

    /// The names of all figures.
    pub fn names(&self) -> impl Iterator<Item = FigureName> {
        self.figures.iter().map(|f| f.name)
    }

    /// The sources that were met.
    #[must_use]
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// A figure that is known, and the slopes of it.
    fn figure(&self, name: FigureName) -> Option<(&OfFigure, &[f32])> {
        let name = name.at_once();
        let place = self.figures.iter().position(|f| f.name == name)?;
        let figure = self.figures.get(place)?;
        let slopes = self.slopes.of(place);
        figure.value.is_some().then_some((figure, slopes))
    }

    /// One standard deviation of a figure for its sources alone, without what the model is off by.
    #[must_use]
    pub fn of_sources(&self, name: FigureName) -> Option<f64> {
        self.figure(name).map(|(figure, _)| figure.own)
    }

    /// What one standard deviation of each source does to a figure, in the order of the sources. By the minute
    /// in the glass it is a root of mean squares with the sign of the slope, and not to be taken from another.
    #[must_use]
    pub fn slopes(&self, name: FigureName) -> Option<&[f32]> {
        self.figure(name).map(|(_, slopes)| slopes)
    }

    /// The largest parts of a figure's doubt, largest first. Nothing where it has none.
    #[must_use]
    pub fn largest(&self, name: FigureName, count: usize) -> Vec<Share<'_>> {
        let Some((figure, slopes)) = self.figure(name) else {
            return Vec::new();
        };
        let squares = slopes.iter().map(|s| f64::from(*s).powi(2)).sum::<f64>();
        let model = figure.model * figure.model;
        let variance = squares + model;
        if variance <= 0.0 {
            return Vec::new();
        }
        let mut shares: Vec<Share<'_>> = self
            .sources
            .iter()
            .zip(slopes)
            .map(|(source, slope)| Share {
                name: source.name.to_string(),
                reading: source.reading,
                share: f64::from(*slope).powi(2) / variance,
                is_model: false,
            })
            .collect();
        shares.push(Share {
            name: "the model itself".to_owned(),
            reading: "the drink itself, read",
            share: model / variance,
            is_model: true,
        });
        shares.retain(|s| s.share > 0.005);
        shares.sort_by(|a, b| b.share.total_cmp(&a.share));
        shares.truncate(count);
        shares
    }
}

/// Figures and their slopes, which stand in the same order.
type Run = (Vec<OfFigure>, Slopes);

/// A run with slopes.
fn traced(study: &impl Study, inputs: &Inputs) -> Result<Run, RunError> {
    let found = study.numbers::<Traced>(inputs)?;
    let slopes = slopes(found.iter().map(|(_, number)| number.unwrap_or_default()));
    let figure = |(place, (name, number)): (usize, &(FigureName, Option<Traced>))| {
        let value = number.map(Scalar::value);
        OfFigure {
            name: *name,
            value,
            own: slopes.deviation(place),
            model: value.map_or(0.0, |v| model::off_by(*name, v)),
        }
    };
    let figures = found.iter().enumerate().map(figure).collect();
    Ok((figures, slopes))
}

/// Sources moved by standard deviations, for a check by chance.
pub type Moves = Vec<(SourceKey, f64)>;
