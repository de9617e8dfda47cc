//! Which refrigerants there are, and how a name as people write it finds one.
//!
//! Listing them parses no table.

use std::sync::{Arc, OnceLock};

use super::class::SafetyClass;
use super::error::FluidError;
use super::refrigerant::Refrigerant;

/// One line of the catalogue, known without its table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Listing {
    /// ASHRAE 34 designation, such as "R-410A".
    pub designation: &'static str,
    /// ASHRAE 34 safety class.
    pub safety_class: SafetyClass,
    /// Whether the blend's equilibrium is estimated (no measured model of one of its pairs).
    pub is_estimated: bool,
}

/// A listing, the text of its table, and the refrigerant once somebody asked for it.
pub(crate) struct Entry {
    pub(crate) listing: Listing,
    pub(crate) text: &'static str,
    loaded: OnceLock<Result<Arc<Refrigerant>, FluidError>>,
}

macro_rules! entry {
    ($designation:literal, $class:ident, $estimated:literal, $file:literal) => {
        Entry {
            listing: Listing {
                designation: $designation,
                safety_class: SafetyClass::$class,
                is_estimated: $estimated,
            },
            text: include_str!(concat!("../../assets/refrigerants/tables/", $file)),
            loaded: OnceLock::new(),
        }
    };
}

static ENTRIES: [Entry; 54] = [
    entry!("R-22", A1, false, "R-22.txt"),
    entry!("R-134a", A1, false, "R-134a.txt"),
    entry!("R-410A", A1, false, "R-410A.txt"),
    entry!("R-404A", A1, false, "R-404A.txt"),
    entry!("R-407C", A1, false, "R-407C.txt"),
    entry!("R-407A", A1, false, "R-407A.txt"),
    entry!("R-407F", A1, false, "R-407F.txt"),
    entry!("R-507A", A1, false, "R-507A.txt"),
    entry!("R-32", A2L, false, "R-32.txt"),
    entry!("R-1234yf", A2L, false, "R-1234yf.txt"),
    entry!("R-1234ze(E)", A2L, false, "R-1234zeE.txt"),
    entry!("R-448A", A1, false, "R-448A.txt"),
    entry!("R-449A", A1, false, "R-449A.txt"),
    entry!("R-452A", A1, false, "R-452A.txt"),
    entry!("R-452B", A2L, false, "R-452B.txt"),
    entry!("R-454A", A2L, false, "R-454A.txt"),
    entry!("R-454B", A2L, false, "R-454B.txt"),
    entry!("R-454C", A2L, false, "R-454C.txt"),
    entry!("R-455A", A2L, false, "R-455A.txt"),
    entry!("R-513A", A1, false, "R-513A.txt"),
    entry!("R-450A", A1, false, "R-450A.txt"),
    entry!("R-422D", A1, false, "R-422D.txt"),
    entry!("R-438A", A1, true, "R-438A.txt"),
    entry!("R-417A", A1, false, "R-417A.txt"),
    entry!("R-408A", A1, true, "R-408A.txt"),
    entry!("R-402A", A1, true, "R-402A.txt"),
    entry!("R-409A", A1, true, "R-409A.txt"),
    entry!("R-401A", A1, true, "R-401A.txt"),
    entry!("R-12", A1, false, "R-12.txt"),
    entry!("R-502", A1, false, "R-502.txt"),
    entry!("R-500", A1, false, "R-500.txt"),
    entry!("R-23", A1, false, "R-23.txt"),
    entry!("R-508B", A1, false, "R-508B.txt"),
    entry!("R-290", A3, false, "R-290.txt"),
    entry!("R-600a", A3, false, "R-600a.txt"),
    entry!("R-1270", A3, false, "R-1270.txt"),
    entry!("R-717", B2L, false, "R-717.txt"),
    entry!("R-744", A1, false, "R-744.txt"),
    entry!("R-152a", A2, false, "R-152a.txt"),
    entry!("R-236fa", A1, false, "R-236fa.txt"),
    entry!("R-227ea", A1, false, "R-227ea.txt"),
    entry!("R-124", A1, false, "R-124.txt"),
    entry!("R-142b", A2, false, "R-142b.txt"),
    entry!("R-125", A1, false, "R-125.txt"),
    entry!("R-143a", A2L, false, "R-143a.txt"),
    entry!("R-114", A1, false, "R-114.txt"),
    entry!("R-11", A1, false, "R-11.txt"),
    entry!("R-123", B1, false, "R-123.txt"),
    entry!("R-113", A1, false, "R-113.txt"),
    entry!("R-1233zd(E)", A1, false, "R-1233zdE.txt"),
    entry!("R-1336mzz(Z)", A1, false, "R-1336mzzZ.txt"),
    entry!("R-514A", B1, false, "R-514A.txt"),
    entry!("R-515B", A1, false, "R-515B.txt"),
    entry!("R-466A", A1, false, "R-466A.txt"),
];

