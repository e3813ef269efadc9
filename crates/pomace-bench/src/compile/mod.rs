//! From documents to programs.

mod intake;

use pomace_book::{
    Amount, Book, Document, DocumentId, DrinkDoc, Finding, Garnish, GarnishAction, Graph, Gravity,
    PrepDoc, Reference, Spanned, Spot, Step, Target, Topic, Verb,
};
use pomace_larder::Form;
use pomace_larder::yields::{self, Yield};
use pomace_matter::ice::chilling::Motion;

use crate::dose::{Dose, Measure, ShareOf};
use crate::finding::{Where, finding};
use crate::house::House;
use crate::program::{Crown, Intake, Op, Origin, Program, Work};
use crate::remark::Assumption;
use crate::shelf::Shelf;
use crate::steps::separate::Filter;

/// One amount of a document taken otherwise than it is written, without touching its text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// The document.
    pub document: DocumentId,
    /// Where in it.
    pub spot: Spot,
    /// How it is taken.
    pub to: To,
}

/// How an amount is taken otherwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum To {
    /// By another of the ways in which it can be read.
    Reading(usize),
    /// So many times as much.
    Factor(f64),
}

/// Compiles one book after another document; collects what there is to say.
pub(crate) struct Compiler<'a> {
    pub book: &'a Book,
    pub graph: &'a Graph,
    pub house: &'a House,
    pub shelf: &'a mut Shelf,
    pub findings: &'a mut Vec<Finding>,
    pub changes: &'a [Change],
    /// What the document at work holds in unknown amounts.
    pub traces: Vec<Origin>,
}

