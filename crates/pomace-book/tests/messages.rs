//! Faulty documents, with what is said of them beside them.

use pomace_book::{Source, parse};

/// Every finding of a text: place, gravity, message and mend.
fn said(text: &str) -> String {
    let parsed = parse(&Source::new("t.toml", text));
    let lines = parsed.findings.iter().map(|finding| {
        let place = &finding.place;
        format!(
            "{}:{} {} {} [{}]\n  {}\n  → {}",
            place.line,
            place.column,
            finding.gravity,
            finding.topic,
            place.key,
            finding.message,
            finding.mend
        )
    });
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn no_toml() {
    insta::assert_snapshot!(said("prep = \"P\"\nwhat honey\n"), @r#"
    2:6 stop syntax []
      the line `what honey` is no TOML: key with no value, expected `=`
      → write `key = "value"`, or begin the line with `#` if it is a comment
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\n[[step\ndo = \"rest\"\n"), @r"
    2:7 stop syntax []
      the line `[[step` is no TOML: unclosed array table, expected `]]`
      → write `[[step]]` on a line of its own, as many brackets after as before
    ");
    insta::assert_snapshot!(said("prep = \"P\n"), @r#"
    1:10 stop syntax []
      the line `prep = "P` is no TOML: invalid basic string, expected `"`
      → put the text between two quotes on one line: `what = "honey"`
    "#);
    insta::assert_snapshot!(said("prep = P\n"), @r#"
    1:8 stop syntax []
      the line `prep = P` is no TOML: string values must be quoted, expected literal string
      → put the text between two quotes on one line: `what = "honey"`
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"rest\"\ndo = \"rest\"\n"), @r#"
    4:1 stop syntax []
      the line `do = "rest"` is no TOML: duplicate key
      → keep one of the two, or start a new `[[line]]`, `[[step]]` or `[[garnish]]` before the second
    "#);
}

#[test]
fn no_document() {
    insta::assert_snapshot!(said(""), @r#"
    1:1 stop syntax []
      the document is empty
      → begin with `prep = "its name"`, `drink = "…"`, `ingredient = "…"` or `house = "…"`
    "#);
    insta::assert_snapshot!(said("perp = \"P\"\n"), @r#"
    1:1 stop syntax [perp]
      `perp` does not say what the document is
      → write `prep`, if that is meant: `prep = "its name"`
    "#);
    insta::assert_snapshot!(said("recipe = \"P\"\n"), @r#"
    1:1 stop syntax []
      the document does not say what it is
      → begin with `prep = "its name"`, `drink = "…"`, `ingredient = "…"` or `house = "…"`
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\ndrink = \"D\"\n"), @r"
    2:1 stop syntax [drink]
      the document says that it is a `prep` and a `drink`
      → keep one of them, and give the other its own document
    ");
    insta::assert_snapshot!(said("prep = 3\n"), @r#"
    1:8 stop syntax [prep]
      `prep` should be a name, not a number
      → write it in quotes: `prep = "…"`
    "#);
    insta::assert_snapshot!(said("drink = \"D\"\n"), @r"
    1:9 caution amount [drink]
      the drink has no lines, so there is nothing to compute
      → add a line: `[[line]]` with `what` and `amount`
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n"), @r"
    1:8 caution amount [prep]
      the prep has neither steps nor a `told` table, so there is nothing to compute
      → add a step: `[[step]]` with `do`, `what` and `amount`; or tell it from outside with `[told]`
    ");
}

#[test]
fn faulty_steps() {
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"stepe\"\n"), @r"
    3:6 stop syntax [step 1, do]
      `stepe` is no `do` that is known
      → write `steep`, if that is meant
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ntime = \"9 s\"\n"), @r#"
    2:1 stop syntax [step 1]
      the step does not say what is done
      → add `do = "…"` with a verb such as `add`, `steep`, `strain`, `shake` or `pour`
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"add\"\n"), @r#"
    3:6 stop name [step 1]
      the step `add` does not say what
      → add `what = "…"` with the name of an ingredient, a prep or a stream
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"add\"\nwhat = \"honey\"\n"), @r#"
    3:6 caution amount [step 1]
      the step `add` does not say how much
      → add `amount = "…"`, such as `240 g` or `35 % of peel`
    "#);
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"steep\"\ntime = \"overnight\"\ntemperature = \"18\"\nglass = \"tall\"\n"), @r"
    4:8 stop amount [step 1, time]
      `overnight` is a different time in every house
      → write the hours it had, such as `10 h` or `12 h`
    5:18 stop amount [step 1, temperature]
      `18` does not say whether Celsius or Fahrenheit
      → write `18 C` or `18 F`
    6:1 caution syntax [step 1, glass]
      `glass` does nothing in the step `steep`
      → it belongs to `pour` or `build`; move it there or leave it out
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"rest\"\ntemprature = \"18 C\"\n"), @r"
    4:1 caution syntax [step 1, temprature]
      nothing reads the key `temprature` here
      → write `temperature`, if that is meant; or make it a comment with `#`
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n[step]\ndo = \"rest\"\n"), @r"
    2:1 stop syntax [step]
      `step` should be a list of tables, not one table
      → start each with a line `[[step]]`, in two brackets
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"rest\"\nas = \"a\"\n[[step]]\ndo = \"rest\"\nas = \"A\"\n"), @r"
    7:6 caution name [step 2]
      the name `A` was given before, in step 1
      → give each stream its own name; later steps take the latest
    ");
    insta::assert_snapshot!(said("prep = \"P\"\n[[step]]\ndo = \"clarify\"\nby = \"magic\"\n"), @r"
    4:6 stop syntax [step 1, by]
      `magic` is no `by` that is known
      → write one of `milk`, `gel`, `fining`, `settling` or `spin`
    ");
}

#[test]
fn faulty_drinks() {
    insta::assert_snapshot!(said("drink = \"D\"\n[[line]]\nwhat = \"honey\"\namount = \"30 m\"\n"), @r"
    4:14 stop amount [line 1, amount]
      `m` is no unit
      → write `mL`, if that is meant: `30 mL`
    ");
    insta::assert_snapshot!(said("drink = \"D\"\n[[line]]\namount = \"30 mL\"\n"), @r#"
    2:1 stop name [line 1]
      the line does not say what goes in
      → add `what = "…"` with the name of an ingredient or a prep
    "#);
    insta::assert_snapshot!(said("drink = \"D\"\n[[line]]\nwhat = \"honey\"\namount = \"3 g\"\nenters = \"tpo\"\n[[step]]\ndo = \"shake\"\n[[step]]\ndo = \"top\"\n"), @r"
    5:10 caution name [line 1, enters]
      the line `honey` enters at `tpo`, but no step is called so
      → write `top`, if that is meant
    ");
    insta::assert_snapshot!(said("drink = \"D\"\nline = []\n[[garnish]]\nwhat = \"x\"\neaten = \"0.5\"\n"), @r#"
    3:1 stop syntax [garnish 1]
      the garnish does not say what is done
      → add `do = "…"` with `coat`, `crumb`, `set`, `grind`, `dust`, `torch`, `float` or `frost`
    5:9 stop amount [garnish 1, eaten]
      `0.5` does not say of how many
      → write `50 %`, if that is meant
    "#);
    insta::assert_snapshot!(said("drink = \"D\"\nline = []\n[[garnish]]\ndo = \"set\"\noptional = \"yes\"\n"), @r#"
    4:6 caution name [garnish 1]
      the garnish `set` does not say what
      → add `what = "…"`, since its allergens count
    5:12 stop syntax [garnish 1, optional]
      `optional` should be true or false, not a text
      → write `optional = true` or `optional = false`
    "#);
    insta::assert_snapshot!(said("drink = \"D\"\nline = []\nclaims = \"vegan\"\n[[brief]]\nsense = \"smelly\"\n"), @r"
    5:9 stop syntax [brief 1, sense]
      `smelly` is no `sense` that is known
      → write one of `taste`, `aroma`, `texture`, `sight` or `sound`
    ");
}

#[test]
fn what_can_be_read_in_two_ways_is_asked() {
    let line = |amount: &str| {
        said(&format!(
            "drink = \"D\"\n[[line]]\nwhat = \"honey\"\namount = \"{amount}\"\n"
        ))
    };
    insta::assert_snapshot!(line("1,500 g"), @r"
    4:10 caution amount [line 1, amount]
      `1,500 g` can be read in more than one way: the mark in `1,500` may part thousands (1500) or decimals (1.5)
      → write the one that is meant: `1500 g` or `1.5 g`
    ");
    insta::assert_snapshot!(line("one to four"), @r"
    4:10 caution amount [line 1, amount]
      `one to four` can be read in more than one way: `one to four` may be a ratio or a range
      → write the one that is meant: `25 %` or `1 – 4`
    ");
    insta::assert_snapshot!(line("15"), @r"
    4:10 caution amount [line 1, amount]
      `15` can be read in more than one way: `15` has no unit
      → write the one that is meant: `15 mL`, `15 g` or `15 pieces`
    ");
    insta::assert_snapshot!(line("1 pint"), @r"
    4:10 caution amount [line 1, amount]
      `1 pint` can be read in more than one way: the unit may be `US pint` or `imp pint`
      → write the one that is meant: `473.176473 mL` or `568.26125 mL`
    ");
    insta::assert_snapshot!(said("drink = \"D\"\nline = []\n[[step]]\ndo = \"pour\"\nover = \"one 50 mm brick\"\n"), @r"
    5:8 caution amount [step 1, over]
      no ice is counted here, since `brick` says nothing that is known about ice
      → describe it like `dry 32 mm cubes`, `one 50 mm block`, `300 g wet crushed ice` or `cubes at -18 C`
    ");
}

#[test]
fn faulty_ingredients() {
    insta::assert_snapshot!(said("ingredient = \"I\"\n"), @r#"
    1:14 caution amount [ingredient]
      nothing is said of what the ingredient is made of
      → add `like = "…"` with a similar ingredient, `strength`, `sugar`, or a `[composition]` table
    "#);
    insta::assert_snapshot!(said("ingredient = \"I\"\nstrength = \"142 %\"\nsugar = \"12 %\"\nacid = \"6 g/L nitric\"\n"), @r"
    2:12 stop amount [strength]
      `142 %` is no strength there is
      → check the number and the unit; write strength as `42 %`
    3:13 stop amount [sugar]
      `%` is no unit of sugar here
      → write sugar as `120 g/L`
    4:15 stop amount [acid]
      `nitric` is no acid that is known here
      → write `citric`, `malic`, `lactic`, `tartaric`, `acetic`, `phosphoric` or `ascorbic`
    ");
    insta::assert_snapshot!(said("ingredient = \"I\"\n[composition]\nwater = \"84 %\"\nsucrose = \"40 %\"\n"), @r"
    2:1 stop amount [composition]
      the composition adds up to 124.0 g in 100 g
      → check the numbers; the sum must not be above 100 g
    ");
    insta::assert_snapshot!(said("ingredient = \"I\"\n[[part]]\nshare = \"3 %\"\n[[part]]\nname = \"a\"\n[[part]]\nname = \"A\"\n"), @r#"
    2:1 stop name [part 1]
      the part has no name
      → add `name = "…"`, such as `peel`
    7:8 stop name [part 2, name]
      there are two parts called `A`
      → give each part its own name
    "#);
    insta::assert_snapshot!(said("ingredient = \"I\"\nlike = \"x\"\nprice = \"$24\"\nunit = \"1 fruit\"\n"), @r"
    3:9 stop amount [price]
      `$` is the money of many countries
      → write the three letters of the currency, such as `24 USD / 750 mL`
    4:8 stop amount [unit]
      `1 fruit` is no weight
      → write it like `1 fruit = 240 g`
    ");
}

#[test]
fn a_finding_is_the_same_value_everywhere() {
    let parsed_text = "drink = \"Try\"\n[[line]]\nwhat = \"honey\"\namount = \"30 m\"\n";
    let parsed = parse(&Source::new("bar/t.toml", parsed_text));
    let finding = &parsed.findings[0];
    insta::assert_snapshot!(finding.to_string(), @r"
    stop: `m` is no unit
      at bar/t.toml:4:14 (line 1, amount)
      mend: write `mL`, if that is meant: `30 mL`
    ");
    insta::assert_snapshot!(serde_json::to_string_pretty(finding).unwrap(), @r#"
    {
      "document": "Try",
      "place": {
        "path": "bar/t.toml",
        "line": 4,
        "column": 14,
        "key": "line 1, amount"
      },
      "topic": "amount",
      "gravity": "stop",
      "message": "`m` is no unit",
      "authority": null,
      "mend": "write `mL`, if that is meant: `30 mL`"
    }
    "#);
    let amount = finding.place.span;
    assert_eq!(
        &parsed_text[amount.start..amount.end],
        "m",
        "points at the unit"
    );
}
