//! Matching names as people type them.
//!
//! An [`Index`] is built once over any list of names; it answers with positions in that list and
//! knows nothing of what the names stand for.
//!
//! Names are first *folded* ([`fold()`]): lower case, no accents, no punctuation, no plural. Equal
//! when folded is equal. Beyond that, four grades of closeness, each with its own band of scores,
//! so that a better grade always comes first:
//!
//! | grade | example for `lemon peel` | score |
//! | --- | --- | --- |
//! | exact: same words, in any order or run together | `Peel, lemon` | 98–100 |
//! | prefix: the beginning of the name | `lemon pe` | 80–90 |
//! | word: whole words or beginnings of words of the name, in any order | `peel` | 60–80 |
//! | typo: words with slips | `lemno peel` | 40–60 |
//! | part: only some of the words are in the name | `lemon peel oil` | 10–40 |

mod fold;
mod index;
mod slip;

pub use fold::{fold, letters, words};
pub use index::{Index, Match};
