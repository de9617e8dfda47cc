//! Where to put the machine, with cautions: what window and terminal both show.

use serde_json::{Value, json};
use uom::si::electric_current::ampere;
use uom::si::f64::MassRate;

use super::error_words::job_error_text;
use super::figures::{bands_json, headline_json, shown};
use super::json::caution_json;
use super::placed_words::place_lines;
use super::power_words::start_words;
use super::solved::{SolvedKit, solve_document};
use crate::advice::{Caution, DEFERENCE, cautions, withheld_because};
use crate::compare::{
    CompareError, Difference, DrawPlan, Figure, Headline, NoWay, PlaceAsk, Placed, Places, Stretch, Trouble,
    places, rate_difference,
};
use crate::scenario::Document;
use crate::units::{Typed, UnitSet};

/// One kit and its places.
#[derive(Debug, Clone)]
pub struct PlacedKit {
    /// The kit as it stands, with its answer and cautions.
    pub kit: SolvedKit,
    /// Its places, or why it has only one.
    pub way: Result<PlacedWay, NoWay>,
}

/// The places of one kit, and what to heed at each.
#[derive(Debug, Clone)]
pub struct PlacedWay {
    /// The places.
    pub places: Places,
    /// What to heed at each place, Stops first.
    pub cautions: Vec<Vec<Caution>>,
    /// Rates at [`PlacedWay::rival`] less today's, once drawn.
    pub difference: Option<Difference>,
}

impl PlacedWay {
    fn new(places: Places) -> Self {
        let heed =
            |one: &Placed| one.solved.as_ref().map_or(Vec::new(), |kit| cautions(&kit.kit, &kit.answer));
        Self { cautions: places.places.iter().map(heed).collect(), places, difference: None }
    }

    /// The place of this number.
    pub fn at(&self, at: usize) -> Option<&Placed> {
        self.places.places.get(at)
    }

    /// What to heed at a place.
    pub fn cautions_at(&self, at: usize) -> &[Caution] {
        self.cautions.get(at).map_or(&[], Vec::as_slice)
    }

    /// Whether a Stop withholds the rate somewhere; then no place is better than another.
    pub fn is_withheld(&self) -> bool {
        self.cautions.iter().any(|cautions| withheld_because(cautions).is_some())
    }

    /// The figures of a place that may be shown.
    pub fn figures(&self, at: usize) -> Option<Headline> {
        let kit = self.at(at)?.solved.as_ref().ok()?;
        Some(shown(&kit.headline, withheld_because(self.cautions_at(at)).is_some()))
    }

    /// The rate at a place, if it may be shown.
    pub fn rate(&self, at: usize) -> Option<MassRate> {
        self.figures(at)?.rate
    }

    /// Why there is no rate at a place.
    pub fn no_rate(&self, at: usize, units: UnitSet) -> Option<String> {
        match &self.at(at)?.solved {
            Err(fault) => Some(fault.clone()),
            Ok(kit) => match (withheld_because(self.cautions_at(at)), &kit.answer.point) {
                (Some(caution), _) => Some(caution.text.clone()),
                (None, Err(error)) => Some(job_error_text(error, units, kit.kit.setup.ambient.pressure)),
                (None, Ok(_)) => None,
            },
        }
    }

    /// Where the rate is highest, if rates may be shown.
    pub fn fastest(&self) -> Option<usize> {
        self.places.fastest().filter(|_| !self.is_withheld())
    }

    /// Where it is highest among the places where motor and cord are as they should be.
    pub fn advised(&self) -> Option<usize> {
        self.places.advised().filter(|_| !self.is_withheld())
    }

    /// The place that today's is weighed against: the advised one, or where that is today's, the fastest.
    pub fn rival(&self) -> Option<usize> {
        let is_other = |at: &usize| *at != self.places.today;
        self.advised().filter(is_other).or_else(|| self.fastest().filter(is_other))
    }

    /// Draws the difference between that place and today's.
    ///
    /// # Errors
    /// The document's faults at that place.
    pub fn draw(
        &mut self,
        document: &Document,
        plan: DrawPlan,
        should_stop: &dyn Fn() -> bool,
    ) -> Result<(), CompareError> {
        if let Some(rival) = self.rival() {
            self.difference = rate_difference(document, &self.places, rival, plan, should_stop)?;
        }
        Ok(())
    }
}

