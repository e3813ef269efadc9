//! What can be asked on the command line, and the help that explains it.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};
use clap_complete::Shell;

use crate::number;

/// A workbench for people who develop drinks.
///
/// Exit codes: 0 done, 1 the answer is no, 2 wrong use or bad input.
#[derive(Debug, Parser)]
#[command(name = "pomace", version, max_term_width = 96, after_help = EXAMPLES)]
pub(crate) struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

const EXAMPLES: &str = "\
Examples:
  pomace liquid \"water=60 g, ethanol=24 g, sucrose=10 g, citric=1 g\"
  pomace show \"Second Pressing\" --book demo
  pomace check ./book
  pomace serve --book demo
  pomace help liquid";

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// What a liquid is, from the grams of what is in it
    Liquid(Liquid),
    /// A drink from parts to glass, a prep step by step, an ingredient as it is
    Show(Show),
    /// Small variants of a drink or a prep side by side, and one of them made the document
    Trial(Trial),
    /// What so many serves, or what is in the hand, ask for and give
    Scale(Scale),
    /// What the parts of a whole weigh, as shares for its document
    YieldTest(YieldTest),
    /// Find what is wrong in documents, and how to mend it
    Check(Check),
    /// The book as pages in a browser
    Serve(Serve),
    /// Print the completions for a shell
    Completions(Completions),
}

/// What a liquid is, from the grams of what is in it.
#[derive(Debug, Args)]
#[command(
    long_about = "What a liquid is, from the grams of what is in it: density, strength, what a \
        refractometer shows, sweetness, acidity, pH, water activity, freezing point, energy.\n\n\
        A figure outside the range of its model is left out, and a note says why.",
    after_help = LIQUID_EXAMPLES,
    after_long_help = LIQUID_LONG,
)]
pub(crate) struct Liquid {
    /// Grams of each substance: `water=60 g, ethanol=24 g`; `mg` and `kg` are understood too
    #[arg(
        value_name = "GRAMS",
        required_unless_present = "csv",
        conflicts_with = "csv",
        allow_negative_numbers = true
    )]
    pub(crate) grams: Vec<String>,

    /// Temperature in °C; for a table, that of the rows which name none
    #[arg(
        long,
        value_name = "T",
        default_value = "20",
        allow_negative_numbers = true,
        value_parser = number::celsius
    )]
    pub(crate) celsius: f64,

    /// Answer in JSON, every figure as `{ value, plus_minus, basis }`
    #[arg(long, conflicts_with = "csv")]
    pub(crate) json: bool,

    /// Read a table, `-` for standard input, and write it out with a column for each figure
    #[arg(long, value_name = "FILE")]
    pub(crate) csv: Option<PathBuf>,
}

const LIQUID_EXAMPLES: &str = "\
Examples:
  pomace liquid \"water=60 g, ethanol=24 g, sucrose=10 g, citric=1 g\"
  pomace liquid \"water 92 g; fructose 6 g; malic acid 800 mg\" --celsius 4
  pomace liquid \"water=60, sucrose=40\" --json
  pomace liquid --csv syrups.csv > figures.csv";

const LIQUID_LONG: &str = "\
Substances:
  water, ethanol, sucrose, glucose, fructose, lactose, maltose, other_sugars, glycerol, polyols,
  starch, fibre, protein, fat, ash, citric, malic, lactic, tartaric, acetic, phosphoric, ascorbic,
  other_acids, sodium, potassium, calcium, magnesium, chloride, caffeine, carbon_dioxide, other

Tables:
  The first row names the columns, separated by commas. A column named like a substance holds
  grams (an empty cell is none); `celsius` holds the temperature; all others pass through.
  A row with a cell that is no number keeps its place, without figures, and its `notes` say why;
  the command then ends with code 2.

Examples:
  pomace liquid \"water=60 g, ethanol=24 g, sucrose=10 g, citric=1 g\"
  pomace liquid \"water 92 g; fructose 6 g; malic acid 800 mg\" --celsius 4
  pomace liquid \"water=60, sucrose=40\" --json
  pomace liquid --csv syrups.csv > figures.csv";

/// The book as pages in a browser.
#[derive(Debug, Args)]
#[command(
    long_about = "The book as pages in a browser on this machine. The first line printed is the address. \
        Without `--book` it is the house's own, in the folder for your data; it is made when it is not \
        there.\n\n\
        With `--lan` other devices on the local network may open it too, at the address in the second line. \
        Each is paired once: `/devices` on this machine shows a code that lets in one device within ten \
        minutes. The list of paired devices lies beside the book, as FILE.devices.",
    after_help = SERVE_EXAMPLES,
)]
pub(crate) struct Serve {
    /// Which book: a file, a `postgres://` address, or `demo`, the book that comes along (changes to it
    /// are thrown away at the end)
    #[arg(long, value_name = "FILE|URL|demo")]
    pub(crate) book: Option<String>,

