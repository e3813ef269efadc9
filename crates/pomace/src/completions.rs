//! `pomace completions`: what a shell needs to complete our commands.

use clap::CommandFactory as _;

use crate::cli::{Cli, Completions};
use crate::fault::{Answer, Stop};
use crate::page;

/// Prints the completions.
pub(crate) fn run(asked: &Completions) -> Result<Answer, Stop> {
    // Into memory first: the generator panics if its writer fails, as a closed pipe does.
    let mut script = Vec::new();
    let mut command = Cli::command();
    clap_complete::generate(asked.shell, &mut command, "pomace", &mut script);
    page::show(&String::from_utf8_lossy(&script))?;
    Ok(Answer::Done)
}
