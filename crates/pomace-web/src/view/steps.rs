//! Steps and garnish, each with what is in the vessel after it; opened, each shows its fields.

use maud::{Markup, html};
use pomace_book::edit::{Draft, Path};
use pomace_book::{GarnishAction, Step, Verb};

use super::{At, Doc};
use crate::words::{and, sentence, set};

/// A step, ready to be shown.
pub(crate) struct StepView {
    pub index: usize,
    pub count: usize,
    pub verb: String,
    /// What it is in a few words.
    pub words: String,
    /// More about it.
    pub note: String,
    /// What is in the vessel after it, and how cold.
    pub after: Option<(String, String)>,
    pub said: Vec<(String, String)>,
}

/// What a step is, in few words and in more.
pub(crate) fn step_words(step: &Step, letters: &[char]) -> (String, String) {
    let text = |value: Option<String>| value.unwrap_or_default();
    let mut words = step.verb.value.word().to_owned();
    if let Some(what) = &step.what {
        words.push_str(&format!(" {}", what.value));
    }
    if let Some(amount) = &step.amount {
        words.push_str(&format!(", {}", amount.value.text.trim()));
    }
    if !letters.is_empty() {
        if step.verb.value == Verb::Top {
            words.push_str(" with");
        }
        let named: Vec<String> = letters.iter().map(char::to_string).collect();
        words.push_str(&format!(" {}", and(&named)));
    }
    if let Some(time) = &step.time {
        words.push_str(&format!(" {}", time.value));
    }
    let notes = [
        text(
            step.temperature
                .as_ref()
                .map(|t| format!("{} °C", set(t.value, 0))),
        ),
        text(
            step.through
                .as_ref()
                .map(|t| format!("through {}", t.value)),
        ),
        text(step.ice.as_ref().map(|i| i.value.text.clone())),
        text(
            step.glass
                .as_ref()
                .map(|g| format!("into {}", g.value.text)),
        ),
        text(step.over.as_ref().map(|o| format!("over {}", o.value))),
        text(step.name_as.as_ref().map(|n| format!("called {}", n.value))),
        text(step.keep.as_ref().map(|k| format!("kept: {}", k.value))),
        text(
            step.by_product
                .as_ref()
                .map(|b| format!("leaves {}", b.value)),
        ),
        text(step.note.as_ref().map(|n| n.value.clone())),
    ];
    let notes: Vec<String> = notes.into_iter().filter(|n| !n.is_empty()).collect();
    (words, notes.join(", "))
}

/// A field of a step: its key, what it asks, an example.
type Field = (&'static str, &'static str, &'static str);

const TIME: Field = ("time", "How long", "30 h");
const WARMTH: Field = ("temperature", "Temperature", "18 °C");
const WHAT: Field = ("what", "What", "quince / peel");
const AMOUNT: Field = ("amount", "How much", "240 g");
const NAME: Field = ("as", "What it is called from here on", "peel");
const THROUGH: Field = ("through", "Through", "fine sieve");
const LEFT: Field = ("by_product", "What is left, called", "pressed peel");
const KEEP: Field = ("keep", "What is kept, called", "vinegar");
const NOTE: Field = (
    "note",
    "A word to whoever makes it",
    "such as: until the rim is dry",
);
const ICE: Field = ("ice", "Ice", "dry 32 mm cubes");

/// The fields that a step of this kind has.
pub(crate) fn fields(verb: Verb) -> &'static [Field] {
    use Verb as V;
    match verb {
        V::Weigh | V::Add => &[WHAT, AMOUNT, NAME],
        V::Dissolve | V::Blend | V::Toast | V::Torch => &[WHAT, AMOUNT, TIME, WARMTH],
        V::Draw => &[("with", "Drawn with", "sugar"), TIME, WARMTH],
        V::Steep | V::Rest => &[WHAT, AMOUNT, TIME, WARMTH],
        V::Strain | V::Press | V::Juice => &[THROUGH, KEEP, LEFT],
        V::Simmer => &[
            ("loss", "Down by", "12 %"),
            ("to", "Down to", "300 g"),
            TIME,
        ],
        V::Dry => &[
            ("to_moisture", "To a moisture of", "8 %"),
            ("to", "Down to", "40 g"),
            TIME,
            WARMTH,
        ],
        V::Clarify => &[("by", "Cleared by", "milk"), WHAT, AMOUNT, LEFT],
        V::Wash => &[
            ("fat", "With which fat", "browned butter"),
            AMOUNT,
            TIME,
            WARMTH,
        ],
        V::Ferment => &[
            ("kind", "Which kind", "lactic"),
            ("sugar_used", "Sugar used", "30 g"),
            TIME,
            WARMTH,
        ],
        V::Freeze | V::Thaw | V::Chill | V::Heat => &[WARMTH, TIME],
        V::Charge => &[
            ("gas", "Which gas", "carbon dioxide"),
            ("pressure", "Pressure", "2.5 bar"),
            WARMTH,
        ],
        V::Store => &[TIME, WARMTH, ("in", "Kept in", "closed jar")],
        V::Build | V::Stir | V::Shake | V::Throw | V::Swizzle | V::BlendWithIce => &[TIME, ICE],
        V::Whip => &[TIME],
        V::Pour => &[
            THROUGH,
            ("glass", "Into which glass", "tall, 320 mL, frosted"),
            ("over", "Over which ice", "one 50 mm block"),
        ],
        V::Top => &[],
    }
}

/// What stands beside the field of a key of a step.
pub(crate) fn label(key: &str) -> Option<&'static str> {
    let fields = Verb::ALL.iter().flat_map(|verb| fields(*verb));
    labelled(key, fields.chain([&NOTE]))
}

