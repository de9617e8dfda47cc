//! Pages to hand over: every preset makes all of them, no caution is missing on any, what is printed
//! is what the terminal says to programs, nothing leaks to the class, nothing from outside is markup.

mod documents;

use documents::with;
use narrows::advice::{DEFERENCE, limit_cautions};
use narrows::job::job_limits;
use narrows::presets::{Shelf, built_in_rules, scenarios};
use narrows::report::pages::{
    Block, Page, PageAnswers, PageAsk, PageKind, PagesError, Printed, html_text, page_answers, page_files,
    pages,
};
use narrows::report::{Draws, grade_word, jobs_json, solve_document, solve_jobs, solved_json, time_text};
use narrows::scenario::{Document, resolve_limits};
use narrows::units::{Measure, UnitSet};
use uom::si::f64::{ElectricPotential, MassRate, Time};

const UNITS: UnitSet = UnitSet::US_TRADE;

fn printed() -> Printed {
    Printed { date: "25 November 2026".to_owned(), version: "9.8.7".to_owned() }
}

fn answers_for(document: &Document, kit: Option<&str>) -> Result<PageAnswers, PagesError> {
    let (rules, shelf) = (built_in_rules().unwrap(), Shelf::built_in().unwrap());
    page_answers(
        document,
        PageAsk { rules: &rules, shelf: &shelf, draws: Draws::default(), follow_changes: false, kit },
        &|| false,
    )
}

fn made(document: &Document) -> (PageAnswers, Vec<Page>) {
    let answers = answers_for(document, None).unwrap();
    let pages = pages(document, &answers, &printed(), UNITS);
    (answers, pages)
}

/// What is escaped in HTML text: the four characters of maud 0.27's documentation.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// The words of an HTML text, without tags and style.
fn words_of(html: &str) -> String {
    let body = html.split_once("</style>").unwrap().1;
    let mut words = String::new();
    let mut inside = false;
    for letter in body.chars() {
        match letter {
            '<' => inside = true,
            '>' => {
                inside = false;
                words.push(' ');
            }
            _ if !inside => words.push(letter),
            _ => {}
        }
    }
    words
}

/// A built-in scenario with its answers and pages.
struct Preset {
    id: &'static str,
    document: Document,
    answers: PageAnswers,
    pages: Vec<Page>,
}

/// All of them, made once.
fn presets() -> &'static [Preset] {
    static PRESETS: std::sync::OnceLock<Vec<Preset>> = std::sync::OnceLock::new();
    PRESETS.get_or_init(|| {
        let one = |id| {
            let document = documents::preset(id);
            let (answers, pages) = made(&document);
            Preset { id, document, answers, pages }
        };
        scenarios().iter().map(|preset| one(preset.id)).collect()
    })
}

fn preset(id: &str) -> &'static Preset {
    presets().iter().find(|preset| preset.id == id).unwrap()
}

/// Every caution that terminal and window show of a document, gathered without the pages.
fn cautions_of(document: &Document, answers: &PageAnswers) -> Vec<(&'static str, String)> {
    let mut all: Vec<_> =
        solve_document(document).unwrap().into_iter().flat_map(|kit| kit.cautions).collect();
    if let Ok(jobs) = &answers.jobs {
        all.extend(jobs.kits.iter().flat_map(|job| job.start.cautions.clone()));
    }
    let ask = resolve_limits(document, &built_in_rules().unwrap()).unwrap();
    all.extend(limit_cautions(&ask, &job_limits(&ask)));
    all.into_iter().map(|caution| (grade_word(caution.grade), caution.text)).collect()
}

/// A caution's sentence up to its first number: what a handout keeps of it word for word.
fn before_number(text: &str) -> &str {
    text.split(|letter: char| letter.is_ascii_digit()).next().unwrap_or_default()
}

