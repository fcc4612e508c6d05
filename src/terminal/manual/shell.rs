//! Generates the man page and the completions from the definition of the command line.

use crate::terminal::arguments;
use clap::{Arg, Command};
use clap_complete::{Generator, Shell};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, roman};
use std::io;

/// The name under which a shell finds the program.
const NAME: &str = "shirr";

/// The name of the man page.
pub(super) const MAN_PAGE: &str = "shirr.1";

const SHELLS: [Shell; 4] = [Shell::Bash, Shell::Zsh, Shell::Fish, Shell::PowerShell];

/// The program's command line without hidden commands.
fn program() -> Command {
    let whole = arguments::command();
    let seen = whole.get_subcommands().filter(|command| !command.is_hide_set());
    Command::new(NAME)
        .disable_help_subcommand(true)
        .version(env!("CARGO_PKG_VERSION"))
        .about(whole.get_about().cloned().unwrap_or_default())
        .long_about(whole.get_long_about().cloned().unwrap_or_default())
        .after_help(whole.get_after_help().cloned().unwrap_or_default())
        .args(whole.get_arguments())
        .subcommands(seen)
}

/// A completion script for each common shell, with its path.
pub(super) fn completions() -> impl Iterator<Item = (String, Vec<u8>)> {
    SHELLS.into_iter().map(|shell| {
        let mut script = Vec::new();
        clap_complete::generate(shell, &mut program(), NAME, &mut script);
        (format!("completions/{}", shell.file_name(NAME)), script)
    })
}

/// The man page of the program with all its commands.
pub(super) fn man_page() -> io::Result<Vec<u8>> {
    let mut program = program();
    program.build();
    // Without a date, the next field would take its place.
    let man = Man::new(with_usage(program.clone())).date(" ").manual("User Commands");
    let mut page = Vec::new();
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    man.render_synopsis_section(&mut page)?;
    man.render_description_section(&mut page)?;
    man.render_options_section(&mut page)?;
    heading("SH", "COMMANDS", &mut page)?;
    for command in program.get_subcommands() {
        of_command(command, &mut page)?;
    }
    if let Some(more) = program.get_after_help() {
        paragraphs(&more.to_string(), &mut page)?;
    }
    Ok(begun_once(&page))
}

/// Removes the repeated lines with which each rendered part begins.
fn begun_once(page: &[u8]) -> Vec<u8> {
    let mut lines: Vec<&[u8]> = Vec::new();
    for line in page.split_inclusive(|byte| *byte == b'\n') {
        let begins = line.starts_with(b".ie ") || line.starts_with(b".el ");
        if !begins || !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines.concat()
}

/// Writes the section of a command: its synopsis, its description, its own options.
fn of_command(command: &Command, page: &mut Vec<u8>) -> io::Result<()> {
    let name = command.get_bin_name().unwrap_or_else(|| command.get_name());
    heading("SS", name, page)?;
    let own = command.clone().mut_args(|argument| if is_shared(&argument) { argument.hide(true) } else { argument });
    let man = Man::new(with_usage(own));
    without_heading(|part| man.render_synopsis_section(part), page)?;
    Roff::new().control("PP", []).to_writer(page)?;
    without_heading(|part| man.render_description_section(part), page)?;
    without_heading(|part| man.render_options_section(part), page)
}

/// A command with its usage as in its help, with repeated arguments marked.
fn with_usage(mut command: Command) -> Command {
    let usage = command.render_usage().to_string();
    let usage = usage.strip_prefix("Usage: ").unwrap_or(&usage).to_owned();
    command.override_usage(usage)
}

/// Whether an option is listed only once, with the program's own options.
fn is_shared(argument: &Arg) -> bool {
    argument.is_global_set() || ["help", "version"].contains(&argument.get_id().as_str())
}

fn heading(level: &str, text: &str, page: &mut Vec<u8>) -> io::Result<()> {
    Roff::new().control(level, [text]).to_writer(page)
}

/// Renders a section without its heading.
fn without_heading(render: impl Fn(&mut Vec<u8>) -> io::Result<()>, page: &mut Vec<u8>) -> io::Result<()> {
    let mut part = Vec::new();
    render(&mut part)?;
    let lines = part.split_inclusive(|byte| *byte == b'\n');
    page.extend(lines.filter(|line| !line.starts_with(b".SH ")).flatten());
    Ok(())
}

/// Writes the examples and exit codes: each paragraph is a section whose heading is the text before the first
/// colon, with each line by itself.
fn paragraphs(text: &str, page: &mut Vec<u8>) -> io::Result<()> {
    for part in text.split("\n\n") {
        let (title, rest) = part.split_once(':').unwrap_or(("More", part));
        heading("SH", &title.to_uppercase(), page)?;
        let mut roff = Roff::new();
        for line in rest.lines().map(str::trim).filter(|line| !line.is_empty()) {
            roff.text([roman(line)]).control("br", []);
        }
        roff.to_writer(page)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The commands that a user sees, and every long option with the command it belongs to.
    fn commands_and_options() -> (Vec<String>, Vec<(String, String)>) {
        let whole = arguments::command();
        let seen = || whole.get_subcommands().filter(|command| !command.is_hide_set());
        let options = std::iter::once(&whole).chain(seen()).flat_map(|command| {
            let longs = command.get_arguments().filter(|option| !option.is_hide_set()).filter_map(Arg::get_long);
            longs.map(|long| (command.get_name().to_owned(), long.to_owned()))
        });
        (seen().map(|command| command.get_name().to_owned()).collect(), options.collect())
    }

    #[test]
    fn the_man_page_names_every_command_option_and_exit_code() {
        let page = String::from_utf8(man_page().unwrap()).unwrap().replace("\\-", "-");
        let (commands, options) = commands_and_options();
        assert!(commands.len() >= 10 && options.len() >= 15, "{commands:?} {options:?}");
        for command in commands {
            let (_, part) = page.split_once(&format!("\n.SS \"shirr {command}\"\n")).expect(&command);
            let part = part.split("\n.S").next().unwrap();
            for (_, option) in options.iter().filter(|(of, _)| *of == command) {
                assert!(
                    [part, &page].iter().any(|text| text.contains(&format!("--{option}\\fR"))),
                    "{command} {option}"
                );
            }
        }
        for (_, option) in &options {
            assert!(page.contains(&format!("--{option}\\fR")), "{option}");
        }
        assert!(!page.contains("answer-request"));
        assert!(page.contains("\n.SH \"EXIT CODES\"\n") && page.contains("130 interrupted"), "{page}");
    }

    #[test]
    fn the_completions_name_every_command_and_option() {
        let (commands, options) = commands_and_options();
        let scripts: Vec<(String, Vec<u8>)> = completions().collect();
        assert_eq!(scripts.len(), SHELLS.len());
        for (path, script) in scripts {
            let script = String::from_utf8(script).unwrap();
            for command in &commands {
                assert!(script.contains(command), "{path}: {command}");
            }
            for (command, option) in &options {
                let written =
                    if path == "completions/shirr.fish" { format!("-l {option}") } else { format!("--{option}") };
                assert!(script.contains(&written), "{path}: {command} {option}");
            }
            assert!(!script.contains("answer-request"), "{path}");
        }
    }
}
