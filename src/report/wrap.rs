//! Words wrapped for a terminal.

/// Text is wrapped at this width.
const WIDTH: usize = 92;

/// Wraps words behind a lead; further lines stand under the first word.
pub(super) fn wrapped(text: &str, lead: &str) -> String {
    let indent = lead.chars().count();
    let mut out = lead.to_owned();
    let mut column = indent;
    for word in text.split_whitespace() {
        let width = word.chars().count();
        if column > indent && column + 1 + width > WIDTH {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else if column > indent {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out
}
