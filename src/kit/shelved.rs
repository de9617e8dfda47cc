//! What can stand on a shelf and be copied from it.

use super::{Branch, Cord, Cylinder, Door, Fault, Machine, Motor, Part};

/// A thing that remembers which shelf entry it came from.
pub trait Shelved {
    /// What it remembers: an id, and a mark of the figures then (`hose-quarter@1a2b3c4d`).
    fn came_from(&self) -> Option<&str>;

    /// Says which entry it was copied from.
    fn set_from(&mut self, id: Option<String>);

    /// What its owner calls it, if anything.
    fn name(&self) -> Option<&str>;

    /// Gives it a name, or takes it away.
    fn set_name(&mut self, name: Option<String>);

    /// What cannot be used as it stands.
    fn faults(&self) -> Vec<Fault>;
}

/// The id in what a copy remembers.
pub fn shelf_id(from: &str) -> &str {
    from.split('@').next().unwrap_or(from)
}

macro_rules! shelved {
    ($($thing:ty),+) => {
        $(impl Shelved for $thing {
            fn came_from(&self) -> Option<&str> {
                self.from.as_deref()
            }

            fn set_from(&mut self, id: Option<String>) {
                self.from = id;
            }

            fn name(&self) -> Option<&str> {
                self.name.as_deref()
            }

            fn set_name(&mut self, name: Option<String>) {
                self.name = name;
            }

            fn faults(&self) -> Vec<Fault> {
                let mut faults = Vec::new();
                self.check(&mut Door::new(&mut faults));
                faults
            }
        })+
    };
}

shelved!(Machine, Motor, Cylinder, Cord, Branch);

impl Shelved for Part {
    fn came_from(&self) -> Option<&str> {
        Part::came_from(self)
    }

    fn set_from(&mut self, id: Option<String>) {
        Part::set_from(self, id);
    }

    fn name(&self) -> Option<&str> {
        Part::name(self)
    }

    fn set_name(&mut self, name: Option<String>) {
        Part::set_name(self, name);
    }

    fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.check(&mut Door::new(&mut faults));
        faults
    }
}
