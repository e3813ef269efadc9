//! `pomace liquid --csv`: tables in and out, good rows and bad ones.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{Command, Stdio};

use pomace_matter::liquid::Property;

use crate::{Run, file, pomace, run};

fn table(input: impl Into<Vec<u8>>) -> Run {
    run(pomace()
        .args(["liquid", "--csv", "-"])
        .write_stdin(input.into()))
}

fn records(out: &str) -> Vec<csv::StringRecord> {
    csv::Reader::from_reader(out.as_bytes())
        .records()
        .map(Result::unwrap)
        .collect()
}

#[test]
fn the_answer_has_all_columns() {
    let ran = table("glass,water,Ethanol,other acids,celsius\n1,60,24,1,4\n");
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let head = ran.out.lines().next().unwrap();
    let figures = Property::ALL.map(Property::name).join(",");
    assert_eq!(
        head,
        format!("glass,water,Ethanol,other acids,celsius,{figures},notes")
    );
}

#[test]
fn good_and_bad_rows() {
    let ran = table(
        "name,water,ethanol,citric acid,celsius\n\
         sour,60,24,1,4\n\
         slips,abc,-1,nan,warm\n\
         \"plain, warm\",\"60,5\",,,\n\
         nothing,0,,,\n\
         strong,1,99,,\n\
         endless,inf,1e999,\"1,500\",-300\n",
    );
    assert_eq!(ran.code, 2);
    insta::with_settings!({filters => crate::FEWER_DIGITS}, {
        insta::assert_snapshot!(format!("{}---\n{}", ran.out, ran.err));
    });
}

#[test]
fn a_bad_cell_is_named_with_row_column_and_value() {
    let ran = table("water,sucrose\n1,2\n1,abc\n3,4\n");
    let rows = records(&ran.out);
    assert_eq!(rows.len(), 3);
    let bad = &rows[1];
    assert!(bad.iter().skip(2).take(Property::COUNT).all(str::is_empty));
    assert_eq!(&bad[bad.len() - 1], "row 2, sucrose: `abc` is no number");
    assert!(ran.err.contains("1 of 3 rows"), "{}", ran.err);
    assert_eq!(ran.code, 2);
}

#[test]
fn a_row_is_the_same_liquid_as_its_list() {
    let ran = table("water,ethanol,sucrose,citric\n60,24,10,1\n");
    let row = records(&ran.out).remove(0);
    let answer = run(pomace().args([
        "liquid",
        "water=60, ethanol=24, sucrose=10, citric=1",
        "--json",
    ]));
    let answer: serde_json::Value = serde_json::from_str(&answer.out).unwrap();
    for (at, property) in Property::ALL.into_iter().enumerate() {
        let number: f64 = row[4 + at].parse().unwrap();
        assert_eq!(answer[property.name()]["value"], number, "{property}");
    }
}

#[test]
fn numbers_are_bare_and_density_comes_to_a_ten_thousandth() {
    let ran = table("water,sucrose\n60,41.7\n");
    let row = records(&ran.out).remove(0);
    let density = &row[2];
    assert!(density.split('.').nth(1).unwrap().len() >= 4, "{density}");
    assert!(
        row.iter()
            .skip(2)
            .take(Property::COUNT)
            .all(|cell| !cell.contains('e')),
        "{row:?}"
    );
}

#[test]
fn the_option_gives_the_temperature_where_the_table_does_not() {
    let densities = |args: &[&str], input: &str| -> Vec<String> {
        let ran = run(pomace()
            .args(["liquid", "--csv", "-"])
            .args(args)
            .write_stdin(input));
        let head = csv::Reader::from_reader(ran.out.as_bytes())
            .headers()
            .cloned()
            .unwrap();
        let at = head
            .iter()
            .position(|title| title == "density_kg_per_m3")
            .unwrap();
        records(&ran.out)
            .iter()
            .map(|row| row[at].to_owned())
            .collect()
    };
    let at_4 = densities(&["--celsius", "4"], "water\n1\n").remove(0);
    let at_20 = densities(&[], "water\n1\n").remove(0);
    assert_ne!(at_4, at_20);
    assert_eq!(
        densities(&[], "water,celsius\n1,\n1,4\n"),
        [at_20.clone(), at_4.clone()]
    );
    assert_eq!(
        densities(&["--celsius", "4"], "water,celsius\n1,\n1,20\n"),
        [at_4, at_20]
    );
}

#[test]
fn doubtful_columns_are_warned_of() {
    let ran = table("water,watr,ph,glass\n1,2,3.1,tall\n");
    assert_eq!(ran.code, 0);
    assert!(
        ran.err
            .contains("`watr` is passed through; if it holds grams, name it `water`")
    );
    assert!(ran.err.contains("a column `ph` already"));
    assert!(!ran.err.contains("glass"));
}