#[test]
fn every_preset_makes_every_page_with_every_caution() {
    for Preset { id, document, answers, pages } in presets() {
        let kinds: Vec<PageKind> = pages.iter().map(|page| page.kind).collect();
        assert_eq!(kinds, PageKind::ALL, "{id}");
        let cautions = cautions_of(document, answers);
        assert!(!cautions.is_empty());
        for page in pages {
            let html = html_text(page);
            let name = format!("{id}, {}", page.kind.name());
            for said in [
                escaped(&document.title),
                escaped(document.place.as_deref().unwrap_or_default()),
                page.kind.purpose().to_owned(),
                "Printed 25 November 2026 by Narrows 9.8.7".to_owned(),
                escaped(DEFERENCE),
            ] {
                assert!(html.contains(&said), "{name} does not say {said:?}");
            }
            for (grade, text) in &cautions {
                let said = if page.kind == PageKind::Handout { before_number(text) } else { text };
                let said = escaped(said);
                assert!(html.contains(&said), "{name} lacks the {grade} {said:?}");
                assert!(html.contains(&format!("<b>{grade}</b>")), "{name} lacks the word {grade}");
            }
            assert!(!html.contains("NaN") && !html.contains("no number"), "{name}");
        }
    }
}

/// As many cautions on every page of a document, and as many as there are different ones.
#[test]
fn no_page_leaves_a_caution_out() {
    for Preset { id, document, answers, pages } in presets() {
        let mut different = cautions_of(document, answers);
        different.sort();
        different.dedup();
        for page in pages {
            let blocks = page.sections.iter().flat_map(|section| &section.blocks);
            let counts: Vec<usize> = blocks
                .filter_map(|block| match block {
                    Block::Cautions(cautions) => Some(cautions.len()),
                    _ => None,
                })
                .collect();
            assert_eq!(counts, [different.len()], "{id}, {}", page.kind.name());
        }
    }
}

#[test]
fn pages_print_what_the_terminal_says_to_programs() {
    let rules = built_in_rules().unwrap();
    for id in ["bakery-freezer", "ice-rink-liquid", "long-cord"] {
        let Preset { document, pages, .. } = preset(id);
        let solved = solved_json(document, &solve_document(document).unwrap(), UNITS);
        let jobs = jobs_json(document, &solve_jobs(document, &rules, &|| false).unwrap(), UNITS);
        let text = |kind: PageKind| {
            let page = pages.iter().find(|page| page.kind == kind).unwrap();
            words_of(&html_text(page))
        };
        let (kit, job) = (&solved["kits"][0], &jobs["kits"][0]);
        let number = |value: &serde_json::Value| value.as_f64().unwrap();
        let rate = UNITS.rate(MassRate::from_si(number(&kit["rate_kg_s"])));
        let volts = |name: &str| UNITS.voltage(ElectricPotential::from_si(number(&kit["supply"][name])));
        for said in [rate, volts("running_v"), volts("starting_v")] {
            assert!(text(PageKind::Crew).contains(&said), "{id}: the crew's page lacks {said}");
            assert!(text(PageKind::Comparison).contains(&said), "{id}: the comparison lacks {said}");
            assert!(text(PageKind::Key).contains(&said), "{id}: the key lacks {said}");
        }
        let whole = time_text(Time::from_si(number(&job["plan_s"])));
        assert!(text(PageKind::Customer).contains(&whole), "{id}: the customer's page lacks {whole}");
        if let Some(low) = job["band"]["low_s"].as_f64() {
            let more = number(&job["plan_s"]) - number(&job["total_s"]);
            let low = time_text(Time::from_si(low + more));
            assert!(text(PageKind::Customer).contains(&low), "{id}: the customer's page lacks {low}");
        }
        let stated = jobs["level"]["stated"].as_str().unwrap();
        assert!(text(PageKind::Customer).contains(stated) && text(PageKind::Crew).contains(stated), "{id}");
        let stop_kg = number(&jobs["stock"][0]["stop_gross_kg"]);
        let crew = text(PageKind::Crew);
        let (lb, printed) = (stop_kg / 0.453_592_37, stop_weight_near(&crew, stop_kg / 0.453_592_37));
        let printed = printed.unwrap_or_else(|| panic!("{id}: no weight near {lb} lb in {crew}"));
        assert!(printed <= lb + 1e-6 && lb - printed < 0.1 + 1e-6, "{id}: stop at {printed}, limit {lb}");
    }
}

