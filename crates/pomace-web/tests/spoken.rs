//! What a person reads on a page, whatever is wrong with a book: never the file that it is written as.

use axum::body::Body;
use axum::http::{StatusCode, header};
use pomace_book::Verb;
use pomace_web::Server;
use serde_json::json;

use crate::pairing::{HERE, get, open, post, request, send};

/// Signs that only a file, a command line or a program's own words have.
const OF_A_FILE: &[&str] = &["`", "‹", "›", "[[", "]]", " = \"", "--", "TOML", "_", "\\"];

/// What nobody can measure, in many ways, and words that lead nowhere.
const BAD: &[&str] = &[
    "",
    " ",
    "a splash",
    "top up",
    "some",
    "15",
    "-3 g",
    "0 mL",
    "1,500 g",
    "one to four",
    "4 to 1 g",
    "1 g to 3 mL",
    "1:0",
    "1:5",
    "5 m",
    "12 boxs",
    "40 mL of it all",
    "to taste, boldly",
    "3 heaped tbsp",
    "2 parts",
    "5 g/L of juice",
    "300 % of peel",
    "35 % of peel",
    "35 % of",
    "overnight",
    "30",
    "30 min to 2 h",
    "room",
    "18",
    "9000 C",
    "18 C to 20 C",
    "half-ish",
    "120 %",
    "0.12",
    "3 bar",
    "40 Brix",
    "lactik",
    "shak",
    "tall",
    "99999 kg",
    "pH 40",
    "not stated",
    "24 $",
    "quinze",
    "gin, 4000 %",
    "3 quinces",
    "2 slices",
];

fn keys(of: &[&str], value: &str) -> String {
    let lines = of.iter().map(|key| format!("{key} = \"{value}\"\n"));
    lines.collect()
}

const OF_A_STEP: &[&str] = &[
    "what",
    "amount",
    "as",
    "through",
    "keep",
    "by_product",
    "time",
    "temperature",
    "loss",
    "to",
    "to_moisture",
    "with",
    "by",
    "fat",
    "kind",
    "sugar_used",
    "gas",
    "pressure",
    "in",
    "ice",
    "glass",
    "over",
    "note",
];

/// Documents in which nearly everything is wrong, and some that only a file can hold.
fn faulty() -> Vec<(&'static str, String)> {
    let mut texts = Vec::new();
    for bad in BAD {
        texts.push(("drink", format!(
            "drink = \"D\"\nclaims = [\"{bad}\"]\n[range]\nof = \"{bad}\"\nsourness = \"{bad}\"\n[[line]]\nwhat = \"quince\"\namount = \"{bad}\"\nenters = \"{bad}\"\n\
             [[line]]\nwhat = \"{bad}\"\namount = \"40 mL\"\n[[line]]\nwhat = \"honey\"\n\
             [[step]]\ndo = \"shake\"\ntime = \"{bad}\"\nice = \"{bad}\"\n[[step]]\ndo = \"pour\"\nglass = \"{bad}\"\nover = \"{bad}\"\n\
             [[garnish]]\ndo = \"set\"\nwhat = \"{bad}\"\namount = \"{bad}\"\neaten = \"{bad}\"\nlead = \"{bad}\"\n\
             [[brief]]\nnote = \"{bad}\"\nsense = \"{bad}\"\ncarried_by = [\"{bad}\"]\n\
             [[trial]]\nname = \"{bad}\"\n[[trial.change]]\nline = \"{bad}\"\namount = \"{bad}\"\n[[trial]]\nname = \"t\"\n[[trial.change]]\nline = 3\namount = \"{bad}\"\n"
        )));
        texts.push(("ingredient", format!(
            "ingredient = \"I\"\n{}unit = \"1 = {bad}\"\nallergens = [\"{bad}\"]\n[composition]\nsugar = \"{bad}\"\nnonsense = \"3 g\"\n[[part]]\nname = \"{bad}\"\nshare = \"{bad}\"\n",
            keys(&["like", "strength", "sugar", "acid", "ph", "brix", "density", "form", "price", "pack"], bad)
        )));
        texts.push((
            "prep",
            format!(
                "prep = \"P\"\n[told]\n{}readings = [\"{bad}\"]\n",
                keys(
                    &[
                        "base",
                        "base_amount",
                        "solid",
                        "solid_amount",
                        "time",
                        "temperature",
                        "strength",
                        "sugar"
                    ],
                    bad
                )
            ),
        ));
    }
    for (at, verb) in Verb::ALL.iter().enumerate() {
        for bad in BAD.iter().skip(at % 3).step_by(3) {
            let step = format!("[[step]]\ndo = \"{}\"\n", verb.word());
            texts.push(("prep", format!("prep = \"P\"\n[[step]]\ndo = \"weigh\"\nwhat = \"quince / peel\"\namount = \"100 g\"\nas = \"peel\"\n{step}{step}{}", keys(OF_A_STEP, bad))));
        }
    }
    for of_a_file in [
        "drink = \"D\"\n[[line]\nwhat = \"gin, 40 %\"\n",
        "drink = \"D\"\nwhat = honey\n",
        "drink = \"D\"\n[[line]]\nwhat = \"honey\"\nwhat = \"honey\"\n",
        "drink = \"D\"\nline = 3\nstep = \"shake\"\n[garnish]\ndo = \"set\"\n",
        "drink = \"D\"\nnote = [1, 2]\nclaims = 3\n[[line]]\nwhat = 5\namount = [1]\nspan = \"x\"\n[[step]]\ntime = true\n[[garnish]]\nwhat = \"x\"\noptional = \"yes\"\n",
        "drink = \"D\"\nprep = \"P\"\n",
        "drinks = \"D\"\n",
        "drink = \"\"\n",
        "just words\n",
        "drink = \"D\"\n[[step]]\n[[trial]]\n[[trial.change]]\n[[trial.line]]\namount = true\n",
    ] {
        texts.push(("drink", of_a_file.to_owned()));
    }
    texts
}

