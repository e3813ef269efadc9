//! The plate of a prep: its flow by mass.

use maud::{Markup, html};
use pomace_bench::Bench;
use pomace_book::{DocumentId, PrepDoc};
use pomace_plate::flow;
use pomace_store::Id;

use super::flow::flow_of;
use super::told;
use crate::app::App;
use crate::view::plate::Widths;

/// What flows from what goes in to what is kept and what is left, drawn.
pub(crate) fn part(
    bench: &Bench<'_>,
    (id, document): (&Id, DocumentId),
    doc: &PrepDoc,
    app: &App,
    widths: Widths,
) -> Markup {
    let counted = bench.flow(document).ok();
    let Some(counted) = counted.filter(|flow| !flow.inflows.is_empty()) else {
        return html! {};
    };
    let kitchen = app.kitchen();
    let goes_to = |name: &str| {
        let takers = kitchen.mentioning(name).into_iter();
        let mut names: Vec<String> = takers
            .filter(|other| other != id)
            .filter_map(|other| Some(kitchen.get(&other)?.name.clone()))
            .collect();
        names.sort();
        (!names.is_empty()).then(|| names.join(", "))
    };
    let flow = flow_of(doc, &counted, goes_to);
    drop(kitchen);
    let is_told = told::outside(doc).is_some();
    html! {
        div class="plate" {
            figure {
                (widths.draw("flow", |width, prefix| flow::draw(&flow, width, prefix)))
                figcaption { b { "Fig. 1." }
                    " By mass: heavy lines are the ingredient’s own, fine ones liquid, dashed ones sweetener."
                    @if is_told { " Told from outside: what nobody told is taken as usual." }
                }
            }
        }
    }
}
