//! Names such as a house gives to its drinks, and what people type to find them; both made up, and the
//! same each time.

use std::collections::HashSet;

/// Queries of a kind, each another one.
const QUERIES: usize = 300;

const FIRST: [&str; 24] = [
    "Smoked", "Second", "Salted", "Slack", "Early", "Burnt", "Pressed", "Grey", "Old", "Late",
    "Wild", "Bitter", "Little", "Winter", "Double", "Tidal", "Stone", "Sunday", "Cleared", "Long",
    "Frozen", "Sill", "Ebb", "Orchard",
];
const LAST: [&str; 20] = [
    "shrub",
    "cordial",
    "fizz",
    "sour",
    "spritz",
    "highball",
    "soda",
    "julep",
    "cup",
    "punch",
    "flip",
    "cooler",
    "brine",
    "leather",
    "foam",
    "vinegar",
    "and whey",
    "with smoke",
    "after rain",
    "Crème",
];

/// So many different names.
pub(crate) fn names(count: usize) -> Vec<String> {
    let larder = pomace_larder::ingredients();
    let mut draw = Draw(1);
    let mut seen = HashSet::new();
    let mut names = Vec::new();
    while names.len() < count {
        let (first, last) = (draw.of(&FIRST), draw.of(&LAST));
        let bare = draw.of(larder).name.split(',').next().unwrap_or_default();
        let name = match draw.below(4) {
            0 => format!("{bare} {last}"),
            1 => format!("{first} {bare}"),
            _ => format!("{first} {bare} {last}"),
        };
        // The second of a name has its year.
        let name = if seen.contains(&name) {
            format!("{name} {}", 1990 + draw.below(40))
        } else {
            name
        };
        if seen.insert(name.clone()) {
            names.push(name);
        }
    }
    names
}

/// What is typed, by kind.
pub(crate) fn queries(names: &[String]) -> Vec<(&'static str, Vec<String>)> {
    type Make = fn(&mut Draw, &str, &str) -> String;
    let kinds: [(&str, Make); 10] = [
        ("whole names", |_, name, _| name.to_owned()),
        ("whole words", |draw, name, _| draw.word(name)),
        ("beginnings", |draw, name, _| {
            let most = 1 + draw.below(8);
            name.chars().take(most).collect()
        }),
        ("pieces within words", |draw, name, _| {
            let from = 1 + draw.below(3);
            let count = 3 + draw.below(3);
            draw.word(name).chars().skip(from).take(count).collect()
        }),
        ("one slip", Draw::slipped),
        ("two slips", |draw, name, other| {
            let once = draw.slipped(name, other);
            draw.slipped(&once, other)
        }),
        ("words of two names", |draw, name, other| {
            format!(
                "{} {} {}",
                draw.word(other),
                draw.word(name),
                draw.word(other)
            )
        }),
        ("what is not there", |draw, _, _| {
            let count = 2 + draw.below(10);
            (0..count).map(|_| draw.letter()).collect()
        }),
        ("letters beyond ASCII", |draw, name, _| {
            match draw.below(3) {
                0 => name.replace('e', "é").replace('u', "ü"),
                1 => format!("{} 桃", draw.word(name)),
                _ => name
                    .chars()
                    .rev()
                    .map(|letter| if letter == 'a' { 'ą' } else { letter })
                    .collect(),
            }
        }),
        ("very long", |draw, name, other| {
            let mut long = String::new();
            while long.len() < 2_000 {
                long = format!("{long}{} {} ", draw.slipped(name, other), draw.letter());
            }
            long
        }),
    ];
    let mut draw = Draw(2);
    kinds
        .into_iter()
        .map(|(kind, make)| {
            let queries = (0..QUERIES).map(|_| {
                let (name, other) = (draw.of(names).clone(), draw.of(names).clone());
                make(&mut draw, &name, &other)
            });
            (kind, queries.collect())
        })
        .collect()
}

/// Numbers that look drawn: a linear congruence, Knuth's constants.
struct Draw(u64);

impl Draw {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or_default() % most
    }

    fn of<'a, T>(&mut self, some: &'a [T]) -> &'a T {
        let at = self.below(some.len());
        &some[at]
    }

    fn letter(&mut self) -> char {
        char::from(b'a' + u8::try_from(self.below(26)).unwrap_or_default())
    }

    fn word(&mut self, name: &str) -> String {
        let words: Vec<&str> = name.split(' ').collect();
        (*self.of(&words)).to_owned()
    }

    /// A letter lost, doubled, another, or before the one it follows.
    fn slipped(&mut self, name: &str, _: &str) -> String {
        let mut letters: Vec<char> = name.chars().collect();
        let at = self.below(letters.len().max(2) - 1);
        match self.below(4) {
            0 => drop(letters.remove(at)),
            1 => letters.insert(at, self.letter()),
            2 => letters[at] = self.letter(),
            _ => letters.swap(at, at + 1),
        }
        letters.into_iter().collect()
    }
}