/// By nature: liquid goes down the pressure from system to cylinder, gas from the machine to the system, and
/// what the scale gains midway is near what it gains in the mean.
#[test]
fn the_crew_reads_what_gauges_show_in_push_pull() {
    let Preset { answers, pages, .. } = preset("ice-rink-liquid");
    let crew = pages.iter().find(|page| page.kind == PageKind::Crew).unwrap();
    let gauges = crew.sections.iter().find(|section| section.title.starts_with("What gauges")).unwrap();
    let facts = gauges.blocks.iter().find_map(|block| match block {
        Block::Facts(facts) => Some(facts),
        _ => None,
    });
    let fact = |name: &str| {
        let (_, said) = facts.unwrap().iter().find(|(fact, _)| fact == name).unwrap();
        said.split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let [system, cylinder, discharge] = ["System gauge", "Cylinder gauge", "Discharge gauge"].map(fact);
    assert!(cylinder <= system && system <= discharge, "{cylinder}, {system}, {discharge} psig");
    let job = answers.job().unwrap().answer.as_ref().unwrap();
    let phase = job.phases[0];
    let mean = (phase.recovered / (phase.end - phase.start)).si() * 60.0 / 0.453_592_37;
    let rate = fact("Rate on the scale");
    assert!((rate / mean - 1.0).abs() < 0.1, "{rate} lb/min midway, {mean} lb/min in the mean");
}

/// The first number of pounds on the page that is within half a pound.
fn stop_weight_near(text: &str, lb: f64) -> Option<f64> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let pairs = words.windows(2).filter(|pair| pair[1] == "lb");
    pairs.filter_map(|pair| pair[0].parse::<f64>().ok()).find(|number| (number - lb).abs() < 0.5)
}

/// Number and unit pairs of a text: "23.1 psi".
fn quantities(text: &str) -> Vec<String> {
    let words: Vec<&str> =
        text.split_whitespace().map(|word| word.trim_matches(|c| "(),.;".contains(c))).collect();
    let pairs = words.windows(2).filter(|pair| pair[0].parse::<f64>().is_ok());
    pairs.map(|pair| pair.join(" ")).collect()
}

/// What the class is asked for stands in the key and nowhere on the handout, but for what the
/// document itself gives.
#[test]
fn the_handout_holds_none_of_the_keys_answers() {
    for Preset { id, pages, .. } in presets() {
        let of = |kind| pages.iter().find(|page| page.kind == kind).unwrap();
        let answers = of(PageKind::Key).sections.iter().find(|section| section.title == "Answers").unwrap();
        let Some(Block::Facts(answers)) = answers.blocks.first() else { panic!("no answers") };
        let given = of(PageKind::Handout).sections.iter().find(|section| section.title == "What is known");
        let Some(Block::Facts(given)) = given.unwrap().blocks.first() else { panic!("nothing is known") };
        let given: String = given.iter().map(|(_, what)| format!("{what} ")).collect();
        let given = quantities(&given);
        let handout = words_of(&html_text(of(PageKind::Handout)));
        let handout = quantities(&handout);
        let answers: Vec<String> = answers
            .iter()
            .flat_map(|(_, answer)| quantities(answer))
            .filter(|one| !given.contains(one))
            .collect();
        assert!(answers.len() >= 4, "{id}: {answers:?}");
        for answer in answers.iter().filter(|answer| !is_part_of_a_rule(answer)) {
            assert!(!handout.contains(answer), "{id}: {answer} is on the handout");
        }
        let drawn = html_text(of(PageKind::Handout));
        assert!(!drawn.contains("0 on the gauge") && !drawn.contains("CHOKED"), "{id}: the stairs are seen");
    }
}

/// The name of a table or of a rule: "40 CFR", "131 °F".
fn is_part_of_a_rule(pair: &str) -> bool {
    ["CFR", "Table", "Nov", "°", "%"].iter().any(|word| pair.contains(word))
        || pair.split(' ').nth(1).is_some_and(|unit| unit.chars().count() > 5)
}

