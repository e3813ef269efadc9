//! Each row as exactly 100 g of matter.

use pomace_larder::{Remark, find, ingredients};
use pomace_matter::Substance;
use pomace_matter::substance::Set;

#[test]
fn mixtures_sum_to_100_grams() {
    for row in ingredients() {
        let completed = row.mixture();
        let total = completed.mixture.total().0;
        assert!((total - 100.0).abs() < 1e-9, "{}: {total}", row.id);
        assert!(completed.mixture.is_sound(), "{}", row.id);
        let told: Vec<String> = completed.remarks.iter().map(ToString::to_string).collect();
        assert!(told.iter().all(|remark| !remark.is_empty()));
    }
}

/// Scaling mends rounding and pieces of several tables; it must not hide a wrong row.
#[test]
fn nothing_is_scaled_far() {
    for row in ingredients() {
        for remark in row.mixture().remarks {
            if let Remark::ScaledDown { from } = remark {
                assert!(from < 102.5, "{}: {from}", row.id);
            }
        }
    }
}

#[test]
fn named_matter_is_kept() {
    for row in ingredients() {
        let completed = row.mixture();
        let scaled = completed
            .remarks
            .iter()
            .any(|r| matches!(r, Remark::ScaledDown { .. }));
        if scaled || row.unaccounted() < 0.0 {
            continue;
        }
        for (substance, cell) in row.cells() {
            if matches!(substance, Substance::Ash | Substance::OtherSugars) {
                continue;
            }
            let has = completed.mixture.grams(substance);
            // Carbohydrate known only by difference joins the starch.
            let more = if substance == Substance::Starch {
                (has - cell.value).max(0.0)
            } else {
                0.0
            };
            assert!(
                (has - more - cell.value).abs() < 0.05,
                "{} {substance}: {has}",
                row.id
            );
        }
    }
}

/// Table salt is sodium chloride but for a little: molar masses 22.990 and 35.45.
#[test]
fn salt_gets_its_chloride() {
    let salt = find("salt").unwrap().mixture();
    let (sodium, chloride) = (
        salt.mixture.grams(Substance::Sodium),
        salt.mixture.grams(Substance::Chloride),
    );
    assert!((chloride / sodium - 35.45 / 22.990).abs() < 1e-9);
    assert!(sodium + chloride > 98.0);
    assert!(
        salt.remarks
            .iter()
            .any(|r| matches!(r, Remark::ChlorideAssumed { .. }))
    );

    for name in ["soy sauce", "umeboshi", "miso"] {
        assert!(
            find(name)
                .unwrap()
                .mixture()
                .mixture
                .grams(Substance::Chloride)
                > 3.0,
            "{name}"
        );
    }
    for name in ["umeshu", "baking soda", "orange juice"] {
        let chloride = find(name)
            .unwrap()
            .mixture()
            .mixture
            .grams(Substance::Chloride);
        assert!(chloride.abs() < 1e-12, "{name}");
    }
}

#[test]
fn ions_come_off_ash() {
    let juice = find("orange juice").unwrap();
    let mixture = juice.mixture().mixture;
    let table = juice.cell(Substance::Ash).unwrap().value;
    let ions = mixture.sum(Set::IONS) - mixture.grams(Substance::Chloride);
    assert!(ions > 0.2);
    assert!((mixture.grams(Substance::Ash) + ions - table).abs() < 1e-9);
}

#[test]
fn unsplit_sugars_are_other_sugars() {
    let liqueur = find("coffee liqueur").unwrap();
    let completed = liqueur.mixture();
    let sum = liqueur.sugars_unsplit.unwrap().value;
    assert!((completed.mixture.grams(Substance::OtherSugars) - sum).abs() < 0.1);
    assert!(
        completed
            .remarks
            .iter()
            .any(|r| matches!(r, Remark::SugarsUnsplit { .. }))
    );
}

#[test]
fn unknown_stays_unknown() {
    let pod = find("vanilla pod").unwrap().mixture();
    assert_eq!(pod.remarks, [Remark::NothingKnown]);
    let cherry = find("sour cherry").unwrap();
    assert!(cherry.cell(Substance::Malic).is_none());
    assert!(cherry.mixture().remarks.contains(&Remark::AcidsUnknown));
    let powder = find("lactic acid powder").unwrap().mixture();
    assert!(powder.remarks.contains(&Remark::WaterUnknown));
    assert!(powder.mixture.grams(Substance::Water).abs() < 1e-12);
}

#[test]
fn spirits_hold_their_strength() {
    // OIML R 22: 40 %vol at 20 °C is 948.05 kg/m3; ethanol 789.24 kg/m3: 33.30 g in 100 g.
    let spirit = find("gin").unwrap().mixture();
    assert!((spirit.mixture.grams(Substance::Ethanol) - 33.30).abs() < 0.02);
}
