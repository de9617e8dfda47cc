//! Undo and redo over whole documents.
//!
//! Every edit here is finished before it is made (a field is committed, a part is dropped), so
//! each is one step. egui's undoer waits for a second of rest and reads the clock; for finished
//! edits a plain pair of stacks says the same without either.

use narrows::scenario::Document;

/// Steps kept.
const DEPTH: usize = 200;

/// What was, and what was undone.
#[derive(Debug, Default)]
pub struct History {
    past: Vec<Document>,
    future: Vec<Document>,
}

impl History {
    /// Remembers the document as it was before an edit.
    pub fn push(&mut self, before: Document) {
        self.past.push(before);
        if self.past.len() > DEPTH {
            self.past.remove(0);
        }
        self.future.clear();
    }

    /// Forgets everything, as after opening another document.
    pub fn clear(&mut self) {
        self.past.clear();
        self.future.clear();
    }

    /// Whether there is a step back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a step forward.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// One step back.
    pub fn undo(&mut self, document: &mut Document) {
        if let Some(before) = self.past.pop() {
            self.future.push(std::mem::replace(document, before));
        }
    }

    /// One step forward.
    pub fn redo(&mut self, document: &mut Document) {
        if let Some(after) = self.future.pop() {
            self.past.push(std::mem::replace(document, after));
        }
    }
}
