//! Trials: what they mean, what they make of a text, and what becomes of it when one is promoted.

use pomace_book::trial::{self, PromoteError, promote, variant};
use pomace_book::{Book, Document, Gravity, Source, demo, parse, resolve};

const DRINK: &str = "\
# Ours.
drink = \"Try\"

[[line]]
what = \"gin, 43 %\"
amount = \"40 mL\" # tasted on Friday

[[line]]
what = \"honey\"
amount = \"10 g\"
# no more than this

[[line]]
what = \"water\"
amount = \"30 mL\"

[[step]]
do = \"shake\"
time = \"9 s\"

[[garnish]]
do = \"set\"
what = \"lemon peel, one strip\"
amount = \"3 g\"

[[trial]]
name = \"dry\"
note = \"no honey at all\"
[[trial.change]]
line = \"honey\"
left_out = true
[[trial.change]]
step = \"shake\"
time = \"12 s\"

[[trial]]
name = \"longer\"
[[trial.change]]
line = 3
amount = \"60 mL\"
[[trial.line]]
what = \"lemon juice\"
amount = \"10 mL\"
before = \"honey\"
[[trial.line]]
what = \"orange juice\"
amount = \"5 mL\"
before = 2
[[trial.step]]
do = \"pour\"
[[trial.garnish]]
do = \"set\"
what = \"orange peel\"
amount = \"2 g\"
optional = true
";

fn document(text: &str) -> Document {
    parse(&Source::new("t.toml", text)).document.unwrap()
}

/// `what` and `amount` of every line.
fn lines(text: &str) -> Vec<(String, String)> {
    let Document::Drink(drink) = document(text) else {
        panic!("no drink")
    };
    let told = drink.lines.into_iter();
    told.map(|line| (line.what.value, line.amount.unwrap().value.text))
        .collect()
}

#[test]
fn a_trial_is_read_without_a_finding() {
    let parsed = parse(&Source::new("t.toml", DRINK));
    assert!(parsed.findings.is_empty(), "{:?}", parsed.findings);
    assert_eq!(parsed.document.unwrap().trials().len(), 2);
}

#[test]
fn only_what_is_changed_is_changed() {
    let document = document(DRINK);
    let dry = variant(DRINK, &document.trials()[0]).unwrap();
    let before = DRINK.split("[[trial]]").next().unwrap();
    let expected = before
        .replace("\n[[line]]\nwhat = \"honey\"\namount = \"10 g\"\n", "")
        .replace("9 s", "12 s");
    // A comment below it is kept.
    assert_eq!(dry.trim_end(), expected.trim_end());

    let longer = variant(DRINK, &document.trials()[1]).unwrap();
    let told: Vec<String> = lines(&longer)
        .into_iter()
        .map(|(w, a)| format!("{w} {a}"))
        .collect();
    assert_eq!(
        told,
        [
            "gin, 43 % 40 mL",
            "lemon juice 10 mL",
            "orange juice 5 mL",
            "honey 10 g",
            "water 60 mL"
        ]
    );
    assert!(longer.contains("# Ours.") && longer.contains("# tasted on Friday"));
    assert!(longer.contains("optional = true"), "{longer}");
}

/// Promoted, the document is the variant; the trial keeps what was there, and the other follows.
#[test]
fn promotion_is_the_variant_and_loses_nothing() {
    for which in [0, 1] {
        let document = document(DRINK);
        let trials = document.trials();
        if which == 0 {
            // The other one puts something before the honey that this one leaves out.
            let refused = promote(DRINK, trials, 0).unwrap_err();
            assert!(
                matches!(&refused, PromoteError::Spoken { trial, list: "line", number: 2 } if trial == "longer"),
                "{refused}"
            );
            continue;
        }
        let promoted = promote(DRINK, trials, which).unwrap();
        let parsed = parse(&Source::new("t.toml", promoted.as_str()));
        assert!(parsed.findings.is_empty(), "{:?}", parsed.findings);
        let now = parsed.document.unwrap();
        assert_eq!(
            lines(&promoted),
            lines(&variant(DRINK, &trials[which]).unwrap())
        );
        assert!(now.trials()[which].promoted);
        assert!(
            promoted.contains("was = { amount = \"30 mL\" }"),
            "{promoted}"
        );
        // The honey is line 4 now, and still meant by its name.
        assert_eq!(now.trials()[0].changes[0].index, Some(3));
        assert_eq!(
            promote(&promoted, now.trials(), which).unwrap_err(),
            PromoteError::Nothing
        );
    }
}