    /// The port to listen at; 0 takes any that is free
    #[arg(long, value_name = "N", default_value_t = 7417)]
    pub(crate) port: u16,

    /// For other devices on the local network too; each is paired once, at `/devices` on this machine
    #[arg(long)]
    pub(crate) lan: bool,

    /// A name by which other devices know this machine, beside the one it gives itself
    #[arg(long, value_name = "NAME", requires = "lan", value_parser = host_name)]
    pub(crate) name: Option<String>,

    /// The certificate that connections from other devices are encrypted with (PEM, with those that lead
    /// up to one they trust)
    #[arg(long, value_name = "FILE", requires = "key", requires = "lan")]
    pub(crate) certificate: Option<PathBuf>,

    /// The private key of the certificate (PEM, without a password)
    #[arg(long, value_name = "FILE", requires = "certificate")]
    pub(crate) key: Option<PathBuf>,
}

/// A name as it stands in an address.
fn host_name(text: &str) -> Result<String, String> {
    let is_sign = |sign: char| sign.is_ascii_alphanumeric() || sign == '-';
    let is_label = |label: &str| (1..=63).contains(&label.len()) && label.chars().all(is_sign);
    if text.len() <= 253 && text.split('.').all(is_label) {
        Ok(text.to_owned())
    } else {
        Err(
            "no name as it stands in an address: `bar.example.org`, without scheme or port"
                .to_owned(),
        )
    }
}

const SERVE_EXAMPLES: &str = "\
Examples:
  pomace serve
  pomace serve --book demo
  pomace serve --book ./house.pomace --port 0
  pomace serve --lan
  pomace serve --lan --name bar.example.org --certificate bar.pem --key bar-key.pem";

/// A drink from parts to glass, a prep step by step, an ingredient as it is.
#[derive(Debug, Args)]
#[command(
    long_about = "A drink from parts to glass, a prep step by step, an ingredient as it is: what goes \
        in, what it becomes, and why. Whatever nobody said is assumed, and told.",
    after_help = SHOW_EXAMPLES,
)]
pub(crate) struct Show {
    /// A name in the book, or the path of a TOML file
    #[arg(value_name = "NAME")]
    pub(crate) name: String,

    /// Where to look: a folder of TOML files, one such file, or `demo`, the book that comes along
    #[arg(long, value_name = "FILE|demo")]
    pub(crate) book: Option<String>,

    /// Answer in JSON, every figure as `{ value, plus_minus, basis }`
    #[arg(long)]
    pub(crate) json: bool,

    /// Say what makes one figure: what each line does to it, and where its doubt comes from. The name
    /// is that in JSON: `abv_percent`, or `before_ice.abv_percent`; by the minute in the glass
    /// `minute_10.abv_percent`
    #[arg(long, value_name = "FIGURE", conflicts_with = "json")]
    pub(crate) why: Option<String>,
}

const SHOW_EXAMPLES: &str = "\
Examples:
  pomace show \"Second Pressing\" --book demo
  pomace show \"Quince peel shrub\" --book demo
  pomace show \"Second Pressing\" --book demo --why abv_percent
  pomace show ./book/second-pressing.toml
  pomace show quince --book ./book --json";

/// Small variants of a drink or a prep side by side, and one of them made the document.
#[derive(Debug, Args)]
#[command(
    long_about = "Small variants of a drink or a prep side by side, as its document tells them: what \
        changes, the figures of each, and which differences are larger than their doubt. One of them can \
        be made the document: comments and layout stay, and so does the trial, with what was there before.",
    after_help = TRIAL_EXAMPLES,
)]
pub(crate) struct Trial {
    /// A drink or a prep of the book, or the path of its file
    #[arg(value_name = "DOCUMENT")]
    pub(crate) name: String,

    /// Where to look: a folder of TOML files, one such file, or `demo`, the book that comes along
    #[arg(long, value_name = "FILE|demo")]
    pub(crate) book: Option<String>,

    /// Make this trial the document, in its file
    #[arg(long, value_name = "TRIAL", conflicts_with = "json")]
    pub(crate) promote: Option<String>,

    /// Print the new text, and write nothing
    #[arg(long, requires = "promote")]
    pub(crate) print: bool,

    /// Answer in JSON, every figure as `{ value, plus_minus, basis }`
    #[arg(long)]
    pub(crate) json: bool,
}

const TRIAL_EXAMPLES: &str = "\
Examples:
  pomace trial \"Second Pressing\" --book demo
  pomace trial ./book/second-pressing.toml --json
  pomace trial \"Second Pressing\" --book demo --promote \"less shrub\" --print
  pomace trial ./book/second-pressing.toml --promote \"less shrub\"";

/// What so many serves, or what is in the hand, ask for and give.
#[derive(Debug, Args)]
#[command(
    long_about = "What so many serves of a drink, or so much of a prep, ask of every prep and of the \
        shelf; or how many serves there are in what is in the hand. A step that loses fixed grams does \
        not scale in proportion, so every prep is made at its size.",
    after_help = SCALE_EXAMPLES,
)]
pub(crate) struct Scale {
    /// A drink or a prep of the book, or the path of its file; without it, and with `--hand`, every
    /// drink of the book that uses it
    #[arg(value_name = "NAME", required_unless_present = "hand")]
    pub(crate) name: Option<String>,