impl Compiler<'_> {
    pub(crate) fn document(&mut self, id: DocumentId) -> Option<Program> {
        let book = self.book;
        match book.document(id)? {
            Document::Prep(prep) if prep.steps.is_empty() => self.told(id, prep),
            Document::Prep(prep) => Some(self.prep(id, prep)),
            Document::Drink(drink) => Some(self.drink(id, drink)),
            Document::Ingredient(_) => {
                // On the shelf even if nobody uses it, so that its faults are found.
                self.shelf.item(
                    &Reference::Document(id),
                    self.book,
                    self.graph,
                    self.findings,
                );
                None
            }
            Document::House(_) => None,
        }
    }

    fn prep(&mut self, id: DocumentId, prep: &PrepDoc) -> Program {
        let (ops, intakes) = self.steps(id, &prep.steps, false);
        Program {
            ops,
            intakes,
            crowns: Vec::new(),
            traces: std::mem::take(&mut self.traces),
            is_drink: false,
        }
    }

    /// A prep told from outside: the solid in the base, for its time, and strained.
    fn told(&mut self, id: DocumentId, prep: &PrepDoc) -> Option<Program> {
        let told = prep.told.as_ref()?;
        let mut intakes = Vec::new();
        let mut take = |compiler: &mut Self,
                        reference: Option<&Reference>,
                        amount: Option<&Spanned<Amount>>,
                        usual: Measure,
                        of: Option<ShareOf>| {
            let Some(origin) = reference.and_then(|r| compiler.origin(id, r)) else {
                return;
            };
            let dose = amount
                .and_then(|a| Dose::of(&a.value.reading, of, compiler.house, 0))
                .unwrap_or(Dose {
                    measure: usual,
                    range: None,
                    in_question: false,
                    to_taste: false,
                });
            let spot = Spot::Step(intakes.len());
            intakes.push(Intake {
                spot,
                origin,
                called: compiler.called(origin),
                dose,
                step: intakes.len(),
            });
        };
        let (base, solid) = (
            self.graph.told_base(id).cloned(),
            self.graph.told_solid(id).cloned(),
        );
        take(
            self,
            base.as_ref(),
            told.base_amount.as_ref(),
            Measure::Grams(1000.0),
            None,
        );
        let of = Some(ShareOf::Named(0));
        take(
            self,
            solid.as_ref(),
            told.solid_amount.as_ref(),
            Measure::Share(0.125, ShareOf::Named(0)),
            of,
        );
        let of_solid = |process, what| {
            let entry = told.solid.as_ref().and_then(|s| usual(process, &s.value));
            entry.map(|entry| Assumption::of_yield(what, entry))
        };
        let extract = of_solid("extract", EXTRACT);
        let seconds = told.time.as_ref().map(|t| t.value.0);
        let op = |verb, work| Op {
            verb,
            work,
            celsius: None,
            over: None,
            glass_ml: None,
        };
        let ops = vec![
            op(Verb::Weigh, Work::Nothing),
            op(Verb::Add, Work::Nothing),
            op(Verb::Steep, Work::Steep { seconds, extract }),
            op(
                Verb::Strain,
                Work::Strain {
                    filter: Filter::Sieve,
                    soak: of_solid("hold-up", HELD),
                },
            ),
        ];
        Some(Program {
            ops,
            intakes,
            crowns: Vec::new(),
            traces: std::mem::take(&mut self.traces),
            is_drink: false,
        })
    }

    fn drink(&mut self, id: DocumentId, drink: &DrinkDoc) -> Program {
        let mut steps = drink.steps.clone();
        if steps.is_empty() {
            // A draft without steps is built in the glass.
            steps.push(Step::bare(
                Spanned::new(Verb::Build, drink.name.span),
                drink.name.span,
            ));
        }
        let mut intakes = Vec::new();
        for (index, line) in drink.lines.iter().enumerate() {
            let step = match &line.enters {
                None => Some(0),
                Some(name) => steps.iter().position(|step| enters_at(step, name)),
            };
            let at = Where::new(line.span, format!("line {}", index + 1));
            let reference = self.graph.line(id, index);
            // A step that is not there has been reported by the book.
            let Some(step) = step else { continue };
            intakes.extend(self.intake(
                id,
                Spot::Line(index),
                step,
                reference,
                line.amount.as_ref(),
                &at,
            ));
        }
        let (ops, more) = self.steps(id, &steps, true);
        intakes.extend(more);
        let crowns = drink
            .garnish
            .iter()
            .enumerate()
            .filter_map(|(i, g)| self.crown(id, i, g))
            .collect();
        Program {
            ops,
            intakes,
            crowns,
            traces: std::mem::take(&mut self.traces),
            is_drink: true,
        }
    }

    fn crown(&mut self, id: DocumentId, index: usize, garnish: &Garnish) -> Option<Crown> {
        // Frost brings no matter.
        if garnish.action.value == GarnishAction::Frost {
            return None;
        }
        let at = Where::new(garnish.span, format!("garnish {}", index + 1));
        garnish.what.as_ref()?;
        let reference = self.graph.garnish(id, index);
        let intake = self.intake(
            id,
            Spot::Garnish(index),
            0,
            reference,
            garnish.amount.as_ref(),
            &at,
        )?;
        Some(Crown {
            intake,
            eaten: garnish.eaten.as_ref().map_or(0.5, |e| e.value),
            place: index,
        })
    }

    fn steps(&mut self, id: DocumentId, steps: &[Step], is_drink: bool) -> (Vec<Op>, Vec<Intake>) {
        let mut intakes: Vec<Intake> = Vec::new();
        // The last pieces that went in: what a sieve holds is told of them.
        let mut solid: Option<String> = None;
        let ops = steps
            .iter()
            .enumerate()
            .map(|(index, step)| {
                let at = Where::new(step.span, format!("step {}", index + 1));
                let reference = match step.verb.value {
                    Verb::Wash => self.graph.fat(id, index),
                    _ if step.what.is_some() => self.graph.step(id, index),
                    _ => None,
                };
                // A step that works on a named stream of its own brings nothing in.
                let own = matches!(reference, Some(Reference::Stream(_) | Reference::Added(_)));
                if let Some(reference) = reference.filter(|_| !own) {
                    let spot = Spot::Step(index);
                    let intake =
                        self.intake(id, spot, index, Some(reference), step.amount.as_ref(), &at);
                    if intake.as_ref().is_some_and(|i| self.is_pieces(i)) {
                        solid = step.what.as_ref().map(|w| w.value.clone());
                    }
                    intakes.extend(intake);
                }
                self.op(id, index, step, solid.as_deref(), is_drink)
            })
            .collect();
        (ops, intakes)
    }

    fn is_pieces(&self, intake: &Intake) -> bool {
        match intake.origin {
            Origin::Shelf(index) => self
                .shelf
                .get(index)
                .is_some_and(|i| matches!(i.form, Form::Pieces | Form::Powder)),
            Origin::Left(..) | Origin::OwnLeft(_) => true,
            Origin::Made(_) => false,
        }
    }

    fn op(
        &mut self,
        id: DocumentId,
        index: usize,
        step: &Step,
        solid: Option<&str>,
        is_drink: bool,
    ) -> Op {
        let filter = Filter::named(step.through.as_ref().map_or("", |t| t.value.as_str()));
        let seconds = step.time.as_ref().map(|t| t.value.0);
        let celsius = step.temperature.as_ref().map(|t| t.value);
        let loss = step.loss.as_ref().map(|l| Target::LossShare(l.value));
        let to = step.to.as_ref().map(|t| t.value).or(loss);
        let of_solid = |process, what| {
            solid
                .and_then(|s| usual(process, s))
                .map(|y| Assumption::of_yield(what, y))
        };
        let work = match step.verb.value {
            Verb::Dissolve | Verb::Heat => Work::Dissolve,
            Verb::Draw => Work::Draw { seconds },
            Verb::Steep => Work::Steep {
                seconds,
                extract: of_solid("extract", EXTRACT),
            },
            Verb::Strain | Verb::Pour if is_drink => Work::Pour { filter },
            Verb::Strain => Work::Strain {
                filter,
                soak: of_solid("hold-up", HELD),
            },
            Verb::Press => Work::Press { filter },
            Verb::Juice => Work::Juice {
                usual: of_solid("juice", "juice"),
            },
            Verb::Clarify => Work::Clarify {
                by: step.by.as_ref().map(|b| b.value),
            },
            Verb::Simmer => Work::Simmer {
                to,
                seconds,
                extract: of_solid("extract", EXTRACT),
            },
            Verb::Blend | Verb::Whip => Work::Blend,
            Verb::Wash => Work::Wash,
            Verb::Ferment => Work::Ferment {
                kind: step.kind.as_ref().map(|k| k.value),
                used: step.sugar_used.as_ref().map(|u| u.value),
            },
            Verb::Dry => {
                if let Some(target @ (Target::ToBrix(_) | Target::ToMillilitres(_))) = to {
                    self.findings
                        .push(cannot_dry_to(self.book, id, step, index, target));
                }
                Work::Dry {
                    moisture: step.to_moisture.as_ref().map(|m| m.value),
                    to,
                }
            }
            Verb::Toast => Work::Toast,
            Verb::Torch => Work::Torch,
            Verb::Freeze => Work::Freeze { celsius },
            Verb::Thaw => Work::Thaw { celsius },
            Verb::Charge => Work::Charge {
                gas: step.gas.as_ref().map(|g| g.value),
                gauge_bar: step.pressure.as_ref().map(|p| p.value.bar()),
                celsius,
            },
            verb
            @ (Verb::Shake | Verb::Stir | Verb::Throw | Verb::Swizzle | Verb::BlendWithIce) => {
                Work::Ice {
                    motion: motion(verb),
                    ice: step.ice.as_ref().map(|i| i.value.clone()),
                    seconds,
                }
            }
            Verb::Weigh
            | Verb::Add
            | Verb::Chill
            | Verb::Rest
            | Verb::Store
            | Verb::Build
            | Verb::Top
            | Verb::Pour => Work::Nothing,
        };
        Op {
            verb: step.verb.value,
            work,
            celsius,
            over: step.over_ice.as_ref().map(|ice| self.house.glass_ice(ice)),
            glass_ml: step.glass.as_ref().and_then(|g| g.value.millilitres),
        }
    }
}