/// What a promoted trial left out stands in it whole.
#[test]
fn what_is_left_out_is_kept_in_the_trial() {
    let alone = DRINK
        .split("\n[[trial]]\nname = \"longer\"")
        .next()
        .unwrap();
    let promoted = promote(alone, document(alone).trials(), 0).unwrap();
    assert!(
        promoted.contains("was = { what = \"honey\", amount = \"10 g\" }"),
        "{promoted}"
    );
    assert!(promoted.contains("was = { time = \"9 s\" }"), "{promoted}");
    assert!(
        promoted.contains("note = \"no honey at all\"\npromoted = true"),
        "{promoted}"
    );
}

/// Numbers of the other trials follow what moved; a name that became two is told by number.
#[test]
fn other_trials_follow() {
    let text = "drink = \"D\"\nline = [ { what = \"honey\", amount = \"5 g\" }, { what = \"water\", amount = \"50 mL\" } ]\ntrial = [ { name = \"a\", line = [ { what = \"water\", amount = \"20 mL\", before = 1 } ] }, { name = \"b\", change = [ { line = 1, amount = \"7 g\" } ] }, { name = \"c\", change = [ { line = \"water\", amount = \"60 mL\" } ] } ]\n";
    let promoted = promote(text, document(text).trials(), 0).unwrap();
    let now = document(&promoted);
    let meant: Vec<Option<usize>> = now.trials()[1..]
        .iter()
        .map(|t| t.changes[0].index)
        .collect();
    assert_eq!(meant, [Some(1), Some(2)], "{promoted}");
    assert!(promoted.contains("line = \"3\""), "{promoted}");
    assert!(
        promoted.contains("before = 1 } ], promoted = true }"),
        "{promoted}"
    );
}

#[test]
fn line_ends_of_windows_stay() {
    let windows = DRINK.replace('\n', "\r\n");
    let text = variant(&windows, &document(&windows).trials()[0]).unwrap();
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
}