    /// So many serves of a drink
    #[arg(
        long,
        value_name = "N",
        value_parser = number::positive,
        allow_negative_numbers = true,
        group = "wanted"
    )]
    pub(crate) serves: Option<f64>,

    /// So much of a prep, or of a drink before its ice: `1.5 kg`, `2 L`
    #[arg(long, value_name = "AMOUNT", group = "wanted")]
    pub(crate) make: Option<String>,

    /// So many bottles of one size, filled: `12 x 700 mL`. With `--make` or `--serves`, what of that is
    /// left over or short
    #[arg(long, value_name = "N x VOLUME", conflicts_with_all = ["hand", "round"])]
    pub(crate) bottles: Option<String>,

    /// What there is: `260 g of quince / peel`, `8 quince`
    #[arg(long, value_name = "AMOUNT OF WHAT", group = "wanted")]
    pub(crate) hand: Option<String>,

    /// One serve of a drink by what is measured with, and what rounding does to it
    #[arg(long, value_name = "WITH", group = "wanted")]
    pub(crate) round: Option<Tool>,

    /// Where to look: a folder of TOML files, one such file, or `demo`, the book that comes along
    #[arg(long, value_name = "FILE|demo")]
    pub(crate) book: Option<String>,

    /// Answer in JSON
    #[arg(long)]
    pub(crate) json: bool,
}

/// What is poured or weighed with.
#[derive(Clone, Copy, Debug, clap::ValueEnum)]
pub(crate) enum Tool {
    /// A scale
    Grams,
    /// A measuring glass
    Millilitres,
    /// The jiggers of the house
    Jiggers,
}

const SCALE_EXAMPLES: &str = "\
Examples:
  pomace scale \"Second Pressing\" --serves 40 --book demo
  pomace scale \"Quince peel shrub\" --make \"2 L\" --book demo
  pomace scale \"Quince peel shrub\" --bottles \"12 x 700 mL\" --book demo
  pomace scale \"Second Pressing\" --round jiggers --book demo
  pomace scale --hand \"260 g of quince / peel\" --book demo";

/// What the parts of a whole weigh, as shares for its document.
#[derive(Debug, Args)]
#[command(
    long_about = "What the parts of a whole weigh, over one fruit or several: the share of each in all \
        of them, how a single one spreads, and what is in no part. Ends with lines for the document of \
        the ingredient.",
    after_help = YIELD_TEST_EXAMPLES,
)]
pub(crate) struct YieldTest {
    /// What was taken apart
    #[arg(value_name = "WHOLE")]
    pub(crate) name: String,

    /// For each one, what it weighed and what its parts weigh: `310 g: flesh 206 g, peel 37 g`
    #[arg(value_name = "WEIGHED", required = true)]
    pub(crate) weighed: Vec<String>,

    /// Answer in JSON
    #[arg(long)]
    pub(crate) json: bool,
}

const YIELD_TEST_EXAMPLES: &str = "\
Examples:
  pomace yield-test quince \"310 g: flesh 206 g, peel 37 g, core 58 g, seeds 8 g\"
  pomace yield-test lemon \"110: juice 46, peel 21, pulp 40\" \"98: juice 37, peel 20, pulp 38\"";

/// Find what is wrong in documents, and how to mend it.
#[derive(Debug, Args)]
#[command(
    long_about = "Find what is wrong in documents, and how to mend it. Everything is reported at \
        once, with its place.\n\n\
        Ends with code 1 if anything must be mended before going on (`stop`); a `caution` or a \
        `note` does not change the code.",
    after_help = CHECK_EXAMPLES,
)]
pub(crate) struct Check {
    /// A TOML file, or a folder of them
    #[arg(value_name = "PATH")]
    pub(crate) path: PathBuf,

    /// Answer in JSON: `{ findings: [ … ] }`
    #[arg(long)]
    pub(crate) json: bool,
}

const CHECK_EXAMPLES: &str = "\
Examples:
  pomace check shrub.toml
  pomace check ./book
  pomace check ./book --json";

/// Print the completions for a shell.
#[derive(Debug, Args)]
#[command(after_help = COMPLETIONS_EXAMPLES)]
pub(crate) struct Completions {
    /// Which shell
    #[arg(value_name = "SHELL")]
    pub(crate) shell: Shell,
}

const COMPLETIONS_EXAMPLES: &str = "\
Examples:
  pomace completions bash > ~/.local/share/bash-completion/completions/pomace
  pomace completions fish > ~/.config/fish/completions/pomace.fish
  pomace completions zsh > ~/.zfunc/_pomace";

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory as _;

    #[test]
    fn the_commands_are_sound() {
        Cli::command().debug_assert();
    }
}
