//! Where to put the machine, in words: what a person should do, what both ends give, where the motor
//! starts and has its volts.

use super::figures::difference_text;
use super::part_words::typed_text;
use super::placed::PlacedWay;
use crate::advice::more_volts;
use crate::compare::{Figure, Placed, Trouble, Verdict};
use crate::power::Running;
use crate::units::{Measure, Typed, UnitSet};
use uom::si::f64::Length;

/// The answer in sentences, each behind a word: what to do first.
pub fn place_lines(way: &PlacedWay, units: UnitSet) -> Vec<(&'static str, String)> {
    let lines = [
        ("To do", Some(place_advice(way, units))),
        ("Both ends", ends_line(way, units)),
        ("Limits", limits_line(way)),
        ("Certainty", certainty_line(way)),
        ("Note", shared_line(way)),
    ];
    lines.into_iter().filter_map(|(word, line)| Some((word, units.sentence(&line?)))).collect()
}

/// A length of hose or cord as typed; one that was worked out to more than two decimals, as where one is in
/// feet and the other in metres, with two.
pub fn length_text(length: &Typed<Length>) -> String {
    let typed = length.as_typed();
    let digits =
        typed.split_once('.').map_or(0, |(_, rest)| rest.chars().take_while(char::is_ascii_digit).count());
    if digits > 2 { format!("{:.2} {}", length.number(), length.unit()) } else { typed_text(typed) }
}

/// Hose and cord of a place.
pub fn place_text(placed: &Placed) -> String {
    let hose = length_text(&placed.hose);
    match &placed.cord {
        Some(cord) => format!("{hose} of hose and {} of cord", length_text(cord)),
        None => format!("{hose} of hose, plugged straight in"),
    }
}

/// What is wrong with motor or cord, as part of a sentence.
pub fn trouble_text(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::CannotHold => "the motor cannot hold its load",
        Trouble::WillNotStart => "the motor will not start",
        Trouble::MayNotStart => "the motor may not start",
        Trouble::LowVolts => "the motor has less than 90 % of its nameplate volts",
        Trouble::CordOverloaded => "the cord carries more than it may",
    }
}

/// What a person should do, in a sentence.
pub fn place_advice(way: &PlacedWay, units: UnitSet) -> String {
    let today = way.places.today;
    let Some(here) = way.at(today) else { return String::new() };
    let Some(advised) = way.advised() else { return no_place(way, units) };
    if advised == today {
        return stay(way, here, units);
    }
    let Some(there) = way.at(advised) else { return String::new() };
    let more = rate_change(way, today, advised, units);
    if let Some(trouble) = first_trouble(here) {
        let starts = motor_words(there, units);
        let rate = more.map_or(String::new(), |more| format!(" Rate against today's: {more}."));
        return format!(
            "Put the machine at {}: there {starts}. Where it stands, {}.{rate} A thicker cord may let it stay \
             nearer to the system.",
            place_text(there),
            trouble_text(trouble)
        );
    }
    match way.difference.as_ref().map(|difference| difference.verdict(Figure::Rate)) {
        Some(Verdict::TooClose) => format!(
            "Leave the machine where it is, at {}: {} is the fastest place by the numbers, but too close to \
             call.",
            place_text(here),
            place_text(there)
        ),
        _ => format!(
            "Put the machine at {}: {}, and {}.",
            place_text(there),
            more.map_or("it passes refrigerant there".to_owned(), |more| format!("rate {more}")),
            motor_words(there, units)
        ),
    }
}

/// Today's place is the fastest of those where motor and cord are as they should be.
fn stay(way: &PlacedWay, here: &Placed, units: UnitSet) -> String {
    let stay = format!("Leave the machine where it is, at {}", place_text(here));
    let faster = way.fastest().filter(|at| *at != way.places.today);
    let Some((at, faster)) = faster.and_then(|at| Some((at, way.at(at)?))) else {
        return format!("{stay}: no other place passes more, and {}.", motor_words(here, units));
    };
    let trouble = first_trouble(faster).map_or("nothing is won", trouble_text);
    let more = rate_change(way, way.places.today, at, units).unwrap_or_default();
    format!("{stay}: with {} {trouble} (rate {more}).", place_text(faster))
}

/// No place is as it should be, or the rate is withheld.
fn no_place(way: &PlacedWay, units: UnitSet) -> String {
    if way.is_withheld() {
        return "No place is weighed against another while a Stop withholds the rate; the volts stand."
            .to_owned();
    }
    let last = way.places.places.last();
    let Some((last, trouble)) = last.and_then(|last| Some((last, first_trouble(last)?))) else {
        return "No place has a rate and a motor that starts and has its volts.".to_owned();
    };
    let volts = last.power().map(|power| units.voltage(power.starting.voltage)).unwrap_or_default();
    let helps = what_helps(last, trouble);
    format!(
        "No place on this way will do: even at {} {} ({volts} while starting). {helps}",
        place_text(last),
        trouble_text(trouble)
    )
}

/// What would rid a place of its trouble, in a sentence.
fn what_helps(placed: &Placed, trouble: Trouble) -> String {
    let (Some(power), Ok(solved)) = (placed.power(), &placed.solved) else { return String::new() };
    let source = solved.kit.setup.power.supply.source();
    match trouble {
        Trouble::CannotHold => more_volts(power.loses_most_starting(), source, "run"),
        Trouble::WillNotStart | Trouble::MayNotStart => {
            more_volts(power.loses_most_starting(), source, "start")
        }
        Trouble::LowVolts => more_volts(power.loses_most_running(), source, "run"),
        Trouble::CordOverloaded => "A thicker cord helps.".to_owned(),
    }
}

