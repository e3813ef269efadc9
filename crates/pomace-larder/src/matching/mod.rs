//! Matching names as people type them.
//!
//! An [`Index`] is built once over any list of names; it answers with positions in that list and
//! knows nothing of what the names stand for.
//!
//! Names are first *folded* ([`fold()`]): lower case, no accents, no punctuation, no plural. Equal
//! when folded is equal. Beyond that, each word that was typed is matched on its own: it is a word
//! of the name, the beginning of one, a piece within one, or a slip of one, in this order of worth;
//! and a name is ranked by all of them. There are five grades of closeness ([`Grade`]), each with its
//! own band of scores, so that a better grade always comes first:
//!
//! | grade | example for `lemon peel` | score |
//! | --- | --- | --- |
//! | same: same words, in any order or run together | `Peel, lemon` | 98–100 |
//! | beginning: of the name | `lemon pe` | 80–90 |
//! | words: whole words, beginnings of words or pieces within words, in any order | `peel`, `emon` | 60–80 |
//! | slips: all words, some with slips | `lemno peel` | 40–60 |
//! | part: only some of the words are in the name | `lemon peel oil` | 10–40 |

mod fold;
mod index;
mod slip;

pub use fold::{fold, letters, words};
pub use index::{Grade, Index, Match};
