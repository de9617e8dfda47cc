//! Anything that stands on the shelf, whatever its kind.

use crate::kit::{Branch, Cord, Cylinder, Fault, Machine, Motor, Part, PartKind, Shelved};
use serde::{Serialize, de::DeserializeOwned};

use super::item::{Item, bare, mark};
use super::shelf::Shelf;

/// A thing of any kind. Written as the thing itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Thing {
    /// A part of a path.
    Part(Part),
    /// A machine.
    Machine(Machine),
    /// A motor.
    Motor(Motor),
    /// A cylinder.
    Cylinder(Cylinder),
    /// A cord.
    Cord(Cord),
    /// A branch circuit by its conductors.
    Wiring(Branch),
}

/// The kinds a shelf is browsed by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThingKind {
    /// A part of this kind.
    Part(PartKind),
    /// Machines.
    Machine,
    /// Motors.
    Motor,
    /// Cylinders.
    Cylinder,
    /// Cords.
    Cord,
    /// Branch circuits.
    Wiring,
}

impl ThingKind {
    /// Every kind, in the order a shelf shows them.
    pub fn all() -> impl Iterator<Item = Self> {
        let others = [Self::Machine, Self::Motor, Self::Cylinder, Self::Cord, Self::Wiring];
        PartKind::ALL.iter().copied().map(Self::Part).chain(others)
    }

    /// What people call it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Part(kind) => kind.label(),
            Self::Machine => "Machine",
            Self::Motor => "Motor",
            Self::Cylinder => "Cylinder",
            Self::Cord => "Extension cord",
            Self::Wiring => "Branch circuit",
        }
    }

    /// The list of a shelf file it stands in.
    pub(super) fn list(self) -> &'static str {
        match self {
            Self::Part(_) => "parts",
            Self::Machine => "machines",
            Self::Motor => "motors",
            Self::Cylinder => "cylinders",
            Self::Cord => "cords",
            Self::Wiring => "wiring",
        }
    }
}

impl Thing {
    /// What kind of thing it is.
    pub fn kind(&self) -> ThingKind {
        match self {
            Self::Part(part) => ThingKind::Part(part.kind()),
            Self::Machine(_) => ThingKind::Machine,
            Self::Motor(_) => ThingKind::Motor,
            Self::Cylinder(_) => ThingKind::Cylinder,
            Self::Cord(_) => ThingKind::Cord,
            Self::Wiring(_) => ThingKind::Wiring,
        }
    }
}

/// Does the same with whatever is inside.
macro_rules! inside {
    ($thing:expr, $inner:ident => $what:expr) => {
        match $thing {
            Thing::Part($inner) => $what,
            Thing::Machine($inner) => $what,
            Thing::Motor($inner) => $what,
            Thing::Cylinder($inner) => $what,
            Thing::Cord($inner) => $what,
            Thing::Wiring($inner) => $what,
        }
    };
}

impl Shelved for Thing {
    fn came_from(&self) -> Option<&str> {
        inside!(self, inner => Shelved::came_from(inner))
    }

    fn set_from(&mut self, id: Option<String>) {
        inside!(self, inner => Shelved::set_from(inner, id));
    }

    fn name(&self) -> Option<&str> {
        inside!(self, inner => Shelved::name(inner))
    }

    fn set_name(&mut self, name: Option<String>) {
        inside!(self, inner => Shelved::set_name(inner, name));
    }

    fn faults(&self) -> Vec<Fault> {
        inside!(self, inner => inner.faults())
    }
}

/// A kind of thing that has its own list on the shelf.
pub trait OnShelf:
    Shelved + Clone + PartialEq + Serialize + DeserializeOwned + Into<Thing> + 'static
{
    /// Its list.
    fn list(shelf: &Shelf) -> &[Item<Self>];
}

macro_rules! on_shelf {
    ($($thing:ident($content:ty) = $list:ident),+ $(,)?) => {
        $(
            impl From<$content> for Thing {
                fn from(thing: $content) -> Self {
                    Self::$thing(thing)
                }
            }

            impl OnShelf for $content {
                fn list(shelf: &Shelf) -> &[Item<Self>] {
                    &shelf.$list
                }
            }
        )+

        impl Shelf {
            /// Everything, whatever its kind.
            pub fn things(&self) -> Vec<Item<Thing>> {
                let mut all = Vec::new();
                $(all.extend(self.$list.iter().map(any));)+
                all
            }
        }
    };
}

on_shelf!(
    Part(Part) = parts,
    Machine(Machine) = machines,
    Motor(Motor) = motors,
    Cylinder(Cylinder) = cylinders,
    Cord(Cord) = cords,
    Wiring(Branch) = wiring,
);

/// The entry with its thing as one of any kind.
fn any<T: Into<Thing> + Clone>(item: &Item<T>) -> Item<Thing> {
    Item {
        id: item.id.clone(),
        name: item.name.clone(),
        origin: item.origin,
        note: item.note.clone(),
        retired: item.retired,
        item: item.item.clone().into(),
        file: item.file.clone(),
    }
}

impl Shelf {
    /// What may be taken: a person's own first, nothing retired.
    pub fn offered<T: OnShelf>(&self) -> impl Iterator<Item = &Item<T>> {
        let (own, built_in): (Vec<_>, Vec<_>) =
            T::list(self).iter().filter(|item| !item.retired).partition(|item| item.file.is_some());
        own.into_iter().chain(built_in)
    }

    /// The entry a copy came from, if its figures have changed since and differ from the copy's.
    ///
    /// A copy that does not say which figures it was made with is left in peace.
    pub fn newer<T: OnShelf>(&self, copy: &T) -> Option<&Item<T>> {
        let (id, old_mark) = copy.came_from()?.split_once('@')?;
        let item = T::list(self).iter().find(|item| item.id == id)?;
        (mark(&item.item) != old_mark && bare(&item.item) != bare(copy)).then_some(item)
    }
}