/// Moves the machine of every kit of a document.
///
/// # Errors
/// The document's faults; a hose, a cord or a number of places that a kit has not.
pub fn place_document(document: &Document, ask: &PlaceAsk) -> Result<Vec<PlacedKit>, CompareError> {
    let placed = |kit: SolvedKit| {
        let way = places(document, &kit.kit.name, ask)?.map(PlacedWay::new);
        Ok(PlacedKit { kit, way })
    };
    solve_document(document)?.into_iter().map(placed).collect()
}

/// The whole answer of `narrows place --json`.
pub fn placed_json(document: &Document, placed: &[PlacedKit], units: UnitSet) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "refrigerant": placed.first().map(|one| one.kit.kit.setup.refrigerant.designation()),
        "kits": placed.iter().map(|one| kit_json(one, units)).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(placed: &PlacedKit, units: UnitSet) -> Value {
    let (name, label) = (&placed.kit.kit.name, &placed.kit.kit.label);
    let way = match &placed.way {
        Ok(way) => way,
        Err(no_way) => return json!({ "name": name, "label": label, "no_way": no_way.to_string() }),
    };
    let places = &way.places;
    json!({
        "name": name,
        "label": label,
        "no_way": null,
        "hose": stretch_json(&places.way.hose),
        "hose_beside": places.way.beside.as_ref().map(stretch_json),
        "cord": stretch_json(&places.way.cord),
        "cord_shared_with": places.way.shared_with,
        "today": places.today,
        "fastest": way.fastest(),
        "advised": way.advised(),
        "rate_difference": way.difference.as_ref().zip(way.rival()).map(|(difference, to)| json!({
            "to": to,
            "verdict": difference.verdict(Figure::Rate).words(),
            "band": bands_json(|figure| difference.band(figure).filter(|_| figure == Figure::Rate)),
        })),
        "sentences": place_lines(way, units).into_iter().map(|(_, line)| line).collect::<Vec<_>>(),
        "places": (0..places.places.len()).filter_map(|at| place_json(way, at, units)).collect::<Vec<_>>(),
    })
}

fn stretch_json(stretch: &Stretch) -> Value {
    json!({
        "path": stretch.path,
        "name": stretch.name,
        "today_m": stretch.today.si(),
        "shortest_m": stretch.shortest.si(),
    })
}

fn place_json(way: &PlacedWay, at: usize, units: UnitSet) -> Option<Value> {
    let placed = way.at(at)?;
    let length = |typed: &Option<Typed<_>>| typed.as_ref().map_or(0.0, Typed::si);
    let power = placed.power();
    let running = power.and_then(|power| power.running.point());
    let today = way.cautions_at(way.places.today);
    let appears = |caution: &&Caution| today.iter().all(|one| one.id != caution.id);
    let mut value = headline_json(&way.figures(at).unwrap_or_default());
    let more = json!({
        "hose_m": placed.hose.si(),
        "hose_beside_m": placed.beside.as_ref().map(Typed::si),
        "cord_m": length(&placed.cord),
        "edits": placed.edits.iter().map(|(path, text)| format!("{path}={text}")).collect::<Vec<_>>(),
        "running_a": running.map(|running| running.current.get::<ampere>()),
        "voltage_ratio": running.map(|running| running.voltage_ratio),
        "running": power.map(|_| running.is_some()),
        "starting_words": power.map(|power| start_words(&power.starting.outcome)),
        "troubles": placed.troubles().map(|all| all.into_iter().map(Trouble::tag).collect::<Vec<_>>()),
        "no_answer": way.no_rate(at, units),
        "cautions": way.cautions_at(at).iter().map(|caution| caution.id).collect::<Vec<_>>(),
        "new_cautions": way.cautions_at(at).iter().filter(appears).map(caution_json).collect::<Vec<_>>(),
    });
    if let (Value::Object(fields), Value::Object(more)) = (&mut value, more) {
        fields.retain(|tag, _| !Figure::ALL.iter().any(|figure| figure.is_of_job() && figure.tag() == tag));
        fields.extend(more);
    }
    Some(value)
}
