//! The command line of pomace: read what was asked, let the libraries answer, show it.
//!
//! One file per command. Exit codes: 0 done, 1 the answer is no, 2 wrong use or bad input.

mod check;
mod cli;
mod completions;
mod fault;
mod liquid;
mod number;
mod page;
mod quote;
mod scale;
mod serve;
mod show;
mod trial;
mod yield_test;

use std::io;
use std::process::ExitCode;

use clap::Parser as _;
use mimalloc::MiMalloc;

use cli::{Cli, Command};
use fault::{Answer, Stop};

/// A page takes memory in thousands of small pieces: an eighth of the time that a change takes.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(refused) => {
            // Help and version come this way too, with code 0. If nobody reads them, so be it.
            let _ = refused.print();
            return ExitCode::from(u8::try_from(refused.exit_code()).unwrap_or(2));
        }
    };
    match run(&cli.command) {
        Ok(answer) => answer.into(),
        // The reader has seen enough, as in `pomace liquid … | head`.
        Err(Stop::Output(error)) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(stop) => {
            page::complain(&stop.to_string());
            ExitCode::from(2)
        }
    }
}

fn run(command: &Command) -> Result<Answer, Stop> {
    match command {
        Command::Liquid(asked) => liquid::run(asked),
        Command::Show(asked) => show::run(asked),
        Command::Trial(asked) => trial::run(asked),
        Command::Scale(asked) => scale::run(asked),
        Command::YieldTest(asked) => yield_test::run(asked),
        Command::Check(asked) => check::run(asked),
        Command::Serve(asked) => serve::run(asked),
        Command::Completions(asked) => completions::run(asked),
    }
}
