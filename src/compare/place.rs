//! Where to put the machine: every place between system and receptacle, solved.
//!
//! At each place hose and cord are as long as that place asks (`way`) and the kit is solved as any
//! other: the machine's discharge hose and cylinder move along with it and stay as they are.

use super::bands::Difference;
use super::choice::alone;
use super::drawing::bands;
use super::draws::DrawPlan;
use super::error::CompareError;
use super::gain::WORTH_NAMING_KG_S;
use super::headline::Figure;
use super::sweep::{SweptKit, edited, solved};
use super::way::{Lengths, NoWay, PlaceAsk, Way};
use crate::power::{Finding, PowerPoint, StartOutcome};
use crate::scenario::Document;
use crate::units::Typed;
use uom::si::f64::Length;

/// Two numbers nearer than this are one place.
const SAME_PLACE: f64 = 1e-9;

/// What keeps a motor or its cord from working as they should at a place, the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trouble {
    /// The motor cannot hold its load.
    CannotHold,
    /// It will not start.
    WillNotStart,
    /// It may not start.
    MayNotStart,
    /// It runs on less than nameplate volts less 10 %.
    LowVolts,
    /// The cord carries more than it is marked or made for.
    CordOverloaded,
}

impl Trouble {
    /// Every trouble.
    pub const ALL: [Self; 5] =
        [Self::CannotHold, Self::WillNotStart, Self::MayNotStart, Self::LowVolts, Self::CordOverloaded];

    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::CannotHold => "cannot_hold",
            Self::WillNotStart => "will_not_start",
            Self::MayNotStart => "may_not_start",
            Self::LowVolts => "low_volts",
            Self::CordOverloaded => "cord_overloaded",
        }
    }
}

/// The machine at one place.
#[derive(Debug, Clone)]
pub struct Placed {
    /// The hose there.
    pub hose: Typed<Length>,
    /// The hose of the other port's branch that moved with it.
    pub beside: Option<Typed<Length>>,
    /// The cord there; none where the machine is plugged straight in.
    pub cord: Option<Typed<Length>>,
    /// What makes the document so: path and text. Nothing for today's place.
    pub edits: Vec<(String, String)>,
    /// The kit there, or why the document cannot be solved so.
    pub solved: Result<SweptKit, String>,
}

impl Placed {
    /// Volts and amps there.
    pub fn power(&self) -> Option<&PowerPoint> {
        self.solved.as_ref().ok()?.answer.power.as_ref().ok()
    }

    /// Recovery rate in kg/s.
    pub fn rate_kg_s(&self) -> Option<f64> {
        self.solved.as_ref().ok()?.headline.si(Figure::Rate)
    }

    /// What is wrong with motor and cord there; none where there are no volts to tell.
    pub fn troubles(&self) -> Option<Vec<Trouble>> {
        let power = self.power()?;
        let is_found = |of: fn(&Finding) -> bool| power.verdicts.iter().any(|verdict| of(&verdict.finding));
        let has = |trouble: &Trouble| match trouble {
            Trouble::CannotHold => power.running.point().is_none(),
            Trouble::WillNotStart => matches!(power.starting.outcome, StartOutcome::WillNotStart(_)),
            Trouble::MayNotStart => matches!(power.starting.outcome, StartOutcome::MayNotStart(_)),
            Trouble::LowVolts => is_found(|finding| matches!(finding, Finding::UnderVoltage { .. })),
            Trouble::CordOverloaded => is_found(|finding| {
                matches!(finding, Finding::CordOverMarking { .. } | Finding::CordOverAmpacity { .. })
            }),
        };
        Some(Trouble::ALL.into_iter().filter(has).collect())
    }

    /// The motor starts and runs on enough volts, and the cord is not overloaded.
    pub fn is_sound(&self) -> bool {
        self.troubles().is_some_and(|troubles| troubles.is_empty())
    }
}

/// Every place of one kit, from the system to the receptacle.
#[derive(Debug, Clone)]
pub struct Places {
    /// What gives way.
    pub way: Way,
    /// The places; hoses get longer.
    pub places: Vec<Placed>,
    /// Which of them is today's: the document as it stands.
    pub today: usize,
}

impl Places {
    /// Today's place.
    pub fn today(&self) -> Option<&Placed> {
        self.places.get(self.today)
    }

    /// Where the rate is highest.
    pub fn fastest(&self) -> Option<usize> {
        self.fastest_where(|_| true)
    }

