//! Runs recipes that were never accepted in a child process of this program.
//!
//! Whatever such a script does to its process, the notebook keeps running.

use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::limits::{StopFlag, cap_process_memory};
use crate::recipe::{Reply, Request, run};
use std::io::{self, Read, Write};
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::atomic::Ordering;
use std::time::{Duration, Instant};

/// The hidden command that the child runs.
pub(super) const COMMAND: &str = "answer-request";

/// The time limit of a child. A script stops by its own limits long before this; it covers what no limit
/// foresaw.
const PATIENCE: Duration = Duration::from_secs(20);

/// Maximum wait for a signal that was sent already.
const SIGNAL_DELAY: Duration = Duration::from_secs(1);

/// Maximum bytes that the child may use beyond those it starts with; the script's own limit is a quarter of it.
const MEMORY: usize = 256 << 20;

/// Sends a request to a child process; returns its reply.
pub(super) fn ask(program: &Path, request: &Request, stop: &StopFlag) -> Reply {
    match try_ask(program, request, stop) {
        Ok(reply) => reply,
        // A stop that was asked for is not reported as an error: the change is undone.
        Err(message) => {
            let kind = if stop.load(Ordering::SeqCst) { DiagnosticKind::Stopped } else { DiagnosticKind::System };
            Reply::Failed(vec![Diagnostic::new(message).of_kind(kind)])
        }
    }
}

fn try_ask(program: &Path, request: &Request, stop: &StopFlag) -> Result<Reply, String> {
    let text = serde_json::to_vec(request).map_err(|_| "the recipe could not be handed over".to_owned())?;
    let mut child = Command::new(program)
        .arg(COMMAND)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|_| "the recipe could not be started in a process of its own".to_owned())?;
    let input = child.stdin.take();
    let output = child.stdout.take();
    std::thread::scope(|scope| {
        // Write and read at the same time, so that neither process waits for the other.
        scope.spawn(move || {
            // Fails if the child died; its exit is seen below.
            let _handed_over = input.map(|mut input| input.write_all(&text));
        });
        let reader = scope.spawn(move || {
            let mut answer = Vec::new();
            let read = output.map(|mut output| output.read_to_end(&mut answer));
            (read.is_some_and(|read| read.is_ok()), answer)
        });
        let ended = wait(&mut child, stop);
        let (whole, answer) = reader.join().unwrap_or((false, Vec::new()));
        ended?;
        match serde_json::from_slice(&answer) {
            Ok(reply) if whole => Ok(reply),
            _ => Err("the recipe broke off: it may need more memory than it is allowed".to_owned()),
        }
    })
}

fn wait(child: &mut Child, stop: &StopFlag) -> Result<(), String> {
    let start = Instant::now();
    let mut pause = Duration::from_micros(200);
    loop {
        match child.try_wait() {
            Ok(Some(status)) if was_interrupted(status) => {
                await_own_signal(stop);
                return Err("stopped".to_owned());
            }
            Ok(Some(_)) => return Ok(()),
            Ok(None) if stop.load(Ordering::SeqCst) => return end(child, "stopped"),
            Ok(None) if start.elapsed() > PATIENCE => return end(child, "the recipe took too long and was stopped"),
            Ok(None) => {}
            Err(_) => return end(child, "the recipe's process was lost"),
        }
        std::thread::sleep(pause);
        pause = (pause * 2).min(Duration::from_millis(20));
    }
}

/// Whether Ctrl-C ended the child: a terminal sends it to the child as well as to this process.
#[cfg(unix)]
fn was_interrupted(status: ExitStatus) -> bool {
    use std::os::unix::process::ExitStatusExt;
    const INTERRUPT: i32 = 2;
    status.signal() == Some(INTERRUPT)
}

/// Waits until the Ctrl-C that ended the child arrives here too, as the handler may be slower than the child's
/// exit. A flag that is set only after it was checked would stop the next line instead.
fn await_own_signal(stop: &StopFlag) {
    let start = Instant::now();
    // A signal sent to the child alone never arrives here.
    while !stop.load(Ordering::SeqCst) && start.elapsed() < SIGNAL_DELAY {
        std::thread::sleep(Duration::from_millis(1));
    }
}

#[cfg(not(unix))]
fn was_interrupted(_: ExitStatus) -> bool {
    false
}

fn end(child: &mut Child, message: &str) -> Result<(), String> {
    // It may have exited by itself in the meantime.
    let _ended = child.kill().and_then(|()| child.wait());
    Err(message.to_owned())
}

/// The child's side: reads one request and returns the reply to send.
pub(super) fn answer(input: &mut dyn Read) -> io::Result<Vec<u8>> {
    cap_process_memory(MEMORY);
    let mut text = Vec::new();
    input.read_to_end(&mut text)?;
    let reply = match serde_json::from_slice::<Request>(&text) {
        Ok(request) => run::answer(&request, StopFlag::default()),
        Err(_) => Reply::Failed(vec![Diagnostic::new("the request could not be read")]),
    };
    serde_json::to_vec(&reply).map_err(io::Error::other)
}
