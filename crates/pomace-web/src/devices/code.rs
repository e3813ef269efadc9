//! The code that lets one device in: short enough to type, gone after ten minutes or one use.
//!
//! 18 signs in six places make 34 million codes. Five wrong tries a minute are fifty in the life of a code, so
//! whoever guesses has one chance in 680,000; the desk counts all devices together, since one that guesses may
//! call itself many.

use std::collections::VecDeque;
use std::time::Duration;

use subtle::ConstantTimeEq as _;
use tokio::time::Instant;

/// Letters and digits without those that are read for one another (B 8, I 1 L, O 0 Q D, S 5, Z 2, G 6),
/// and without A, E and U, so that a code spells no word.
const SIGNS: &[u8; 18] = b"CFHJKMNPRTVWXY3479";
/// Signs of a code.
pub(crate) const LENGTH: usize = 6;
/// How long a code holds.
const LASTS: Duration = Duration::from_secs(600);
/// So many wrong codes are heard out in the time below; after that none is.
const WRONG_TRIES: usize = 5;
/// See above.
const PAUSE: Duration = Duration::from_secs(60);

/// A code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Code(String);

impl Code {
    fn draw() -> Result<Self, getrandom::Error> {
        let mut code = String::new();
        while code.len() < LENGTH {
            let [lot] = drawn()?;
            // Lots past the last whole round would favour the first signs.
            let rounds = 256 / SIGNS.len();
            if let Some(sign) = SIGNS.get(usize::from(lot) % SIGNS.len())
                && usize::from(lot) < rounds * SIGNS.len()
            {
                code.push(char::from(*sign));
            }
        }
        Ok(Self(code))
    }

    /// Reads what was typed: small letters are meant large, gaps and strokes not at all.
    pub(crate) fn read(typed: &str) -> Option<Self> {
        let typed = typed.trim();
        let is_gap = |sign: char| sign == '-' || sign.is_whitespace();
        let signs = typed.chars().filter(|sign| !is_gap(*sign));
        let code: String = signs
            .map(|sign| sign.to_ascii_uppercase())
            .take(LENGTH + 1)
            .collect();
        let is_code = code.len() == LENGTH && code.bytes().all(|sign| sign.is_ascii_alphanumeric());
        is_code.then_some(Self(code))
    }

    pub(crate) fn as_str(&self) -> &str {
        &self.0
    }
}

fn drawn<const N: usize>() -> Result<[u8; N], getrandom::Error> {
    let mut lots = [0; N];
    getrandom::fill(&mut lots)?;
    Ok(lots)
}

/// Where codes are shown and taken.
#[derive(Default)]
pub(crate) struct Desk {
    live: Option<(Code, Instant)>,
    /// When the wrong tries of late were made, oldest first.
    wrong: VecDeque<Instant>,
}

/// Why a code is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum Refusal {
    /// It is not the code of the moment. Wrong, used and too old are one and the same to who asks.
    #[error("This is not the code that the other screen shows")]
    Wrong,
    /// Too many wrong ones of late; how long to wait.
    #[error("There were too many wrong codes; wait {} s", .0.as_secs() + 1)]
    Pause(Duration),
}

impl Desk {
    /// The code that holds, and how long it still does.
    pub(crate) fn show(&mut self, now: Instant) -> Result<(Code, Duration), getrandom::Error> {
        if let Some((code, until)) = &self.live
            && now < *until
        {
            return Ok((code.clone(), until.duration_since(now)));
        }
        let code = Code::draw()?;
        self.live = Some((code.clone(), now + LASTS));
        Ok((code, LASTS))
    }

    /// Nobody may use the code any more.
    pub(crate) fn withdraw(&mut self) {
        self.live = None;
    }