#[test]
fn what_is_no_table_is_refused_with_its_line() {
    let endless = format!("water,note\n1,a\n1,\"{}", "a\n".repeat(2_000_000));
    for (input, told, place) in [
        ("", "the table is empty", "line 1"),
        (
            "a,b\n1,2\n",
            "no column is named like a substance",
            "line 1",
        ),
        (
            "water;ethanol\n1;2\n",
            "part the columns with commas",
            "line 1",
        ),
        ("water,x,WATER\n1,2,3\n", "which is there already", "line 1"),
        (
            "water,x\n1,2\n\n3\n",
            "the row has 1 column, but the first row names 2",
            "line 4",
        ),
        (
            "water,x\r\n1,2\r\n\r\n3,4,5\r\n",
            "the row has 3 columns",
            "line 4",
        ),
        ("water,x\n1,\"a\nb\"\n3\n", "the row has 1 column", "line 4"),
        ("water,x\n1,2\n1,\0\n", "zero byte", "line 3"),
        (&endless, "the row has more than", "line 3"),
    ] {
        let ran = table(input);
        let shown: String = input.chars().take(40).collect();
        assert_eq!(ran.code, 2, "{shown}");
        assert!(ran.err.contains(told), "{shown}: {}", ran.err);
        assert!(
            ran.err.contains(&format!("at standard input, {place}\n")),
            "{shown}: {}",
            ran.err
        );
    }
}

#[test]
fn texts_in_other_encodings_and_binary_files_are_refused() {
    let latin = table(b"water,x\r\n1,a\r\n2,caf\xe9\r\n".to_vec());
    assert_eq!(latin.code, 2);
    assert!(
        latin
            .err
            .contains("column 2 is no UTF-8 text\n  at standard input, line 3"),
        "{}",
        latin.err
    );
    let wide: Vec<u8> = "water\n1\n"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    assert!(table(wide).err.contains("zero byte"));
    let mut seed = 7_u32;
    let noise: Vec<u8> = std::iter::repeat_with(|| {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (seed >> 24) as u8
    })
    .take(300_000)
    .collect();
    let ran = table(noise);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
}

#[test]
fn fifty_megabytes_without_a_line_are_given_up_early() {
    let path = file("endless.csv", &vec![b'a'; 50_000_000]);
    let ran = run(pomace().args(["liquid", "--csv"]).arg(&path));
    std::fs::remove_file(path).unwrap();
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("the row has more than"), "{}", ran.err);
}

#[test]
fn files_that_cannot_be_opened() {
    for path in ["no/such/file.csv", "tests"] {
        let ran = run(pomace().args(["liquid", "--csv", path]));
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{path}");
        assert!(ran.err.contains(path), "{}", ran.err);
    }
}

#[test]
fn five_thousand_rows_run_through() {
    let rows: String = (0..5000)
        .map(|row| format!("{row},{},{},{}\n", 50 + row % 40, row % 30, (row * 7) % 25))
        .collect();
    let ran = table(format!("id,water,ethanol,sucrose\n{rows}"));
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let rows = records(&ran.out);
    assert_eq!(rows.len(), 5000);
    assert!(
        rows.iter()
            .enumerate()
            .all(|(at, row)| row[0] == at.to_string())
    );
}

#[test]
fn each_row_is_answered_before_the_next_is_sent() {
    let mut child = Command::new(assert_cmd::cargo::cargo_bin("pomace"))
        .args(["liquid", "--csv", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut to = child.stdin.take().unwrap();
    let mut from = BufReader::new(child.stdout.take().unwrap()).lines();
    to.write_all(b"water,sucrose\n1,2\n").unwrap();
    assert!(
        from.next()
            .unwrap()
            .unwrap()
            .starts_with("water,sucrose,density")
    );
    assert!(from.next().unwrap().unwrap().starts_with("1,2,"));
    to.write_all(b"3,4\n").unwrap();
    assert!(from.next().unwrap().unwrap().starts_with("3,4,"));
    drop(to);
    assert!(child.wait().unwrap().success());
}

#[test]
fn a_reader_that_leaves_early_is_no_fault() {
    let rows = "60,5\n".repeat(20_000);
    let path = file("many.csv", format!("water,sucrose\n{rows}").as_bytes());
    let mut child = Command::new(assert_cmd::cargo::cargo_bin("pomace"))
        .args(["liquid", "--csv"])
        .arg(path)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let ended = child.wait_with_output().unwrap();
    assert!(ended.status.success());
    assert!(
        ended.stderr.is_empty(),
        "{}",
        String::from_utf8_lossy(&ended.stderr)
    );
}
