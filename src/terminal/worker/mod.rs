//! Runs recipes that are not shipped in a process of their own, which is kept for the session.
//!
//! Whatever such a script does to its process, the notebook keeps running: a process that ends is started again for the
//! next task. That a recipe was accepted spares its check and never the process.

mod fence;
mod frame;
mod serving;

pub(super) use serving::serve;

use super::workshop_folder::Opened;
use crate::diagnostic::{Diagnostic, DiagnosticKind};
use crate::engine::limits::StopFlag;
use crate::recipe::{LoadedRecipe, PROTOCOL, RecipeText, Reply, Request, Task};
use crate::workshop::Workshop;
use fence::OVERTIME;
use frame::{Frame, MOST, read_frame, write_frame};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::atomic::Ordering;
use std::sync::{Arc, mpsc};
use std::time::{Duration, Instant};

/// The hidden command that the process runs.
pub(super) const COMMAND: &str = "answer-requests";

/// The time limit of a task. A script stops by its own limits long before this, and its process by the time of its
/// processor; it covers what no limit foresaw.
const PATIENCE: Duration = Duration::from_secs(20);

/// How often the stop flag is looked at.
const LOOK: Duration = Duration::from_millis(10);

/// The process that runs recipes, once there is one.
#[derive(Debug)]
pub(super) struct Worker {
    program: PathBuf,
    running: Option<Running>,
}

#[derive(Debug)]
struct Running {
    child: Child,
    input: ChildStdin,
    replies: mpsc::Receiver<Frame>,
    /// What it was told last, so that it is told once.
    workshop: Option<Arc<Workshop>>,
    recipe: Option<Arc<RecipeText>>,
}

/// A task for a recipe in a workshop.
pub(super) struct Asked<'a> {
    pub(super) recipe: &'a LoadedRecipe,
    pub(super) opened: &'a Opened,
    pub(super) plain: bool,
    pub(super) task: &'a Task,
}

/// Why there is no reply.
enum NoReply {
    /// A stop was asked for.
    Stopped,
    /// The process could not be asked, or was ended, in words.
    Ended(&'static str),
    /// The process ended by itself.
    BrokeOff,
}

impl Worker {
    /// A worker that runs `program`, not yet started.
    pub(super) fn new(program: PathBuf) -> Self {
        Self { program, running: None }
    }

    /// Sends a task and waits for its reply.
    pub(super) fn answer(&mut self, asked: &Asked<'_>, stop: &StopFlag) -> Reply {
        match self.try_answer(asked, stop) {
            Ok(reply) => reply,
            // A stop that was asked for is not reported as an error: the change is undone.
            Err(NoReply::Stopped) => failed("stopped", DiagnosticKind::Stopped),
            Err(NoReply::Ended(why)) => failed(why, DiagnosticKind::System),
            Err(NoReply::BrokeOff) => {
                failed("the recipe broke off: it may need more memory than it is allowed", DiagnosticKind::System)
            }
        }
    }

    fn try_answer(&mut self, asked: &Asked<'_>, stop: &StopFlag) -> Result<Reply, NoReply> {
        if stop.load(Ordering::SeqCst) {
            return Err(NoReply::Stopped);
        }
        // One that is kept may end just as it is asked, whatever ended it. A fresh one is then asked, once.
        if let Some(mut kept) = self.running.take()
            && kept.is_alive()
        {
            match self.ask(kept, asked, stop) {
                Err(NoReply::BrokeOff) => {}
                answered => return answered,
            }
        }
        let fresh = Running::start(&self.program)?;
        self.ask(fresh, asked, stop)
    }