    /// Takes a code, once.
    pub(crate) fn take(&mut self, typed: &str, now: Instant) -> Result<(), Refusal> {
        while self.wrong.front().is_some_and(|at| now >= *at + PAUSE) {
            self.wrong.pop_front();
        }
        if self.wrong.len() >= WRONG_TRIES
            && let Some(oldest) = self.wrong.front()
        {
            return Err(Refusal::Pause((*oldest + PAUSE).duration_since(now)));
        }
        let is_right = match (&self.live, Code::read(typed)) {
            (Some((code, until)), Some(typed)) => {
                let same = bool::from(code.0.as_bytes().ct_eq(typed.0.as_bytes()));
                same && now < *until
            }
            _ => false,
        };
        if is_right {
            self.live = None;
            Ok(())
        } else {
            self.wrong.push_back(now);
            Err(Refusal::Wrong)
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_code_is_read_as_it_is_said() {
        let (code, _) = Desk::default().show(Instant::now()).unwrap();
        let said = code.as_str().to_lowercase();
        let (first, last) = said.split_at(3);
        for typed in [
            said.clone(),
            format!(" {first} {last}\n"),
            format!("{first}-{last}"),
        ] {
            assert_eq!(Code::read(&typed).unwrap().as_str(), code.as_str());
        }
        for typed in ["", "CFHJK", "CFHJKMN", "ÄÄÄ", "CFHJKÄ"] {
            assert!(Code::read(typed).is_none(), "{typed}");
        }
    }

    #[test]
    fn codes_are_of_the_signs_and_differ() {
        let drawn: std::collections::HashSet<String> = (0..500)
            .map(|_| Code::draw().unwrap().as_str().to_owned())
            .collect();
        assert!(drawn.len() > 495, "{}", drawn.len());
        let used: std::collections::HashSet<u8> =
            drawn.iter().flat_map(|code| code.bytes()).collect();
        assert_eq!(used.len(), SIGNS.len());
        assert!(used.iter().all(|sign| SIGNS.contains(sign)));
    }

    #[test]
    fn after_five_wrong_tries_the_right_code_waits_too() {
        let (start, mut desk) = (Instant::now(), Desk::default());
        let (code, _) = desk.show(start).unwrap();
        for _ in 0..WRONG_TRIES {
            assert_eq!(desk.take("AAAAAA", start), Err(Refusal::Wrong));
        }
        let later = start + Duration::from_secs(20);
        assert_eq!(
            desk.take(code.as_str(), later),
            Err(Refusal::Pause(Duration::from_secs(40)))
        );
        assert_eq!(desk.take(code.as_str(), start + PAUSE), Ok(()));
    }

    /// What is done at a desk.
    #[derive(Clone, Debug)]
    enum Deed {
        /// So many seconds go by.
        Wait(u64),
        Show,
        Withdraw,
        /// The code that was shown so many codes ago is typed.
        Take(usize),
    }

    fn deed() -> impl Strategy<Value = Deed> {
        prop_oneof![
            4 => (0_u64..500).prop_map(Deed::Wait),
            2 => Just(Deed::Show),
            1 => Just(Deed::Withdraw),
            3 => (0_usize..3).prop_map(Deed::Take),
        ]
    }

    proptest! {
        /// Whatever was done before, a code is taken only in its ten minutes, and once.
        #[test]
        fn a_code_is_never_taken_after_its_time(done in prop::collection::vec(deed(), 1..60)) {
            let mut desk = Desk::default();
            let mut now = Instant::now();
            let mut shown: Vec<(Code, Instant)> = Vec::new();
            let mut taken: Vec<Code> = Vec::new();
            for deed in done {
                match deed {
                    Deed::Wait(seconds) => now += Duration::from_secs(seconds),
                    Deed::Withdraw => desk.withdraw(),
                    Deed::Show => {
                        let (code, left) = desk.show(now).unwrap();
                        prop_assert!(left <= LASTS && left > Duration::ZERO);
                        if shown.last().is_none_or(|(last, _)| *last != code) {
                            shown.push((code, now));
                        }
                    }
                    Deed::Take(back) => {
                        let Some((code, since)) = shown.iter().rev().nth(back) else {
                            continue;
                        };
                        if desk.take(code.as_str(), now).is_ok() {
                            prop_assert!(now.duration_since(*since) < LASTS);
                            prop_assert!(back == 0 && !taken.contains(code));
                            taken.push(code.clone());
                        }
                    }
                }
            }
        }

        /// Within its time the right code is taken, as long as few wrong ones came before.
        #[test]
        fn a_code_is_taken_in_its_time(wait in 0u64..600, wrong in 0..WRONG_TRIES) {
            let (start, mut desk) = (Instant::now(), Desk::default());
            let (code, _) = desk.show(start).unwrap();
            for _ in 0..wrong {
                desk.take("AAAAAA", start).unwrap_err();
            }
            let now = start + Duration::from_secs(wait);
            prop_assert_eq!(desk.take(code.as_str(), now), Ok(()));
            prop_assert_eq!(desk.take(code.as_str(), now), Err(Refusal::Wrong));
        }
    }
}
