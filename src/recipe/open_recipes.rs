//! Keeps recipes open between runs, because compiling a recipe takes longer than most of its runs.
//!
//! A script engine cannot leave the thread it was made on, so one long-lived thread owns all engines and receives jobs
//! through a channel. Limits apply to each run: operations, growth of memory, the stop flag.

use super::library::LoadedRecipe;
use super::opened::Recipe;
use super::protocol::{Reply, Task};
use crate::cutting::Planner;
use crate::diagnostic::Diagnostic;
use crate::recipe::proof::check::CheckReport;
use crate::workshop::Workshop;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::Ordering;
use std::sync::{Arc, mpsc};
use std::thread;

/// Native stack of the thread, in bytes: the engine uses up to 24 kB a call level, and 32 levels are allowed.
const STACK: usize = 8 << 20;

/// The most recipes kept open; the least recently used one is closed first.
const MOST_OPEN: usize = 32;

/// Answers tasks, opening each recipe once for a workshop.
#[derive(Debug, Default)]
pub struct OpenRecipes {
    planner: Planner,
    /// `None` until the first task.
    thread: Option<mpsc::Sender<Job>>,
}

struct Job {
    recipe: LoadedRecipe,
    workshop: Arc<Workshop>,
    plain: bool,
    task: Task,
    reply: mpsc::Sender<Reply>,
}

impl OpenRecipes {
    /// Creates a set with no recipe open. Plans come from `planner`, whose flag stops scripts as well.
    pub fn new(planner: Planner) -> Self {
        Self { planner, thread: None }
    }

    /// Answers a task. A workshop counts as unchanged while it is the same allocation.
    pub fn answer(&mut self, recipe: &LoadedRecipe, workshop: &Arc<Workshop>, plain: bool, task: Task) -> Reply {
        let failed = |message: &str| Reply::Failed(vec![Diagnostic::new(message)]);
        let (reply, answered) = mpsc::channel();
        let job = Job { recipe: recipe.clone(), workshop: Arc::clone(workshop), plain, task, reply };
        let sent = match &self.thread {
            Some(thread) => thread.send(job).map_err(|unsent| unsent.0),
            None => Err(job),
        };
        // Start the thread on the first task, and again if it has ended.
        if let Err(job) = sent {
            self.thread = begin(self.planner.clone());
            if self.thread.as_ref().is_none_or(|thread| thread.send(job).is_err()) {
                return failed("there is no room to run a recipe now");
            }
        }
        answered.recv().unwrap_or_else(|_| failed("the recipe could not be worked out to its end"))
    }
}

/// Starts the thread, which ends when its sender is dropped.
fn begin(planner: Planner) -> Option<mpsc::Sender<Job>> {
    let (sender, jobs) = mpsc::channel::<Job>();
    let builder = thread::Builder::new().name("recipe".to_owned()).stack_size(STACK);
    let begun = builder.spawn(move || {
        let mut open: Vec<Open> = Vec::new();
        for job in jobs {
            let sender = job.reply.clone();
            // A recipe that panics is dropped with its engine, and so are the senders of its reply, which ends the
            // caller's wait.
            if let Ok(reply) = catch_unwind(AssertUnwindSafe(|| answer(&mut open, job, &planner))) {
                // Nobody waits any more if the program is about to end.
                let _heard = sender.send(reply);
            }
        }
    });
    begun.ok().map(|_| sender)
}

/// One recipe on its engine, with what it was opened from.
struct Open {
    from: LoadedRecipe,
    plain: bool,
    recipe: Recipe,
}

impl Open {
    fn is_for(&self, job: &Job) -> bool {
        // Two files of different names may have the same text, and errors name the file.
        self.plain == job.plain
            && self.from.fingerprint == job.recipe.fingerprint
            && self.from.text.name == job.recipe.text.name
            && Arc::ptr_eq(&self.recipe.workshop, &job.workshop)
    }
}

fn answer(open: &mut Vec<Open>, job: Job, planner: &Planner) -> Reply {
    // Take the recipe from the list while it runs, so that it is gone if it panics. With the stop flag raised, open it
    // again, which ends the task at once; a run would first refuse answers that it cannot evaluate.
    let stopped = planner.stop().load(Ordering::Relaxed);
    let opened = match open.iter().position(|open| open.is_for(&job) && !stopped) {
        Some(at) => Ok(open.remove(at)),
        None => Recipe::open(Arc::clone(&job.recipe.text), Arc::clone(&job.workshop), job.plain, planner.clone())
            .map(|recipe| Open { from: job.recipe.clone(), plain: job.plain, recipe }),
    };
    match opened {
        Ok(opened) => {
            let reply = opened.recipe.answer(job.task);
            if open.len() >= MOST_OPEN {
                open.remove(0);
            }
            open.push(opened);
            reply
        }
        // A check reports even a recipe that cannot be opened.
        Err(error) if job.task == Task::Check && !error.is_stop() => Reply::Checked(CheckReport::unreadable(&error)),
        Err(error) => Reply::Failed(vec![error]),
    }
}