/// The same of a garnish.
pub(crate) fn label_of_garnish(key: &str) -> Option<&'static str> {
    labelled(key, OF_GARNISH)
}

fn labelled<'f>(key: &str, fields: impl IntoIterator<Item = &'f Field>) -> Option<&'static str> {
    let mut fields = fields.into_iter();
    let found = fields.find(|(of, _, _)| *of == key);
    found.map(|(_, label, _)| *label)
}

/// The fields of a garnish.
const OF_GARNISH: &[Field] = &[
    ("what", "What", "quince leather, one strip"),
    ("amount", "How much", "3 g"),
    ("eaten", "How much of it is eaten", "half"),
    ("lead", "Begin how long before", "2 d"),
    NOTE,
];

/// The verbs of a drink, in the order of work.
pub(crate) const OF_A_DRINK: &[Verb] = &[
    Verb::Build,
    Verb::Stir,
    Verb::Shake,
    Verb::Throw,
    Verb::Swizzle,
    Verb::Whip,
    Verb::BlendWithIce,
    Verb::Strain,
    Verb::Charge,
    Verb::Freeze,
    Verb::Pour,
    Verb::Top,
];

/// The verbs of a prep.
pub(crate) const OF_A_PREP: &[Verb] = &[
    Verb::Weigh,
    Verb::Add,
    Verb::Dissolve,
    Verb::Draw,
    Verb::Steep,
    Verb::Strain,
    Verb::Press,
    Verb::Juice,
    Verb::Simmer,
    Verb::Blend,
    Verb::Clarify,
    Verb::Wash,
    Verb::Ferment,
    Verb::Freeze,
    Verb::Thaw,
    Verb::Dry,
    Verb::Toast,
    Verb::Torch,
    Verb::Heat,
    Verb::Chill,
    Verb::Charge,
    Verb::Rest,
    Verb::Store,
];

pub(crate) fn list(doc: &Doc<'_>, draft: Option<&Draft>, steps: &[(StepView, Verb)]) -> Markup {
    html! {
        ol class="steps" {
            @for (step, verb) in steps { (item(doc, draft, "step", step, &[fields(*verb), &[NOTE]].concat())) }
        }
    }
}

pub(crate) fn garnish(doc: &Doc<'_>, draft: Option<&Draft>, items: &[StepView]) -> Markup {
    html! {
        ol class="steps" {
            @for one in items { (item(doc, draft, "garnish", one, OF_GARNISH)) }
        }
    }
}

fn item(
    doc: &Doc<'_>,
    draft: Option<&Draft>,
    list: &'static str,
    step: &StepView,
    fields: &[Field],
) -> Markup {
    let at = |change: &'static str, key| At {
        change,
        list: Some(list),
        index: Some(step.index),
        key,
    };
    html! {
        li data-key={ (list) "-" (step.index) } {
            span class="number" { (step.index + 1) }
            details class="more" {
                summary { (sentence(&step.words)) @if !step.note.is_empty() { small { (step.note) } } }
                div class="within" {
                    @for (key, label, example) in fields {
                        @let value = draft.and_then(|d| d.get(&Path::item(list, step.index, *key))).unwrap_or_default();
                        (doc.form(&at("set", Some(key)), "field-row", &html! {
                            label class="field" { span { (label) }
                                input name="value" value=(value) placeholder=(example)
                                    data-find=[matches!(*key, "what" | "fat").then_some("what")]; }
                            button class="act" { "keep" }
                        }))
                    }
                    div class="acts" {
                        @if step.index > 0 {
                            (doc.act(&at("move", None), &html! { input type="hidden" name="to" value=(step.index - 1); }, "earlier", &step.verb))
                        }
                        @if step.index + 1 < step.count {
                            (doc.act(&at("move", None), &html! { input type="hidden" name="to" value=(step.index + 1); }, "later", &step.verb))
                        }
                        (doc.act(&at("remove", None), &html! {}, "take out", &step.verb))
                    }
                }
            }
            @match &step.after {
                Some((much, cold)) => p { (much) small { (cold) } },
                None => p {},
            }
            @for (message, mend) in &step.said {
                div class="amiss" { p { (message) " " span { (mend) } } }
            }
        }
    }
}

/// A form that adds a step.
pub(crate) fn add(doc: &Doc<'_>, verbs: &[Verb], with_matter: bool) -> Markup {
    let at = At {
        change: "add",
        list: Some("step"),
        index: None,
        key: None,
    };
    doc.form(&at, "put-in", &html! {
        label class="field" { span { "One more step" }
            select name="verb" { @for verb in verbs { option value=(verb.word()) { (verb.word()) } } } }
        @if with_matter {
            label class="field" { span { "What comes in, if anything" } input name="what" data-find="what" placeholder="quince / peel"; }
            label class="field amount" { span { "How much" } input name="amount" placeholder="240 g"; }
        }
        button class="button" { "Add it" }
    })
}

/// A form that adds a garnish.
pub(crate) fn add_garnish(doc: &Doc<'_>) -> Markup {
    use GarnishAction as G;
    let at = At {
        change: "add",
        list: Some("garnish"),
        index: None,
        key: None,
    };
    let actions = [
        G::Coat,
        G::Crumb,
        G::Set,
        G::Grind,
        G::Dust,
        G::Torch,
        G::Float,
        G::Frost,
    ];
    doc.form(&at, "put-in", &html! {
        label class="field" { span { "One more, in order" }
            select name="verb" { @for action in actions { option value=(action.word()) { (action.word()) } } } }
        label class="field" { span { "What" } input name="what" data-find="what" placeholder="a strip of peel"; }
        label class="field amount" { span { "How much" } input name="amount" placeholder="3 g"; }
        button class="button" { "Add it" }
    })
}
