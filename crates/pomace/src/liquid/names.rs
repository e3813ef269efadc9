//! Names of substances as people write them.

use pomace_book::names::{either, fold, nearest};
use pomace_matter::Substance;
use pomace_matter::substance::Kind;

/// The substance of that name, whatever its case; `other acids` is `other_acids`, and `citric
/// acid` is `citric`.
pub(super) fn substance(name: &str) -> Option<Substance> {
    let name = words(name);
    let named = |name: &str| {
        Substance::ALL
            .into_iter()
            .find(|one| words(one.name()) == name)
    };
    named(&name).or_else(|| {
        let acid = named(name.strip_suffix(" acid")?)?;
        (acid.kind() == Kind::Acid).then_some(acid)
    })
}

fn words(name: &str) -> String {
    fold(&name.replace(['_', '-'], " "))
}

/// Words that mean a substance but are not like its name.
const MEANT: [(&str, &str); 10] = [
    ("sugar", "sucrose"),
    ("saccharose", "sucrose"),
    ("dextrose", "glucose"),
    ("levulose", "fructose"),
    ("milk sugar", "lactose"),
    ("malt sugar", "maltose"),
    ("alcohol", "ethanol"),
    ("co2", "carbon_dioxide"),
    ("fiber", "fibre"),
    ("vitamin c", "ascorbic"),
];

/// Names of substances that may be meant by a word, best first.
pub(super) fn near(name: &str) -> Vec<&'static str> {
    let name = words(name);
    let meant = MEANT.into_iter().find(|(word, _)| *word == name);
    let mut near: Vec<&str> = meant.into_iter().map(|(_, substance)| substance).collect();
    let all = Substance::ALL.map(Substance::name);
    for found in nearest(&name.replace(' ', "_"), all, 3) {
        if !near.contains(&found) {
            near.push(found);
        }
    }
    near.truncate(3);
    near
}

/// How to mend a name that is no substance.
pub(super) fn mend(name: &str) -> String {
    if matches!(
        words(name).as_str(),
        "salt" | "table salt" | "sodium chloride"
    ) {
        return "for each gram of salt write `sodium=393.4 mg, chloride=606.6 mg`".to_owned();
    }
    match near(name).as_slice() {
        [] => "write the substances that are in it; `pomace liquid --help` lists them".to_owned(),
        near => format!("write {}, if that is meant", either(near.iter().copied())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_read_as_people_write_them() {
        for (name, expected) in [
            ("water", Substance::Water),
            ("WATER", Substance::Water),
            ("other acids", Substance::OtherAcids),
            ("Other-Acids", Substance::OtherAcids),
            ("citric acid", Substance::Citric),
            ("carbon dioxide", Substance::CarbonDioxide),
        ] {
            assert_eq!(substance(name), Some(expected), "{name}");
        }
        assert_eq!(substance("water acid"), None);
        assert_eq!(substance("acid"), None);
    }

    #[test]
    fn every_substance_answers_to_its_name_and_its_label() {
        for one in Substance::ALL {
            assert_eq!(substance(one.name()), Some(one));
            assert_eq!(substance(one.label()), Some(one));
        }
    }

    #[test]
    fn what_is_meant_comes_first() {
        assert_eq!(near("watr").first(), Some(&"water"));
        assert_eq!(near("sugar").first(), Some(&"sucrose"));
        assert_eq!(near("glucos").first(), Some(&"glucose"));
        assert!(near("xylophone").is_empty());
    }

    #[test]
    fn words_that_mean_a_substance_lead_to_one() {
        for (_, name) in MEANT {
            assert!(Substance::named(name).is_some(), "{name}");
        }
    }
}
