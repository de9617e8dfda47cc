//! The thread that studies the newest document: first what is quick, then the long draws that the
//! open view wishes for.

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};

use narrows::compare::DrawPlan;
use narrows::scenario::Document;

use super::draws::{Counts, Telling, draw, has};
use super::progress::{Progress, Wish};
use super::study::{Study, study};

/// What the thread is woken for.
enum Message {
    /// Another document, with the number of the request.
    Document(u64, Box<Document>),
    /// Other wishes, or leave to go on.
    Look,
}

/// What window and thread share.
#[derive(Default)]
struct Shared {
    asked: AtomicU64,
    wishes: Mutex<Vec<Wish>>,
    progress: Progress,
}

impl Shared {
    /// The first wish that the study does not fulfil.
    fn missing(&self, study: &Study) -> Option<Wish> {
        let wishes = self.wishes.lock().map(|wishes| wishes.clone()).unwrap_or_default();
        wishes.into_iter().find(|wish| !has(study, *wish))
    }
}

/// A thread that studies the newest document.
pub struct Scholar {
    requests: Sender<Message>,
    studies: Receiver<Study>,
    shared: Arc<Shared>,
    last: Option<Document>,
}

impl Scholar {
    /// Starts the thread.
    ///
    /// # Errors
    /// The system starts no thread.
    pub fn start(ctx: &egui::Context) -> Result<Self, String> {
        let (requests, inbox) = channel::<Message>();
        let (outbox, studies) = channel();
        let shared = Arc::new(Shared::default());
        let work = Work { ctx: ctx.clone(), outbox, shared: Arc::clone(&shared), counts: Counts::WINDOW };
        std::thread::Builder::new()
            .name("studies".to_owned())
            .spawn(move || work.until_the_end(&inbox))
            .map_err(|error| format!("the thread for studies did not start: {error}"))?;
        Ok(Self { requests, studies, shared, last: None })
    }

    /// Asks for the study of a document, unless it was the last one asked for; ends the one under way.
    pub fn ask(&mut self, document: &Document) {
        if self.last.as_ref() == Some(document) {
            return;
        }
        self.last = Some(document.clone());
        self.shared.progress.cancel(false);
        let number = self.shared.asked.fetch_add(1, Ordering::Relaxed) + 1;
        // A thread that has ended gives no answer; the old study stays, marked as stale.
        let _ = self.requests.send(Message::Document(number, Box::new(document.clone())));
    }

    /// Says which long draws are wished for, the first one first.
    pub fn wish(&mut self, wishes: &[Wish]) {
        let Ok(mut before) = self.shared.wishes.lock() else { return };
        if *before != wishes {
            *before = wishes.to_vec();
            drop(before);
            let _ = self.requests.send(Message::Look);
        }
    }

    /// How far the long draws are.
    pub fn progress(&self) -> &Progress {
        &self.shared.progress
    }

    /// Ends the long draws for this document, or takes them up again.
    pub fn cancel(&mut self, cancelled: bool) {
        self.shared.progress.cancel(cancelled);
        if !cancelled {
            let _ = self.requests.send(Message::Look);
        }
    }

    /// The newest study since the last call.
    pub fn newest(&self) -> Option<Study> {
        self.studies.try_iter().last()
    }
}

/// The thread's own side.
struct Work {
    ctx: egui::Context,
    outbox: Sender<Study>,
    shared: Arc<Shared>,
    counts: Counts,
}

/// The window is drawn anew every so many draws.
const REPAINT_EVERY: usize = 4;

impl Work {
    fn until_the_end(&self, inbox: &Receiver<Message>) {
        let mut current: Option<(u64, Study)> = None;
        while let Ok(first) = inbox.recv() {
            let newest = std::iter::once(first).chain(inbox.try_iter());
            let document = newest.fold(None, |last, message| match message {
                Message::Document(number, document) => Some((number, document)),
                Message::Look => last,
            });
            if let Some((number, document)) = document {
                let stop = || self.shared.asked.load(Ordering::Relaxed) != number;
                let tell = &mut |study: &Study| self.tell(study);
                current = Some((number, study(*document, Some(DrawPlan::default()), &stop, tell)));
            }
            if let Some((number, study)) = &mut current {
                self.draw_all(*number, study);
            }
        }
    }

    fn draw_all(&self, number: u64, study: &mut Study) {
        let progress = &self.shared.progress;
        let is_old = || self.shared.asked.load(Ordering::Relaxed) != number;
        while !is_old() && !progress.is_cancelled() {
            let Some(wish) = self.shared.missing(study) else { return };
            let before = study.clone();
            let telling = Telling {
                stop: &|| is_old() || progress.is_cancelled() || self.shared.missing(&before) != Some(wish),
                keep: &|| progress.is_cancelled() && !is_old(),
                tell: &|made, of| {
                    progress.tell(made, of);
                    if made % REPAINT_EVERY == 0 {
                        self.ctx.request_repaint();
                    }
                },
            };
            study.drawing = Some(wish);
            self.tell(study);
            draw(study, wish, self.counts, &telling);
            study.drawing = None;
            self.tell(study);
            // What cannot be drawn is not tried again for ever.
            if !is_old()
                && !progress.is_cancelled()
                && !has(study, wish)
                && self.shared.missing(study) == Some(wish)
            {
                return;
            }
        }
    }

    fn tell(&self, study: &Study) {
        // Nobody listens any more: the next receive ends the thread.
        let _ = self.outbox.send(study.clone());
        self.ctx.request_repaint();
    }
}