#[test]
fn words_from_outside_are_never_markup() {
    const EVIL: &str = "<script>alert(1)</script>";
    const IMAGE: &str = "\"><img src=x onerror=alert(1)> & more";
    let mut document = documents::preset("ice-rink-liquid");
    document.title = EVIL.to_owned();
    document.place = Some(IMAGE.to_owned());
    document.notes = Some(format!("{EVIL}{IMAGE}"));
    document.kits[0].label = Some(EVIL.to_owned());
    document.machine.name = Some(IMAGE.to_owned());
    document.cylinder.name = Some(EVIL.to_owned());
    document.kits[0].name = "A</style><b>".to_owned();
    document.kits[0].parts[0].set_name(Some(IMAGE.to_owned()));
    let answers = answers_for(&document, None).unwrap();
    for file in page_files(&document, &answers, &printed(), UNITS).iter().filter(|f| f.name.ends_with("html"))
    {
        let body = file.text.split_once("</style>").unwrap().1;
        for tag in ["<script", "<img", "<b>A", "</style>", "onerror=alert(1)>"] {
            assert!(!body.contains(tag), "{} holds {tag}", file.name);
        }
        assert!(file.text.contains("&lt;script&gt;alert(1)&lt;/script&gt;"), "{}", file.name);
        assert_eq!(file.text.matches("</style>").count(), 1, "{}", file.name);
    }
}

#[test]
fn a_page_needs_nothing_but_itself_and_is_legible_on_paper() {
    for page in &preset("hospital-two-ports").pages {
        let html = html_text(page);
        for word in ["http:", "https:", "src=", "href=", "@import", "<script", "<link"] {
            assert!(!html.contains(word), "{} names {word}", page.kind.name());
        }
        assert_eq!(html.matches("url(").count(), html.matches("url(#hatch)").count());
        let (style, body) = html.split_once("</style>").unwrap();
        // Points of the style sheet.
        let sizes = style.split("font-size: ").skip(1).chain(style.split("font: ").skip(1));
        for size in sizes.map(|rest| rest.split("pt").next().unwrap().trim().parse::<f64>().unwrap()) {
            assert!(size >= 9.0, "{size} pt");
        }
        // A CSS pixel is 0.75 pt, and a drawing is as wide as its box has units.
        assert!(style.contains("max-width: 680px"));
        for svg in body.split("<svg class=\"picture\"").skip(1) {
            assert!(svg.starts_with(" viewBox=\"0 0 680 "), "another width");
            let sizes = svg.split("</svg>").next().unwrap().split("font-size=\"").skip(1);
            for size in sizes.map(|rest| rest.split('"').next().unwrap().parse::<f64>().unwrap()) {
                assert!(0.75 * size >= 9.0, "{size} units");
            }
        }
    }
}

#[test]
fn the_same_document_gives_the_same_text() {
    let Preset { document, pages, .. } = preset("market-generator");
    assert_eq!(
        made(document).1.iter().map(html_text).collect::<Vec<_>>(),
        pages.iter().map(html_text).collect::<Vec<_>>()
    );
}

#[test]
fn what_a_stop_withholds_stands_on_no_page() {
    let allowed = with(documents::preset("reference-kits"), &[("refrigerant", "R-32")]);
    let stopped = with(
        documents::preset("reference-kits"),
        &[("refrigerant", "R-32"), ("machine.suitable_for", "[A1]")],
    );
    let rates: Vec<String> = solve_document(&allowed)
        .unwrap()
        .iter()
        .map(|kit| UNITS.rate(kit.shown_point().unwrap().mass_flow))
        .collect();
    let (answers, pages) = made(&stopped);
    for page in &pages {
        let words = words_of(&html_text(page));
        assert!(rates.iter().all(|rate| !words.contains(rate)), "{} gives a rate", page.kind.name());
        assert!(words.contains("Stop") && words.contains("is not marked for it"), "{}", page.kind.name());
    }
    let customer = words_of(&html_text(&pages[0]));
    assert!(customer.contains("withheld"), "{customer}");
    let files = page_files(&stopped, &answers, &printed(), UNITS);
    assert!(files.iter().all(|file| file.name != "curves.csv"));
}

#[test]
fn a_document_without_a_job_says_what_is_missing() {
    let document =
        with(documents::preset("reference-kits"), &[("source.volume", "none"), ("source.charge", "none")]);
    let (answers, pages) = made(&document);
    assert!(answers.jobs.is_err());
    for kind in [PageKind::Customer, PageKind::Crew, PageKind::Comparison] {
        let page = pages.iter().find(|page| page.kind == kind).unwrap();
        let words = words_of(&html_text(page));
        assert!(words.contains("Missing: source.volume"), "{} does not say it", kind.name());
    }
    let files = page_files(&document, &answers, &printed(), UNITS);
    assert_eq!(files.len(), 5);
}

