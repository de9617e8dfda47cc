//! What can stand on a shelf and be copied from it.

use super::{Branch, Cord, Cylinder, Door, Fault, Machine, Motor, Part};

/// A thing that remembers which shelf entry it came from.
pub trait Shelved {
    /// Says which entry it was copied from.
    fn set_from(&mut self, id: Option<String>);

    /// What cannot be used as it stands.
    fn faults(&self) -> Vec<Fault>;
}

macro_rules! shelved {
    ($($thing:ty),+) => {
        $(impl Shelved for $thing {
            fn set_from(&mut self, id: Option<String>) {
                self.from = id;
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
    fn set_from(&mut self, id: Option<String>) {
        Part::set_from(self, id);
    }

    fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.check(&mut Door::new(&mut faults));
        faults
    }
}