#[test]
fn every_fault_says_where_what_and_how_to_mend_it() {
    let drink = DRINK.split("[[trial]]").next().unwrap();
    for (trial, message, mend) in [
        ("note = \"x\"", "has no name", "add `name"),
        ("name = \"x\"", "changes nothing", "[[trial.change]]"),
        (
            "name = \"x\"\n[[trial.change]]\namount = \"3 g\"",
            "does not say what it changes",
            "`line = ",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 1\nstep = 1\namount = \"3 g\"",
            "more than one thing",
            "one of",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 9\namount = \"3 g\"",
            "no line 9",
            "from 1 to 3",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 0\namount = \"3 g\"",
            "no line 0",
            "from 1 to 3",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = \"hony\"\namount = \"3 g\"",
            "no line is called `hony`",
            "`honey`",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 1",
            "does not say what is new",
            "amount",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 1\nleft_out = true\namount = \"3 g\"",
            "as well",
            "left_out",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 1\namount = [\"3 g\"]",
            "should be a text",
            "write it",
        ),
        (
            "name = \"x\"\n[[trial.change]]\nline = 1\namount = \"3 g\"\n[[trial.change]]\nline = 1\nwhat = \"honey\"",
            "changed before",
            "one",
        ),
        (
            "name = \"x\"\n[[trial.line]]\nwhat = \"honey\"\nbefore = 7",
            "no line 7",
            "from 1 to 3",
        ),
    ] {
        let text = format!("{drink}[[trial]]\n{trial}\n");
        let findings = parse(&Source::new("t.toml", text)).findings;
        let [finding] = findings.as_slice() else {
            panic!("{trial}: {findings:#?}")
        };
        assert!(
            finding.message.to_string().contains(message),
            "{trial}: {}",
            finding.message
        );
        assert!(
            finding.mend.to_string().contains(mend),
            "{trial}: {}",
            finding.mend
        );
        assert!(finding.place.key.starts_with("trial 1"), "{finding}");
    }
    let twice = format!(
        "{DRINK}[[trial]]\nname = \"Dry\"\n[[trial.change]]\nline = 1\namount = \"2 mL\"\n"
    );
    let findings = parse(&Source::new("t.toml", twice)).findings;
    assert!(
        findings[0]
            .message
            .to_string()
            .contains("trial 1 has the same name"),
        "{findings:?}"
    );
    let several = format!(
        "{drink}[[line]]\nwhat = \"honey\"\namount = \"1 g\"\n[[trial]]\nname = \"x\"\n[[trial.change]]\nline = \"honey\"\namount = \"2 g\"\n"
    );
    let findings = parse(&Source::new("t.toml", several)).findings;
    assert!(
        findings[0].message.to_string().contains("2 times"),
        "{findings:?}"
    );
    assert!(
        findings[0]
            .mend
            .to_string()
            .contains("`line = 2` or `line = 4`"),
        "{findings:?}"
    );
}

/// What is wrong in a variant is told at its trial; what its document has anyway is told once.
#[test]
fn findings_of_variants_are_told_at_the_trial() {
    let text = DRINK.replace("amount = \"60 mL\"", "amount = \"-6 mL\"");
    let mut plain = Book::new();
    plain.add(Source::new("t.toml", text.as_str()));
    let book = plain.with_trials(None);
    let mut findings = book.findings().to_vec();
    findings.extend(resolve(&book).1);
    let told = trial::told(&book, findings);
    let [wrong] = told.as_slice() else {
        panic!("{told:#?}")
    };
    assert!(
        wrong
            .message
            .to_string()
            .starts_with("in the trial `longer`, line 5, amount: "),
        "{wrong}"
    );
    assert_eq!(wrong.place.path, "t.toml");
    let line = text.lines().nth(wrong.place.line - 1).unwrap();
    assert_eq!(line, "name = \"longer\"");
}

/// A variant stands beside the book: nothing is made with it, and it cannot be made with itself.
#[test]
fn a_variant_is_nobodys_ingredient() {
    let mut plain = demo::book();
    plain.add(Source::new(
        "round.toml",
        "prep = \"Round\"\n[[step]]\ndo = \"weigh\"\nwhat = \"water\"\namount = \"1 kg\"\n[[trial]]\nname = \"circle\"\n[[trial.change]]\nstep = \"water\"\nwhat = \"Rounder\"\n",
    ));
    plain.add(Source::new(
        "rounder.toml",
        "prep = \"Rounder\"\n[[step]]\ndo = \"weigh\"\nwhat = \"Round\"\namount = \"1 kg\"\n",
    ));
    let book = plain.with_trials(None);
    assert!(book.len() > plain.len());
    let (graph, findings) = resolve(&book);
    let stops: Vec<_> = findings
        .iter()
        .filter(|f| f.gravity == Gravity::Stop)
        .collect();
    let [stop] = stops.as_slice() else {
        panic!("{stops:#?}")
    };
    assert!(stop.message.to_string().contains("need itself"), "{stop}");
    for (id, _) in book.documents() {
        assert!(book.variant(id).is_none() || graph.used_by(id).is_empty());
    }
}

/// As many as a document may hold, and one more; every one of the many is carried out in no time.
#[test]
fn there_is_an_end_to_trials() {
    use pomace_book::limits::TRIALS;
    let mut text = DRINK.split("[[trial]]").next().unwrap().to_owned();
    for number in 0..=TRIALS {
        text.push_str(&format!(
            "[[trial]]\nname = \"{number}\"\n[[trial.change]]\nline = 1\namount = \"{number} mL\"\n"
        ));
    }
    let mut plain = Book::new();
    let id = plain.add(Source::new("t.toml", text)).unwrap();
    assert_eq!(plain.findings().len(), 1);
    assert!(
        plain.findings()[0]
            .message
            .to_string()
            .contains("51 trials; the most is 50")
    );
    assert_eq!(plain.with_trials(Some(id)).variants(id).count(), TRIALS);
}