    /// Where the rate is highest among the places where motor and cord are as they should be.
    pub fn advised(&self) -> Option<usize> {
        self.fastest_where(Placed::is_sound)
    }

    /// Today's place if no other brings anything, else the one nearest to the system.
    fn fastest_where(&self, is_wanted: impl Fn(&Placed) -> bool) -> Option<usize> {
        let wanted = |at: usize| self.places.get(at).filter(|one| is_wanted(one))?.rate_kg_s();
        let order = std::iter::once(self.today).chain(0..self.places.len());
        let rates = order.filter_map(|at| Some((at, wanted(at)?)));
        let best = rates.fold(None, |best: Option<(usize, f64)>, (at, rate)| match best {
            Some((_, highest)) if rate <= highest + WORTH_NAMING_KG_S => best,
            _ => Some((at, rate)),
        });
        best.map(|(at, _)| at)
    }

    /// Stretches of neighbouring places of which something is true: first and last of each.
    pub fn stretches(&self, is_so: impl Fn(usize, &Placed) -> bool) -> Vec<(usize, usize)> {
        let mut stretches: Vec<(usize, usize)> = Vec::new();
        for (at, _) in self.places.iter().enumerate().filter(|(at, one)| is_so(*at, one)) {
            match stretches.last_mut() {
                Some((_, last)) if *last + 1 == at => *last = at,
                _ => stretches.push((at, at)),
            }
        }
        stretches
    }
}

/// Solves the kit of this name at every place; or says why it has only one.
///
/// # Errors
/// No such kit; the document's faults; a hose, a cord or a number of places that there is not.
pub fn places(document: &Document, kit: &str, ask: &PlaceAsk) -> Result<Result<Places, NoWay>, CompareError> {
    let alone = alone(document, kit)?;
    let faults = crate::scenario::check(&alone);
    if !faults.is_empty() {
        return Err(faults.into());
    }
    let way = match Way::of(document, &alone, ask)? {
        Ok(way) => way,
        Err(no_way) => return Ok(Err(no_way)),
    };
    let now = way.hose.today.number();
    let numbers = way.numbers(ask.steps);
    let others = numbers.into_iter().filter(|number| (number - now).abs() > SAME_PLACE * now.abs());
    let mut places = others
        .map(|number| {
            let lengths = way.lengths(number)?;
            let edits = way.edits(&lengths);
            place(&alone, lengths, edits)
        })
        .collect::<Result<Vec<Placed>, CompareError>>()?;
    let today = places.iter().take_while(|one| one.hose.number() < now).count();
    places.insert(today, place(&alone, way.today(), Vec::new())?);
    Ok(Ok(Places { way, places, today }))
}

fn place(alone: &Document, lengths: Lengths, edits: Vec<(String, String)>) -> Result<Placed, CompareError> {
    let changed = edited(alone, edits.iter().map(|(path, text)| (path.as_str(), text.clone())))?;
    let none = || Err("there is no kit".to_owned());
    let solved = solved(&changed).and_then(|kits| kits.into_iter().next().map_or_else(none, Ok));
    let Lengths { hose, beside, cord } = lengths;
    Ok(Placed { hose, beside, cord, edits, solved })
}

/// What another place brings against today's, draw by draw: both are kits of one document and share
/// their draws. None if the draws were stopped before the first.
///
/// # Errors
/// A document that cannot be solved at one of the two places.
pub fn rate_difference(
    document: &Document,
    places: &Places,
    to: usize,
    plan: DrawPlan,
    should_stop: &dyn Fn() -> bool,
) -> Result<Option<Difference>, CompareError> {
    let Some(there) = places.places.get(to) else { return Ok(None) };
    let mut beside = alone(document, &places.way.kit)?;
    let edits = there.edits.iter().map(|(path, text)| (path.as_str(), text.clone()));
    let moved = edited(&beside, edits)?;
    // Each with the cords of its own place, so that both stand in one document.
    for kit in &mut beside.kits {
        kit.cords.get_or_insert_with(|| document.supply.cords.clone());
    }
    let name = beside.free_kit_name();
    let cords = moved.supply.cords;
    beside.kits.extend(moved.kits.into_iter().map(|mut kit| {
        kit.cords.get_or_insert(cords.clone());
        kit.name.clone_from(&name);
        kit
    }));
    let drawn = bands(&beside, plan, should_stop)?;
    Ok(drawn.differences.into_iter().next().filter(|_| drawn.draws > 0))
}
