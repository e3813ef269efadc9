//! Every row of `tests/reference/*.csv`, judged by `MANIFEST.csv` and, where it leaves rows out, by
//! `MANIFEST-own.csv`.

mod manifest;
mod tables;

use manifest::{Group, Row, folder, groups, own_groups, rows};

/// Prints the errors of all groups of a table; fails if a gated row is outside its tolerance.
fn judge(file: &str, compute: impl Fn(&Row, &str) -> Option<f64>) {
    let rows = rows(file);
    let mut faults = Vec::new();
    println!("\n{file}");
    println!(
        "{:<72} {:<24} {:>4} {:>11} {:>11} {:>10}",
        "rows", "quantity", "n", "max", "rms", "tolerance"
    );
    for group in groups()
        .iter()
        .chain(&own_groups())
        .filter(|g| g.file == file)
    {
        let chosen: Vec<&Row> = rows.iter().filter(|r| group.selects(r)).collect();
        assert_eq!(
            chosen.len(),
            group.rows,
            "{file}: `{}` selects another number of rows",
            group.selector
        );
        if group.gravity == "outside" {
            continue;
        }
        for (quantity, tolerance) in &group.quantities {
            let errors: Vec<(f64, f64, &Row)> = chosen
                .iter()
                .filter_map(|row| {
                    let table = row.number(quantity)?;
                    match compute(row, quantity) {
                        Some(value) => Some((value - table, table, *row)),
                        None if group.gravity == "gate" => {
                            panic!("{file}: no {quantity} for {row:?}")
                        }
                        None => None,
                    }
                })
                .collect();
            report(group, quantity, tolerance.as_ref(), &errors, &mut faults);
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn report(
    group: &Group,
    quantity: &str,
    tolerance: Option<&(f64, String)>,
    errors: &[(f64, f64, &Row)],
    faults: &mut Vec<String>,
) {
    let relative = tolerance.is_some_and(|(_, unit)| unit == "%rel");
    let size = |e: f64, table: f64| if relative { 100.0 * e / table } else { e };
    let worst = errors
        .iter()
        .fold(0.0_f64, |m, (e, t, _)| m.max(size(*e, *t).abs()));
    let sum: f64 = errors.iter().map(|(e, t, _)| size(*e, *t).powi(2)).sum();
    let rms = (sum / errors.len().max(1) as f64).sqrt();
    let shown = tolerance.map_or("print".to_owned(), |(v, unit)| format!("{v} {unit}"));
    println!(
        "{:<72} {:<24} {:>4} {:>11.6} {:>11.6} {:>10}",
        group.selector,
        quantity,
        errors.len(),
        worst,
        rms,
        shown
    );
    if let Some((limit, unit)) = tolerance {
        for (e, t, row) in errors {
            if size(*e, *t).is_nan() || size(*e, *t).abs() > *limit {
                faults.push(format!(
                    "{}: {quantity} off by {:.6} {unit}: {row:?}",
                    group.selector,
                    size(*e, *t)
                ));
            }
        }
    }
}

/// A table in the folder that nothing reads is dead weight; a line of the manifest without a table
/// checks nothing.
#[test]
fn every_table_is_read() {
    let mut files: Vec<String> = std::fs::read_dir(folder())
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .filter(|f| f.ends_with(".csv") && !f.starts_with("MANIFEST"))
        .collect();
    files.sort();
    let own = [
        "iapws95-water-density.csv",
        "mcilvaine-1921-citrate-phosphate-ph.csv",
        "us-gauging-obscuration.csv",
    ];
    for file in &files {
        if own.contains(&file.as_str()) {
            continue;
        }
        let lines: Vec<_> = groups().into_iter().filter(|g| g.file == *file).collect();
        assert!(
            !lines.is_empty(),
            "{file} stands in no line of MANIFEST.csv"
        );
        for row in rows(file) {
            let times = lines.iter().filter(|g| g.selects(&row)).count();
            assert_eq!(times, 1, "{file}: a row stands in {times} lines: {row:?}");
        }
    }
    for group in groups().into_iter().chain(own_groups()) {
        assert!(
            files.contains(&group.file),
            "MANIFEST.csv names {}, which is not here",
            group.file
        );
    }
}