fn enters_at(step: &Step, name: &str) -> bool {
    pomace_book::Verb::named(name) == Some(step.verb.value)
        || step.kept_names().any(|n| pomace_book::names::same(n, name))
}

/// What is assumed of dry goods, in words.
const EXTRACT: &str = "what of the dry goods dissolves";
const HELD: &str = "liquid held by the drained solids";

/// What the larder knows of a process for a thing of that name, or of its parts.
fn usual(process: &str, name: &str) -> Option<&'static Yield> {
    std::iter::once(name)
        .chain(name.split('/').take(2))
        .find_map(|name| yields::find(process, name.trim()))
}

const fn motion(verb: Verb) -> Motion {
    match verb {
        Verb::Stir => Motion::Stir,
        Verb::Throw => Motion::Throw,
        Verb::Swizzle => Motion::Swizzle,
        Verb::BlendWithIce => Motion::Blend,
        _ => Motion::Shake,
    }
}

fn cannot_dry_to(
    book: &Book,
    id: DocumentId,
    step: &Step,
    index: usize,
    target: Target,
) -> Finding {
    let what = match target {
        Target::ToBrix(_) => "a Brix",
        _ => "a volume",
    };
    finding(
        book,
        id,
        &Where::new(step.span, format!("step {}, to", index + 1)),
        (Topic::Amount, Gravity::Stop),
        format!("nothing is dried to {what}"),
        "write ‹to = 120 g› or ‹to_moisture = 12 %›",
    )
}
