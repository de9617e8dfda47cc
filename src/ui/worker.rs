//! The solver's thread: the newest document wins, the answer comes with the document it is for.

use std::sync::mpsc::{Receiver, Sender, channel};

use narrows::scenario::Document;

use super::answer::{Answer, solve};

/// A thread that turns documents into answers.
pub struct Worker {
    requests: Sender<Document>,
    answers: Receiver<Answer>,
}

impl Worker {
    /// Starts the thread.
    ///
    /// # Errors
    /// The system starts no thread.
    pub fn start(ctx: &egui::Context) -> Result<Self, String> {
        let (requests, inbox) = channel::<Document>();
        let (outbox, answers) = channel();
        let ctx = ctx.clone();
        std::thread::Builder::new()
            .name("solver".to_owned())
            .spawn(move || {
                while let Ok(first) = inbox.recv() {
                    let newest = inbox.try_iter().last().unwrap_or(first);
                    if outbox.send(solve(newest)).is_err() {
                        return;
                    }
                    ctx.request_repaint();
                }
            })
            .map_err(|error| format!("the solver did not start: {error}"))?;
        Ok(Self { requests, answers })
    }

    /// Asks for the answer to a document.
    pub fn ask(&self, document: &Document) {
        // A worker that has ended gives no answer; the old one stays, marked as stale.
        let _ = self.requests.send(document.clone());
    }

    /// The newest answer since the last call.
    pub fn newest(&self) -> Option<Answer> {
        self.answers.try_iter().last()
    }
}