/// The only cylinder may not be filled: no page calls that enough, and none gives a weight for it.
#[test]
fn without_a_usable_cylinder_no_page_says_enough() {
    let document = with(documents::preset("bakery-freezer"), &[("cylinder.disposable", "true")]);
    let (_, pages) = made(&document);
    let text = |at: usize| words_of(&html_text(&pages[at]));
    assert!(!text(0).contains("enough for the highest") && text(0).contains("there is no usable cylinder"));
    assert!(text(1).contains("There is no usable cylinder.") && text(1).contains("Not to be filled"));
    // Between the tare of 27.5 lb and 0.8 × 47.6 lb more, 65.6 lb, every weight to stop at would lie.
    let weights = quantities(&text(1));
    let is_stop = |pair: &&String| {
        let number = pair.strip_suffix(" lb").filter(|number| number.contains('.'));
        number.and_then(|number| number.parse::<f64>().ok()).is_some_and(|lb| (27.6..=65.6).contains(&lb))
    };
    assert_eq!(weights.iter().find(is_stop), None, "a weight to stop at is given");
    let usable = quantities(&words_of(&html_text(&preset("bakery-freezer").pages[1])));
    assert!(usable.iter().any(|pair| is_stop(&pair)), "the usable one has a weight");
}

#[test]
fn a_kit_is_chosen_by_name() {
    let document = documents::preset("ice-rink-liquid");
    let answers = answers_for(&document, Some("B")).unwrap();
    let crew = &pages(&document, &answers, &printed(), UNITS)[1];
    assert!(words_of(&html_text(crew)).contains("Kit B: Three-eighths"));
    let error = answers_for(&document, Some("Z")).unwrap_err().to_string();
    assert!(error.contains("\"Z\"") && error.contains("A, B"), "{error}");
}

/// More kits than fit side by side: the comparison says so, the rest stands.
#[test]
fn too_many_kits_to_compare_are_no_end() {
    let mut document = documents::preset("reference-kits");
    for name in ["D", "E", "F"] {
        let mut kit = document.kits[0].clone();
        kit.name = name.to_owned();
        document.kits.push(kit);
    }
    let (_, pages) = made(&document);
    let comparison = words_of(&html_text(&pages[2]));
    assert!(comparison.contains("Not compared:") && comparison.contains("Kit F"), "{comparison}");
}

/// R-402A holds and R-22 (60, 2 and 38 % by mass; ASHRAE 34, from memory), and the pair R-125 with
/// R-22 has no measured mixture model. The tables: `assets/refrigerants/generator` (library.py, viscosity.py).
#[test]
fn pages_say_what_the_refrigerant_is_where_from_and_that_it_is_an_estimate() {
    let document = with(documents::preset("reference-kits"), &[("refrigerant", "R-402A")]);
    let (_, pages) = made(&document);
    for kind in [PageKind::Customer, PageKind::Handout] {
        let words = words_of(&html_text(pages.iter().find(|page| page.kind == kind).unwrap()));
        for part in ["R-125 60 %", "R-290 2 %", "R-22 38 %"] {
            assert!(words.contains(part), "{}: {part} is missing in {words}", kind.name());
        }
        for part in ["estimates: pair R-125/R-22", "Its properties: CoolProp 8.0.0", "Teja-Rice liquid"] {
            assert!(words.contains(part), "{}: {part} is missing in {words}", kind.name());
        }
    }
}

/// Without a charge the crew's page lists every cylinder; one under a Stop has no weight to stop at, and its
/// tare is not what is missing.
#[test]
fn a_cylinder_under_a_stop_is_not_said_to_lack_its_tare() {
    let fields = [("source.charge", "none"), ("cylinder.damaged", "yes")];
    let (_, pages) = made(&with(documents::preset("bakery-freezer"), &fields));
    let crew = pages.iter().find(|page| page.kind == PageKind::Crew).unwrap();
    let words = words_of(&html_text(crew));
    assert!(words.contains("may not be filled") && !words.contains("tare not known"), "{words}");
}