fn first_trouble(placed: &Placed) -> Option<Trouble> {
    placed.troubles()?.into_iter().next()
}

/// What the motor does, as part of a sentence.
fn motor_words(placed: &Placed, units: UnitSet) -> String {
    let Some(power) = placed.power() else { return "there are no volts to tell".to_owned() };
    let starting = units.voltage(power.starting.voltage);
    match (first_trouble(placed), &power.running) {
        (None, Running::Holds(run)) => {
            format!("the motor starts on {starting} and runs on {}", units.voltage(run.voltage))
        }
        (trouble, _) => {
            let trouble = trouble.map_or("the motor starts", trouble_text);
            format!("{trouble} ({starting} while starting)")
        }
    }
}

/// The rate at a place against another's, with what the draws say of it.
fn rate_change(way: &PlacedWay, from: usize, to: usize, units: UnitSet) -> Option<String> {
    let difference = way.difference.as_ref().filter(|_| way.rival() == Some(to) && from == way.places.today);
    match difference.map(|difference| difference.verdict(Figure::Rate)) {
        // A difference whose band holds zero has no number.
        Some(Verdict::TooClose) => Some(Verdict::TooClose.words().to_owned()),
        _ => {
            let (from, to) = (way.rate(from)?, way.rate(to)?);
            Some(difference_text(Figure::Rate, (to - from).si(), units))
        }
    }
}

/// Both ends of the way beside each other.
fn ends_line(way: &PlacedWay, units: UnitSet) -> Option<String> {
    let last = way.places.places.len().checked_sub(1)?;
    let end = |at: usize| {
        let placed = way.at(at)?;
        let rate = match way.rate(at) {
            Some(rate) => units.rate(rate),
            None => "no rate".to_owned(),
        };
        let power = placed.power()?;
        let running =
            power.running.point().map_or("cannot hold".to_owned(), |run| units.voltage(run.voltage));
        let starting = units.voltage(power.starting.voltage);
        Some(format!("{rate}, {running} running, {starting} starting ({})", place_text(placed)))
    };
    Some(format!("Nearest to the system: {}. Nearest to the receptacle: {}.", end(0)?, end(last)?))
}

/// Where the motor starts, and where it has its volts.
fn limits_line(way: &PlacedWay) -> Option<String> {
    way.places.today()?.power()?;
    let without = |troubles: &'static [Trouble]| {
        let is_free = move |_, placed: &Placed| {
            placed.troubles().is_some_and(|all| all.iter().all(|trouble| !troubles.contains(trouble)))
        };
        stretch_text(way, &is_free)
    };
    let starts = without(&[Trouble::CannotHold, Trouble::WillNotStart, Trouble::MayNotStart]);
    let volts = without(&[Trouble::CannotHold, Trouble::LowVolts]);
    let cord = without(&[Trouble::CordOverloaded]);
    Some(format!(
        "The motor starts and holds its load {starts}; its volts are within 10 % of the nameplate {volts}; the \
         cord carries what it may {cord}."
    ))
}

/// Where something is so: "from 45 to 105 ft of hose".
pub fn stretch_text(way: &PlacedWay, is_so: &dyn Fn(usize, &Placed) -> bool) -> String {
    let stretches = way.places.stretches(is_so);
    let hose = |at: usize| way.at(at).map_or(String::new(), |one| length_text(&one.hose));
    let whole = (0, way.places.places.len().saturating_sub(1));
    match stretches.as_slice() {
        [] => "nowhere".to_owned(),
        [one] if *one == whole => "everywhere".to_owned(),
        several => {
            let one = |(from, to): &(usize, usize)| match from == to {
                true => format!("at {} of hose", hose(*from)),
                false => format!("from {} to {} of hose", hose(*from), hose(*to)),
            };
            several.iter().map(one).collect::<Vec<_>>().join(" and ")
        }
    }
}

/// What the draws say about today's place and the one it is weighed against.
fn certainty_line(way: &PlacedWay) -> Option<String> {
    let difference = way.difference.as_ref()?;
    let there = place_text(way.at(way.rival()?)?);
    let answered = difference.band(Figure::Rate)?.answered;
    let verdict = match difference.verdict(Figure::Rate) {
        Verdict::More => "the rate is higher in at least nine of ten",
        Verdict::Less => "the rate is lower in at least nine of ten",
        other => other.words(),
    };
    Some(format!("{answered} draws of {there} against today's place: {verdict}."))
}

/// Who else hangs on the cord that gives way.
fn shared_line(way: &PlacedWay) -> Option<String> {
    let shared = &way.places.way.shared_with;
    (!shared.is_empty()).then(|| {
        let (kits, them) = if shared.len() == 1 { ("kit", "its") } else { ("kits", "their") };
        format!(
            "The cord also feeds {kits} {}: {them} volts change with it, {them} hoses do not.",
            shared.join(", ")
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 30 m are 98.4252 ft (1 ft is 0.3048 m): with two decimals 98.43.
    #[test]
    fn worked_out_lengths_have_two_decimals_and_typed_ones_what_was_typed() {
        let check =
            |text: &str, expected: &str| assert_eq!(length_text(&Typed::parse(text).unwrap()), expected);
        check("98.4251968504 ft", "98.43 ft");
        check("5 ft 6 in", "5 ft 6 in");
        check("1,5 m", "1,5 m");
        check("2.25 m", "2.25 m");
    }
}
