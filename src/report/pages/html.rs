//! Writes a page as HTML that needs nothing but itself and prints on A4 and Letter.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::model::{Block, Page, Section, Table};
use super::svg;
use crate::advice::DEFERENCE;
use crate::report::drawing::Mark;
use crate::report::json::grade_word;

/// The look of every page, on screen and on paper.
const STYLE: &str = include_str!("print.css");

/// Nothing is loaded from anywhere.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// A page as HTML text.
pub fn html_text(page: &Page) -> String {
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="viewport" content="width=device-width";
                title { (page.kind.name()) ": " (page.title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                (svg::definitions())
                table.sheet role="presentation" {
                    tbody { tr { td { (head(page)) @for section in &page.sections { (section_markup(section)) }
                        (deference()) } } }
                    tfoot { tr { td { (foot(page)) } } }
                }
            }
        }
    };
    markup.into_string()
}

fn head(page: &Page) -> Markup {
    html! {
        header {
            p.kind { (page.kind.name()) }
            h1 { (page.title) }
            @if let Some(place) = &page.place { p.place { (place) } }
            p.purpose { (page.kind.purpose()) }
            p.stamp {
                @if let Some(date) = &page.job_date { "Job on " (date) ". " }
                "Printed " (page.printed.date) " by Narrows " (page.printed.version) "."
            }
        }
    }
}

/// Repeated at the foot of every sheet.
fn foot(page: &Page) -> Markup {
    html! {
        div.foot {
            span { (page.title) ": " (page.kind.name()) ", printed " (page.printed.date) ", Narrows "
                (page.printed.version) "." }
            " "
            span { "A planning estimate: labels, instructions, the law and licensed practice come first." }
        }
    }
}

fn deference() -> Markup {
    html! { section.deference { h2 { "What comes first" } p { (DEFERENCE) } } }
}

fn section_markup(section: &Section) -> Markup {
    html! {
        section {
            h2 { (section.title) }
            @for block in &section.blocks { (block_markup(block)) }
        }
    }
}

fn block_markup(block: &Block) -> Markup {
    match block {
        Block::Words(words) => html! { p { (words) } },
        Block::Heading(words) => html! { h3 { (words) } },
        Block::List(items) => html! { ul { @for item in items { li { (item) } } } },
        Block::Facts(facts) => html! {
            dl { @for (name, what) in facts { div { dt { (name) } dd { (what) } } } }
        },
        Block::Bigs(bigs) => html! {
            div.bigs { @for big in bigs {
                div.big { span.name { (big.name) } span.value { (big.value) } span.note { (big.note) } }
            } }
        },
        Block::Table(table) => table_markup(table),
        Block::Checks(items) => html! { ul.checks { @for item in items { li { (item) } } } },
        Block::Steps(items) => html! { ol.steps { @for (at, item) in items.iter().enumerate() {
            li { b { (at + 1) "." } " " (item) }
        } } },
        Block::Blanks(items) => html! {
            dl.blanks { @for item in items { div { dt { (item) } dd {} } } }
        },
        Block::Form { head, rows } => html! {
            table.form {
                thead { tr { @for name in head { th scope="col" { (name) } } } }
                tbody { @for _ in 0..*rows { tr { @for _ in head { td {} } } } }
            }
        },
        Block::Cautions(cautions) => html! {
            ul.cautions { @for caution in cautions {
                li {
                    (svg::mark(Mark::from(caution.grade)))
                    span { b { (grade_word(caution.grade)) } " "
                        @if !caution.kits.is_empty() { "(kit " (caution.kits.join(", ")) ") " }
                        (caution.text) }
                }
            } }
        },
        Block::Picture(picture) => html! { figure { (svg::picture(picture)) } },
    }
}

fn table_markup(table: &Table) -> Markup {
    let class = |at: usize| table.words.get(at).copied().unwrap_or(true).then_some("w");
    html! {
        table.data {
            @if !table.head.is_empty() {
                thead { tr { @for (at, name) in table.head.iter().enumerate() {
                    th scope="col" class=[class(at)] { (name) }
                } } }
            }
            tbody { @for row in &table.rows {
                tr { @for (at, cell) in row.iter().enumerate() {
                    @if at == 0 { th scope="row" class=[class(at)] { span.short[is_short(cell)] { (cell) } } }
                    @else { td class=[class(at)] { (cell) } }
                } }
            } }
        }
    }
}

/// Whether the head of a row needs no second line.
fn is_short(cell: &str) -> bool {
    cell.chars().count() <= 32
}
