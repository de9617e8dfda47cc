//! One part of the path, of any kind.

use super::{Door, FilterDrier, GaugeSet, Hole, Tube, Valve, shelf_id};
use crate::units::Typed;
use serde::{Deserialize, Serialize};
use uom::si::f64::Length;

/// Declares the part kinds once: variant, content, label for people.
macro_rules! parts {
    ($($(#[$doc:meta])* $kind:ident($content:ty) = $label:literal),+ $(,)?) => {
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
    Stem(Hole) = "Stem, core out",
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
        match self {
            Self::Hose(tube) | Self::DipTube(tube) => Some(tube),
            _ => None,
        }
    }

    /// The hole it is, if it is one and nothing more.
    fn own_hole(&self) -> Option<&Hole> {
        match self {
            Self::ValveCore(hole)
            | Self::Stem(hole)
            | Self::SelfSealingEnd(hole)
            | Self::BallValve(hole)
            | Self::SightGlass(hole)
            | Self::InletScreen(hole)
            | Self::Adapter(hole)
            | Self::ServiceValve(hole)
            | Self::Tee(hole) => Some(hole),
            Self::GaugeSet(_) | Self::Hose(_) | Self::DipTube(_) | Self::FilterDrier(_) | Self::Valve(_) => {
                None
            }
        }
    }

    /// The hole it stands for, if it is one; a gauge set gives one of its seats.
    pub fn hole(&self) -> Option<Hole> {
        match self {
            Self::GaugeSet(set) => Some(set.seat()),
            other => other.own_hole().cloned(),
        }
    }

    /// Its bore, where it has one.
    pub fn bore(&self) -> Option<&Typed<Length>> {
        match self {
            Self::Hose(tube) | Self::DipTube(tube) => Some(&tube.bore),
            Self::GaugeSet(set) => Some(&set.bore),
            Self::FilterDrier(drier) => drier.bore.as_ref(),
            other => other.own_hole().map(|hole| &hole.bore),
        }
    }

    /// Its bore, to be changed, where it has one.
    pub fn bore_mut(&mut self) -> Option<&mut Typed<Length>> {
        match self {
            Self::Hose(tube) | Self::DipTube(tube) => Some(&mut tube.bore),
            Self::GaugeSet(set) => Some(&mut set.bore),
            Self::FilterDrier(drier) => drier.bore.as_mut(),
            Self::Valve(_) => None,
            Self::ValveCore(hole)
            | Self::Stem(hole)
            | Self::SelfSealingEnd(hole)
            | Self::BallValve(hole)
            | Self::SightGlass(hole)
            | Self::InletScreen(hole)
            | Self::Adapter(hole)
            | Self::ServiceValve(hole)
            | Self::Tee(hole) => Some(&mut hole.bore),
        }
    }

    /// Its length, where it has one.
    pub fn length(&self) -> Option<&Typed<Length>> {
        self.tube().map(|tube| &tube.length)
    }

    /// Its length, to be changed, where it has one.
    pub fn length_mut(&mut self) -> Option<&mut Typed<Length>> {
        match self {
            Self::Hose(tube) | Self::DipTube(tube) => Some(&mut tube.length),
            _ => None,
        }
    }
}
