//! What an ingredient comes apart into: the house's shares, or the catalogue's.

use pomace_bench::Bench;
use pomace_book::demo;
use pomace_larder::Basis;

use super::book;

#[test]
fn the_houses_parts_are_those_of_its_document() {
    let book = demo::book();
    let bench = Bench::new(&book);
    let parts = bench.parts(book.by_name("quince").unwrap());
    let told: Vec<(&str, f64)> = parts
        .iter()
        .map(|part| (part.name.as_str(), part.share.as_ref().unwrap().percent))
        .collect();
    assert_eq!(
        told,
        [
            ("flesh", 66.0),
            ("peel", 12.0),
            ("core", 19.0),
            ("seeds", 3.0)
        ]
    );
    assert!(
        parts
            .iter()
            .all(|p| p.share.as_ref().unwrap().basis == Basis::Measured)
    );
    let peel = parts[1].item.as_ref().unwrap();
    let contents = peel.contents().unwrap();
    // 4.6 + 2.2 + 0.9 g of sugars, 0.75 g of malic acid.
    assert!((contents.sugar - 7.7).abs() < 1e-9 && (contents.acid - 0.75).abs() < 1e-9);
    let brix = contents.juice_brix.unwrap();
    assert!((9.0..12.0).contains(&brix), "{brix}");
    let seeds = parts[3].item.as_ref().unwrap();
    assert!(
        seeds
            .cautions
            .iter()
            .any(|caution| caution.contains("amygdalin"))
    );
    assert_eq!(
        seeds.contents().unwrap().juice_brix,
        None,
        "too dry for a refractometer"
    );
}

#[test]
fn what_the_house_does_not_tell_is_the_catalogues_or_unknown() {
    let text = |parts: &str| {
        format!("ingredient = \"yard lemon\"\nlike = \"lemon\"\nform = \"pieces\"\n{parts}")
    };
    let told = |parts: &str| {
        let book = book(&[&text(parts)]);
        let bench = Bench::new(&book);
        bench.parts(book.by_name("yard lemon").unwrap())
    };
    let parts = told("");
    let whole: f64 = parts
        .iter()
        .map(|part| part.share.as_ref().unwrap().percent)
        .sum();
    assert!((whole - 100.0).abs() < 1e-9, "{whole}");
    let of = |name: &str| parts.iter().find(|part| part.name == name).unwrap();
    assert_eq!(of("peel").share.as_ref().unwrap().basis, Basis::Typical);
    assert!(of("juice").item.as_ref().unwrap().contents().unwrap().acid > 4.0);

    let parts = told(
        "[[part]]\nname = \"peel\"\n[[part]]\nname = \"stalk\"\n[[part]]\nname = \"juice\"\nshare = \"30 to 40 %\"\n",
    );
    assert!(
        (parts[0].share.as_ref().unwrap().percent - 45.0).abs() < 1e-9,
        "the catalogue's"
    );
    assert_eq!(parts[1].share, None);
    let juice = parts[2].share.as_ref().unwrap();
    assert_eq!((juice.percent, juice.range), (35.0, Some((30.0, 40.0))));
}

#[test]
fn what_is_no_whole_has_no_parts() {
    let book = book(&["ingredient = \"tonic\"\nlike = \"water\"\n"]);
    let bench = Bench::new(&book);
    assert!(bench.parts(book.by_name("tonic").unwrap()).is_empty());
}

/// A part that only what it is like has can be called for.
#[test]
fn a_part_of_what_it_is_like_can_be_weighed() {
    let texts = [
        "ingredient = \"sunny fruit\"\nlike = \"lemon\"\n",
        "prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"sunny fruit / peel\"\namount = \"100 g\"\n",
    ];
    let made = super::make(&texts, "P");
    assert!((made.kept.pieces.total().0 - 100.0).abs() < 1e-9);
}
