//! One part of the path, of any kind.

use super::{Door, FilterDrier, GaugeSet, Hole, Tube, Valve, shelf_id};
use crate::units::Typed;
use serde::{Deserialize, Serialize};
use uom::si::f64::Length;

/// What parts are made of: few shapes for many kinds.
#[derive(Debug, Clone, Copy)]
#[expect(missing_docs, reason = "each holds the type of its name")]
pub enum Content<'a> {
    Tube(&'a Tube),
    Hole(&'a Hole),
    GaugeSet(&'a GaugeSet),
    FilterDrier(&'a FilterDrier),
    Valve(&'a Valve),
}

/// The same, to be changed.
#[derive(Debug)]
#[expect(missing_docs, reason = "each holds the type of its name")]
pub enum ContentMut<'a> {
    Tube(&'a mut Tube),
    Hole(&'a mut Hole),
    GaugeSet(&'a mut GaugeSet),
    FilterDrier(&'a mut FilterDrier),
    Valve(&'a mut Valve),
}

/// Declares the part kinds once: variant, content, label for people.
macro_rules! parts {
    ($($(#[$doc:meta])* $kind:ident($content:ident) = $label:literal),+ $(,)?) => {
        /// One part of the path from the system to the machine, or from the machine to the
        /// cylinder.
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
        pub enum Part {
            $($(#[$doc])* $kind($content)),+
        }

        /// The kinds of part.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum PartKind {
            $($(#[$doc])* $kind),+
        }

        impl PartKind {
            /// Every kind, in the order a shelf shows them.
            pub const ALL: &'static [PartKind] = &[$(PartKind::$kind),+];

            /// What people call this kind.
            pub fn label(self) -> &'static str {
                match self { $(Self::$kind => $label),+ }
            }

            /// The word files use.
            pub fn tag(self) -> &'static str {
                match self { $(Self::$kind => stringify!($kind)),+ }
            }
        }

        impl Part {
            /// What kind of part it is.
            pub fn kind(&self) -> PartKind {
                match self { $(Self::$kind(_) => PartKind::$kind),+ }
            }

            /// What it holds, of whatever kind it is.
            pub fn content(&self) -> Content<'_> {
                match self { $(Self::$kind(content) => Content::$content(content)),+ }
            }

            /// What it holds, to be changed.
            pub fn content_mut(&mut self) -> ContentMut<'_> {
                match self { $(Self::$kind(content) => ContentMut::$content(content)),+ }
            }

            /// What its owner calls it, if anything.
            pub fn name(&self) -> Option<&str> {
                match self { $(Self::$kind(content) => content.name.as_deref()),+ }
            }

            /// Gives it a name, or takes it away.
            pub fn set_name(&mut self, name: Option<String>) {
                match self { $(Self::$kind(content) => content.name = name),+ }
            }

            /// What it remembers of the shelf part it was copied from.
            pub(crate) fn came_from(&self) -> Option<&str> {
                match self { $(Self::$kind(content) => content.from.as_deref()),+ }
            }

            /// Says which shelf part it was copied from.
            pub fn set_from(&mut self, id: Option<String>) {
                match self { $(Self::$kind(content) => content.from = id),+ }
            }

            pub(crate) fn check(&self, door: &mut Door<'_>) {
                match self { $(Self::$kind(content) => content.check(door)),+ }
            }
        }
    };
}

parts! {
    /// A hose.
    Hose(Tube) = "Hose",
    /// The tube inside a cylinder that reaches the liquid.
    DipTube(Tube) = "Dip tube",
    /// A valve core left in, depressed.
    ValveCore(Hole) = "Valve core",
    /// The stem of an access valve with its core taken out.
    Stem(Hole) = "Core out",
    /// A self-sealing (low-loss) hose end.
    SelfSealingEnd(Hole) = "Self-sealing end",
    /// A ball valve at a hose end.
    BallValve(Hole) = "Ball valve",
    /// A gauge set with its seats.
    GaugeSet(GaugeSet) = "Gauge set",
    /// A filter-drier.
    FilterDrier(FilterDrier) = "Filter-drier",
    /// A sight glass.
    SightGlass(Hole) = "Sight glass",
    /// A screen at an inlet.
    InletScreen(Hole) = "Inlet screen",
    /// An adapter or reducer.
    Adapter(Hole) = "Adapter",
    /// A service valve, or one seat of any valve, as far as it is turned open.
    ServiceValve(Hole) = "Service valve seat",
    /// A tee.
    Tee(Hole) = "Tee",
    /// A valve known by Kv or Cv.
    Valve(Valve) = "Valve",
}

impl Part {
    /// Its name, or its kind's label.
    pub fn label(&self) -> &str {
        self.name().unwrap_or_else(|| self.kind().label())
    }

    /// The id of the shelf part it was copied from.
    pub fn from(&self) -> Option<&str> {
        self.came_from().map(shelf_id)
    }

    /// The tube inside, if it is one.
    pub fn tube(&self) -> Option<&Tube> {
        match self.content() {
            Content::Tube(tube) => Some(tube),
            _ => None,
        }
    }

    /// The hole it stands for, if it is one; a gauge set gives one of its seats.
    pub fn hole(&self) -> Option<Hole> {
        match self.content() {
            Content::Hole(hole) => Some(hole.clone()),
            Content::GaugeSet(set) => Some(set.seat()),
            Content::Tube(_) | Content::FilterDrier(_) | Content::Valve(_) => None,
        }
    }

    /// Its bore, where it has one.
    pub fn bore(&self) -> Option<&Typed<Length>> {
        match self.content() {
            Content::Tube(tube) => Some(&tube.bore),
            Content::Hole(hole) => Some(&hole.bore),
            Content::GaugeSet(set) => Some(&set.bore),
            Content::FilterDrier(drier) => drier.bore.as_ref(),
            Content::Valve(_) => None,
        }
    }

    /// Its length, where it has one.
    pub fn length(&self) -> Option<&Typed<Length>> {
        self.tube().map(|tube| &tube.length)
    }
}