/// The texts of the demo, each broken where nobody expects it.
fn broken() -> Vec<(&'static str, String)> {
    let book = pomace_book::demo::book();
    let mut lot: u64 = 20_261_126;
    let mut draw = |below: usize| {
        lot = lot
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(lot >> 33).unwrap() % below
    };
    let mut texts = Vec::new();
    for (id, document) in book.documents() {
        for _ in 0..12 {
            let mut signs: Vec<char> = book.source(id).unwrap().text.chars().collect();
            for _ in 0..=draw(3) {
                let at = draw(signs.len());
                match draw(3) {
                    0 => drop(signs.drain(at..(at + 1 + draw(9)).min(signs.len()))),
                    1 => signs.insert(at, ['"', '[', ']', '=', 'x', '7', '%', ',', '\n'][draw(9)]),
                    _ => {
                        let other = draw(signs.len());
                        signs.swap(at, other);
                    }
                }
            }
            texts.push((document.kind(), signs.into_iter().collect()));
        }
    }
    texts
}

/// What is seen and heard of a page: its words, and those of the attributes that are read out; not the text
/// that its script works on, nor the file that a fold offers to take along.
fn visible(page: &str) -> String {
    let mut rest = page.to_owned();
    for (from, to) in [
        ("<pre id=\"text\"", "</pre>"),
        ("<pre class=\"text\"", "</pre>"),
        ("<script", ">"),
        ("<style", "</style>"),
    ] {
        while let Some((before, after)) = rest.split_once(from) {
            let behind = after.split_once(to).map_or("", |(_, behind)| behind);
            rest = format!("{before} {behind}");
        }
    }
    let mut seen = String::new();
    for piece in rest.split('<') {
        let (tag, words) = piece.split_once('>').unwrap_or(("", piece));
        for attribute in ["placeholder=\"", "aria-label=\"", "title=\"", "alt=\""] {
            if let Some((_, value)) = tag.split_once(attribute) {
                seen.push_str(value.split('"').next().unwrap());
                seen.push('\n');
            }
        }
        seen.push_str(words);
    }
    for (name, sign) in [
        ("&quot;", "\""),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&amp;", "&"),
    ] {
        seen = seen.replace(name, sign);
    }
    seen
}

fn is_fit_to_read(page: &str, what: &str) {
    let seen = visible(page);
    for sign in OF_A_FILE {
        if let Some(at) = seen.find(sign) {
            let from = seen.floor_char_boundary(at.saturating_sub(160));
            let to = seen.floor_char_boundary(at + 160);
            panic!("{sign} is to be read: …{}…\nin {what}", &seen[from..to]);
        }
    }
}

/// Keeps a text under a name, and gives the id.
async fn kept(server: &Server, kind: &str, name: &str, text: &str) -> String {
    let made = post(
        server,
        HERE,
        "/new",
        &format!("kind={kind}&name={name}"),
        None,
    )
    .await;
    assert_eq!(made.status, StatusCode::SEE_OTHER, "{}", made.text);
    let page = made.headers[header::LOCATION].to_str().unwrap();
    let id = page.rsplit('/').next().unwrap().to_owned();
    let body = json!({ "text": text, "based_on": 1, "token": name.to_lowercase() });
    let path = format!("/d/{id}/save");
    let save = request(server, "POST", &path, None).map(|_| Body::from(body.to_string()));
    let mut save = save;
    save.headers_mut()
        .insert(header::CONTENT_TYPE, "application/json".parse().unwrap());
    let answer = send(server, HERE, save).await;
    assert_eq!(answer.status, StatusCode::OK, "{}\n{text}", answer.text);
    id
}

