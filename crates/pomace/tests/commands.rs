//! What holds for every command: help with examples, version, completions, exit codes.

use crate::run_args;

const COMMANDS: [&str; 8] = [
    "liquid",
    "show",
    "trial",
    "scale",
    "yield-test",
    "check",
    "serve",
    "completions",
];

#[test]
fn every_command_has_help_with_examples() {
    for command in COMMANDS {
        for help in ["-h", "--help"] {
            let ran = run_args(&[command, help]);
            assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{command}");
            assert!(
                ran.out.contains("Examples:"),
                "{command} {help}: {}",
                ran.out
            );
            assert!(
                ran.out.contains(&format!("  pomace {command} ")),
                "{command} {help}"
            );
        }
    }
}

#[test]
fn every_command_is_in_the_help_and_here() {
    let help = run_args(&["--help"]).out;
    let listed: Vec<&str> = help
        .lines()
        .skip_while(|line| *line != "Commands:")
        .skip(1)
        .take_while(|line| !line.is_empty())
        // What a command does may go on in the next line, further in.
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
        .filter_map(|line| line.split_whitespace().next())
        .filter(|command| *command != "help")
        .collect();
    assert_eq!(listed, COMMANDS);
}

#[test]
fn the_help_lists_every_substance() {
    let help = run_args(&["liquid", "--help"]).out;
    let words: Vec<&str> = help.split([' ', ',', '\n']).collect();
    for substance in pomace_matter::Substance::ALL {
        assert!(
            words.contains(&substance.name()),
            "{substance} is not in the help"
        );
    }
}

#[test]
fn version_and_wrong_use() {
    let ran = run_args(&["--version"]);
    assert_eq!(
        (ran.code, ran.out),
        (0, format!("pomace {}\n", env!("CARGO_PKG_VERSION")))
    );
    for args in [
        &["brew"][..],
        &["liquid", "--nothing"],
        &["check"],
        &["completions", "abacus"],
        &[],
    ] {
        assert_eq!(run_args(args).code, 2, "{args:?}");
    }
}

#[test]
fn completions_for_every_shell() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let ran = run_args(&["completions", shell]);
        assert_eq!(ran.code, 0);
        assert!(
            ran.out.contains("liquid") && ran.out.contains("check"),
            "{shell}"
        );
    }
}
