//! The commands, one file each; they call the stages in order and do no work of their own.
//!
//! | command | file |
//! |---|---|
//! | publish | [`publish`] |
//! | proof | [`proof`] |
//! | reckon | [`reckon`] |
//! | schema | [`schema`] |
//!
//! [`farm`] finds the farm that a command is about.

pub mod farm;
pub mod proof;
pub mod publish;
pub mod reckon;
pub mod schema;

use std::io;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::book::Book;
use crate::error::Error;
use crate::fault::unseen::written_out;
use crate::fault::{Fault, draw, suggest};
use crate::press::Stopped;

/// Publishes a farm's offline field guide to growing mushrooms on hardwood logs.
#[derive(Debug, Parser)]
#[command(name = "hostwood", version, arg_required_else_help = true)]
pub struct Arguments {
    /// Say nothing that is not a fault or a table.
    #[arg(long, global = true)]
    quiet: bool,
    #[command(subcommand)]
    command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
enum Command {
    /// Read the records and write the guide.
    Publish(publish::Publish),
    /// Read and check everything, and write nothing.
    Proof(proof::Proof),
    /// Print a computed table; without a name, list the tables.
    Reckon(reckon::Reckon),
    /// Print the JSON Schema of a kind of record, for editors; without a kind, list the kinds.
    Schema(schema::Schema),
}

/// How a command ended.
#[derive(Debug)]
pub enum Ended {
    /// Done; the text goes to standard output, the remark and after it the questions to standard error.
    Done {
        /// For standard output.
        text: String,
        /// For standard error, unless quiet.
        remark: String,
        /// What is asked about the records, for standard error, unless quiet.
        questions: Vec<Fault>,
    },
    /// The records have faults, and nothing was written; questions stand after them.
    Faults(Vec<Fault>),
    /// The same, told to an editor on standard output.
    FaultsAsJson(Vec<Fault>),
    /// The call was wrong.
    Usage(String),
    /// The machine failed, or refused.
    Error(Error),
}

impl Ended {
    /// Done, with a text and nothing to remark.
    fn text(text: String) -> Self {
        Self::Done { text, remark: String::new(), questions: Vec::new() }
    }

    /// The same, with the questions about a book after its faults.
    fn asking(mut self, book: &Book) -> Self {
        if let Self::Faults(faults) = &mut self {
            faults.extend(book.questions.iter().cloned());
        }
        self
    }

    /// The same, without questions.
    fn unasked(mut self) -> Self {
        if let Self::Faults(faults) = &mut self {
            faults.retain(|fault| !fault.question);
        }
        self
    }

    /// A word that names none of the things that the program knows.
    fn unknown<'a>(noun: &str, word: &str, known: impl Iterator<Item = &'a str> + Clone) -> Self {
        Self::Usage(match suggest::closest(word, known.clone()) {
            Some(meant) => format!("There is no {noun} `{word}`; is `{meant}` meant?"),
            None => format!("There is no {noun} `{word}`. The {noun}s are {}.", suggest::either(known)),
        })
    }
}

impl From<Error> for Ended {
    fn from(error: Error) -> Self {
        Self::Error(error)
    }
}

impl From<Vec<Fault>> for Ended {
    fn from(faults: Vec<Fault>) -> Self {
        Self::Faults(faults)
    }
}

impl From<Stopped> for Ended {
    fn from(stopped: Stopped) -> Self {
        match stopped {
            Stopped::Faults(faults) => Self::Faults(faults),
            Stopped::Error(error) => Self::Error(error),
        }
    }
}

/// Runs the program's arguments: the one place that prints and that sets the exit code.
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    let ended = match arguments.command {
        Command::Publish(command) => command.run(),
        Command::Proof(command) => command.run(),
        Command::Reckon(command) => command.run(),
        Command::Schema(command) => command.run(),
    };
    close(ended.unwrap_or_else(|ended| ended), arguments.quiet)
}

fn close(ended: Ended, quiet: bool) -> ExitCode {
    let ink = io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty());
    match ended {
        Ended::Done { text, remark, questions } => {
            let asked = draw::report(&questions, ink);
            let said = [remark.as_str(), asked.trim_end()].into_iter().filter(|said| !said.is_empty());
            let said: Vec<&str> = said.collect();
            if !quiet && !said.is_empty() {
                let _ = writeln!(io::stderr(), "{}", said.join("\n\n"));
            }
            print(&text)
        }
        Ended::Faults(mut faults) => {
            faults.retain(|fault| !quiet || !fault.question);
            let _ = write!(io::stderr(), "{}", draw::report(&faults, ink));
            ExitCode::from(1)
        }
        Ended::FaultsAsJson(faults) => {
            print(&draw::json(&faults));
            ExitCode::from(1)
        }
        Ended::Usage(what) => {
            let _ = writeln!(io::stderr(), "{}", written_out(&what));
            ExitCode::from(2)
        }
        Ended::Error(error) => {
            let _ = writeln!(io::stderr(), "{}", written_out(&error.to_string()));
            ExitCode::from(if error.is_refusal() { 2 } else { 3 })
        }
    }
}

/// Prints to standard output; a reader who has left early is no failure.
fn print(text: &str) -> ExitCode {
    match io::stdout().write_all(text.as_bytes()).and_then(|()| io::stdout().flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => ExitCode::from(3),
        _ => ExitCode::SUCCESS,
    }
}

/// Where the farm's records are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FarmAt {
    /// In a folder.
    Folder(PathBuf),
    /// Inside the program: the demo farm.
    Demo,
}