async fn all_fit(texts: Vec<(&'static str, String)>) {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    for (at, (kind, text)) in texts.iter().enumerate() {
        // A book is of one house.
        let (alone, apart) = (tempfile::tempdir().unwrap(), *kind == "house");
        let server = if apart {
            &open(alone.path(), None).await
        } else {
            &server
        };
        let id = kept(server, kind, &format!("N{at}"), text).await;
        let room = match *kind {
            "drink" => "drinks",
            "prep" => "preps",
            "house" => "house",
            _ => "ingredients",
        };
        for path in [
            format!("/{room}/{id}"),
            format!("/bar/{id}"),
            format!("/d/{id}/history"),
            format!("/d/{id}/trials"),
        ] {
            let page = get(server, HERE, &path, None).await;
            is_fit_to_read(&page.text, &format!("{path} of\n{text}"));
        }
    }
}

#[tokio::test]
async fn whatever_is_wrong_no_page_speaks_of_the_file() {
    all_fit(faulty()).await;
}

#[tokio::test]
async fn nor_does_one_of_a_document_that_was_broken_anywhere() {
    all_fit(broken()).await;
}

#[tokio::test]
async fn nor_does_any_page_of_the_demo() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let empty = get(&server, HERE, "/", None).await;
    is_fit_to_read(&empty.text, "the first page of an empty book");
    post(&server, HERE, "/demo", "", None).await;
    let mut paths: Vec<String> = [
        "/",
        "/drinks",
        "/preps",
        "/ingredients",
        "/find?words=quince",
        "/find?words=zzxqj",
        "/new",
        "/new?kind=prep",
        "/new?kind=ingredient",
        "/look",
        "/devices",
        "/nowhere",
        "/drinks/nowhere",
    ]
    .map(str::to_owned)
    .into();
    for room in ["/drinks", "/preps", "/ingredients", "/find?words=sill"] {
        let page = get(&server, HERE, room, None).await.text;
        for link in page
            .split("href=\"")
            .skip(1)
            .filter_map(|rest| rest.split('"').next())
        {
            let id = link.rsplit('/').next().unwrap();
            if id.len() == 16 && !paths.iter().any(|path| path == link) {
                paths.extend([
                    link.to_owned(),
                    format!("/bar/{id}"),
                    format!("/d/{id}/history"),
                    format!("/d/{id}/trials"),
                ]);
            }
        }
    }
    assert!(paths.len() > 60, "{paths:?}");
    for path in paths {
        let page = get(&server, HERE, &path, None).await;
        is_fit_to_read(&page.text, &path);
    }
}

#[tokio::test]
async fn what_is_asked_wrongly_is_answered_in_words_too() {
    let folder = tempfile::tempdir().unwrap();
    let server = open(folder.path(), None).await;
    let id = kept(&server, "drink", "N", "drink = \"N\"\n").await;
    for path in [
        format!("/bar/{id}?rounds=many"),
        format!("/drinks/{id}?in=buckets"),
    ] {
        let answer = get(&server, HERE, &path, None).await;
        assert_eq!(answer.status, StatusCode::BAD_REQUEST, "{path}");
        assert!(answer.text.contains("try once more"), "{}", answer.text);
        is_fit_to_read(&answer.text, &path);
    }
    for (path, form) in [
        (format!("/d/{id}/change"), "do=set"),
        (format!("/d/{id}/trials"), "name=t"),
        (format!("/d/{id}/history"), ""),
        (
            format!("/d/{id}/change"),
            "based_on=1&do=set&list=span&key=x",
        ),
        (
            format!("/d/{id}/change"),
            "based_on=1&do=set&key=drink&value=x",
        ),
        (
            format!("/d/{id}/change"),
            "based_on=1&do=set&list=line&at=7&key=amount&value=x",
        ),
        (
            format!("/d/{id}/trials"),
            "based_on=1&name=t&item=nothing&amount=a+splash",
        ),
    ] {
        let answer = post(&server, HERE, &path, form, None).await;
        assert!(answer.status.is_client_error(), "{path} {form}");
        assert!(
            answer.text.contains("<h1>"),
            "{path} {form}: {}",
            answer.text
        );
        is_fit_to_read(&answer.text, &format!("{path} {form}"));
    }
}

#[test]
fn the_check_finds_what_it_looks_for() {
    let page = "<p>a<b>b</b></p><pre id=\"text\" hidden>[[line]]</pre><input value=\"x\" placeholder=\"such as &quot;y&quot;\">";
    assert_eq!(visible(page).replace('\n', ""), "ab such as \"y\"");
    assert!(std::panic::catch_unwind(|| is_fit_to_read("<p>add `amount`</p>", "")).is_err());
}