    /// Asks a process, and keeps it if it answers.
    fn ask(&mut self, mut running: Running, asked: &Asked<'_>, stop: &StopFlag) -> Result<Reply, NoReply> {
        running.send(asked)?;
        let reply = running.wait(stop)?;
        let reply = serde_json::from_slice(&reply).map_err(|_| NoReply::Ended("the recipe's answer cannot be read"))?;
        self.running = Some(running);
        Ok(reply)
    }
}

fn failed(why: &str, kind: DiagnosticKind) -> Reply {
    Reply::Failed(vec![Diagnostic::new(why).of_kind(kind)])
}

impl Running {
    fn start(program: &Path) -> Result<Self, NoReply> {
        const NOT_STARTED: NoReply = NoReply::Ended("the recipe could not be started in a process of its own");
        let mut command = Command::new(program);
        command.arg(COMMAND).env_clear().stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null());
        fence::prepare(&mut command);
        let mut child = command.spawn().map_err(|_| NOT_STARTED)?;
        let (Some(input), Some(output)) = (child.stdin.take(), child.stdout.take()) else { return Err(NOT_STARTED) };
        Ok(Self { child, input, replies: hear(output), workshop: None, recipe: None })
    }

    fn is_alive(&mut self) -> bool {
        matches!(self.child.try_wait(), Ok(None))
    }

    /// Sends a task, with the workshop and the recipe where they are not those of the last one.
    fn send(&mut self, asked: &Asked<'_>) -> Result<(), NoReply> {
        let Asked { recipe, opened, plain, task } = asked;
        let same_workshop = self.workshop.as_ref().is_some_and(|told| Arc::ptr_eq(told, &opened.workshop));
        let same_recipe = self.recipe.as_ref().is_some_and(|told| Arc::ptr_eq(told, &recipe.text));
        let request = Request {
            protocol: PROTOCOL,
            recipe: (!same_recipe).then(|| RecipeText::clone(&recipe.text)),
            workshop: (!same_workshop).then(|| opened.texts.clone()),
            plain: *plain,
            task: Task::clone(task),
        };
        let bytes = serde_json::to_vec(&request).map_err(|_| NoReply::Ended("the recipe could not be handed over"))?;
        self.workshop = Some(Arc::clone(&opened.workshop));
        self.recipe = Some(Arc::clone(&recipe.text));
        if bytes.len() > MOST {
            return Err(NoReply::Ended("the order is too long to be handed over"));
        }
        write_frame(&mut self.input, &bytes).map_err(|_| NoReply::BrokeOff)
    }

    fn wait(&mut self, stop: &StopFlag) -> Result<Vec<u8>, NoReply> {
        let begun = Instant::now();
        loop {
            match self.replies.recv_timeout(LOOK) {
                Ok(Frame::Whole(reply)) => return Ok(reply),
                Ok(Frame::TooLong) => {
                    return Err(NoReply::Ended("the recipe made more than can be handed over"));
                }
                Ok(Frame::End) | Err(mpsc::RecvTimeoutError::Disconnected) => return Err(self.ended(stop)),
                Err(mpsc::RecvTimeoutError::Timeout) if stop.load(Ordering::SeqCst) => return Err(NoReply::Stopped),
                Err(mpsc::RecvTimeoutError::Timeout) if begun.elapsed() > PATIENCE => {
                    return Err(NoReply::Ended(TOO_LONG));
                }
                Err(mpsc::RecvTimeoutError::Timeout) => {}
            }
        }
    }

    /// Why the process ended by itself.
    fn ended(&mut self, stop: &StopFlag) -> NoReply {
        let status = self.child.wait();
        match status.ok().and_then(|status| status.code()) {
            _ if stop.load(Ordering::SeqCst) => NoReply::Stopped,
            Some(OVERTIME) => NoReply::Ended(TOO_LONG),
            _ => NoReply::BrokeOff,
        }
    }
}

const TOO_LONG: &str = "the recipe took too long and was stopped";

impl Drop for Running {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ended = self.child.kill().and_then(|()| self.child.wait());
    }
}

/// Reads the replies of a process on a thread of its own, so that a wait for one can be given up.
fn hear(mut output: ChildStdout) -> mpsc::Receiver<Frame> {
    let (sender, replies) = mpsc::channel();
    // Ends with its process. Without a thread the receiver finds its sender gone, as at an end.
    let _begun = std::thread::Builder::new().name("replies".to_owned()).spawn(move || {
        loop {
            let frame = read_frame(&mut output);
            let last = !matches!(frame, Frame::Whole(_));
            if sender.send(frame).is_err() || last {
                return;
            }
        }
    });
    replies
}