/// Everyday names and shortened designations, in the form `key` gives them.
const ALIASES: [(&str, &str); 10] = [
    ("propane", "R-290"),
    ("isobutane", "R-600a"),
    ("propylene", "R-1270"),
    ("ammonia", "R-717"),
    ("carbondioxide", "R-744"),
    ("co2", "R-744"),
    ("507", "R-507A"),
    ("1234ze", "R-1234ze(E)"),
    ("1233zd", "R-1233zd(E)"),
    ("1336mzz", "R-1336mzz(Z)"),
];

/// Every refrigerant, commonest first.
pub fn list() -> impl ExactSizeIterator<Item = Listing> {
    ENTRIES.iter().map(|entry| entry.listing)
}

/// Designation and table text of every refrigerant.
#[cfg(test)]
pub(crate) fn texts() -> impl Iterator<Item = (&'static str, &'static str)> {
    ENTRIES.iter().map(|entry| (entry.listing.designation, entry.text))
}

/// The refrigerant of this name, its table parsed on first use.
pub(crate) fn load(name: &str) -> Result<Arc<Refrigerant>, FluidError> {
    let entry = find(name)?;
    entry.loaded.get_or_init(|| Refrigerant::from_entry(entry).map(Arc::new)).clone()
}

fn find(name: &str) -> Result<&'static Entry, FluidError> {
    let wanted = key(name);
    let wanted = ALIASES
        .iter()
        .find(|(alias, _)| *alias == wanted)
        .map_or(wanted, |(_, designation)| key(designation));
    ENTRIES
        .iter()
        .find(|entry| key(entry.listing.designation) == wanted)
        .ok_or_else(|| FluidError::UnknownRefrigerant { name: name.to_owned(), nearest: nearest(&wanted) })
}

/// What is left of a name without case, spaces, hyphens, brackets and a leading "R" or "HFC" and kin.
fn key(name: &str) -> String {
    let plain: String =
        name.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_lowercase()).collect();
    for family in ["hcfc", "hfc", "cfc", "hfo", "hc", "r"] {
        if let Some(number) = plain.strip_prefix(family)
            && number.starts_with(|c: char| c.is_ascii_digit())
        {
            return number.to_owned();
        }
    }
    plain
}

fn nearest(wanted: &str) -> &'static str {
    let distance = |entry: &&Entry| strsim::damerau_levenshtein(wanted, &key(entry.listing.designation));
    ENTRIES.iter().min_by_key(distance).map_or("R-410A", |entry| entry.listing.designation)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, designation: &str) {
        assert_eq!(find(name).map(|e| e.listing.designation), Ok(designation));
    }

    #[test]
    fn names_as_people_write_them() {
        for name in ["R-410A", "r410a", "410A", "R410A", " r 410 a ", "HFC-410A"] {
            check(name, "R-410A");
        }
        check("R1234ze", "R-1234ze(E)");
        check("R-1234ze(E)", "R-1234ze(E)");
        check("HCFC-22", "R-22");
        check("CO2", "R-744");
        check("Propane", "R-290");
        check("R507", "R-507A");
    }

    #[test]
    fn an_unknown_name_is_named_and_the_nearest_suggested() {
        for (name, expected) in
            [("R-410B", "R-410A"), ("R-404", "R-404A"), ("R-133a", "R-134a"), ("R-1234y", "R-1234yf")]
        {
            match find(name).err() {
                Some(FluidError::UnknownRefrigerant { name: said, nearest }) => {
                    assert_eq!((said.as_str(), nearest), (name, expected))
                }
                other => panic!("{other:?}"),
            }
        }
        assert!(find("").is_err() && find("   ").is_err() && find("\u{1f4a7}").is_err());
    }

    #[test]
    fn keys_are_unique() {
        for (i, a) in ENTRIES.iter().enumerate() {
            assert!(
                ENTRIES[i + 1..].iter().all(|b| key(a.listing.designation) != key(b.listing.designation))
            );
        }
    }

    #[test]
    fn the_listing_agrees_with_the_headers() {
        for entry in &ENTRIES {
            let table = super::super::table::parse(entry.listing.designation, entry.text).unwrap();
            assert_eq!(
                table.safety_class.split(' ').next(),
                Some(entry.listing.safety_class.to_string().as_str())
            );
            assert_eq!(table.estimated != "no", entry.listing.is_estimated);
            assert!(entry.text.contains(&format!("\ndesignation: {}\n", entry.listing.designation)));
        }
    }
}
