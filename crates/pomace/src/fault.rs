//! How a command ends: with an answer, or with all that is wrong with what it was given.

use std::fmt;
use std::io;
use std::process::ExitCode;

use crate::page;
use crate::quote::Quote;

/// What a command found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// Done.
    Done,
    /// The answer is no: a check failed.
    No,
    /// An answer was given, as far as the input allowed; the rest is told beside it.
    InPart,
}

impl From<Answer> for ExitCode {
    fn from(answer: Answer) -> Self {
        match answer {
            Answer::Done => Self::SUCCESS,
            Answer::No => Self::from(1),
            Answer::InPart => Self::from(2),
        }
    }
}

/// Why a command gave no answer.
#[derive(Debug)]
pub(crate) enum Stop {
    /// Wrong use or bad input; all faults at once.
    Faults(Vec<Fault>),
    /// The answer could not be written.
    Output(io::Error),
}

/// One thing that is wrong with the input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Fault {
    /// What is wrong.
    pub(crate) message: String,
    /// Where: a file with its line, or the words that were typed.
    pub(crate) place: Option<Where>,
    /// How to mend it.
    pub(crate) mend: String,
}

/// Where a fault lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Where {
    /// Told in words.
    Told(String),
    /// Shown in the text itself.
    Shown(Quote),
}

impl Fault {
    /// A fault that needs no place beside its message.
    pub(crate) fn new(message: impl Into<String>, mend: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            place: None,
            mend: mend.into(),
        }
    }

    /// The same fault at a place told in words.
    pub(crate) fn at(mut self, place: impl Into<String>) -> Self {
        self.place = Some(Where::Told(place.into()));
        self
    }

    /// The same fault, shown in the text.
    pub(crate) fn shown(mut self, quote: Quote) -> Self {
        self.place = Some(Where::Shown(quote));
        self
    }
}

impl From<Fault> for Stop {
    fn from(fault: Fault) -> Self {
        Self::Faults(vec![fault])
    }
}

impl From<io::Error> for Stop {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let width = page::width();
        let told = page::wrap(&format!("wrong: {}", self.message), width, "", "  ");
        write!(f, "{told}")?;
        match &self.place {
            Some(Where::Told(place)) => {
                write!(
                    f,
                    "\n{}",
                    page::wrap(&format!("at {place}"), width, "  ", "     ")
                )?;
            }
            Some(Where::Shown(quote)) => write!(f, "\n{}", quote.set(width, "  "))?,
            None => {}
        }
        write!(
            f,
            "\n{}",
            page::wrap(&format!("mend: {}", self.mend), width, "  ", "        ")
        )
    }
}

/// Faults that are shown; more help nobody.
const SHOWN: usize = 20;

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Output(error) => write!(f, "wrong: the answer cannot be written: {error}"),
            Self::Faults(faults) => {
                for (index, fault) in faults.iter().take(SHOWN).enumerate() {
                    let gap = if index > 0 { "\n" } else { "" };
                    write!(f, "{gap}{fault}")?;
                }
                match faults.len().saturating_sub(SHOWN) {
                    0 => Ok(()),
                    more => write!(f, "\nand {more} more of the kind"),
                }
            }
        }
    }
}
