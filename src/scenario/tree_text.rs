//! A thing written as in a file, `BallValve(bore: "4.2 mm")`, `(gauge: "12 AWG")`, `[A1, A2L]`, as a
//! tree, whatever it belongs to.
//!
//! RON's own reader wants to know the type first, and loses the kinds of parts and bare words without
//! it. So the text is rewritten to JSON, sign by sign: names become keys, kinds become tags, bare
//! words become strings. What is wrong inside is found when the document takes the tree.

use serde_json::Value;

/// The tree that `text` writes; the sentence says what is wrong with it as text.
pub(super) fn tree_of_text(text: &str) -> Result<Value, String> {
    serde_json::from_str(&json_of(text)).map_err(|error| {
        format!(
            "expected it as in a file, such as (bore: \"2 mm\", length: \"5 ft\"), but {}",
            place_free(&error)
        )
    })
}

/// Lines and columns of the rewritten text would mislead.
fn place_free(error: &serde_json::Error) -> String {
    let text = error.to_string();
    text.split(" at line").next().unwrap_or_default().to_owned()
}

fn json_of(text: &str) -> String {
    let mut json = String::with_capacity(text.len() + 16);
    // What closes each bracket that is open.
    let mut closing: Vec<&str> = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let (token, behind) = rest.split_at(token_length(rest, first));
        rest = behind;
        let next = rest.trim_start().chars().next();
        match first {
            '(' => open(&mut json, &mut closing, "{", "}"),
            '[' => open(&mut json, &mut closing, "[", "]"),
            ')' | ']' => json.push_str(closing.pop().unwrap_or(token)),
            ',' if matches!(next, Some(')' | ']') | None) => {}
            _ if !is_word_start(first) || matches!(token, "true" | "false") => json.push_str(token),
            _ if next == Some('(') => {
                json.push_str(&format!("{{\"{token}\":{{"));
                closing.push("}}");
                rest = rest.trim_start().get(1..).unwrap_or_default();
            }
            _ if token == "None" => json.push_str("null"),
            _ => json.push_str(&format!("\"{token}\"")),
        }
    }
    json
}

fn open<'a>(json: &mut String, closing: &mut Vec<&'a str>, opens: &str, closes: &'a str) {
    json.push_str(opens);
    closing.push(closes);
}

fn is_word_start(sign: char) -> bool {
    sign.is_alphabetic() || sign == '_'
}

/// Bytes of the token that `text` begins with: a quoted text, a word, or one sign.
fn token_length(text: &str, first: char) -> usize {
    if first == '"' {
        let mut escaped = false;
        for (at, sign) in text.char_indices().skip(1) {
            match sign {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '"' => return at + 1,
                _ => {}
            }
        }
        return text.len();
    }
    if !is_word_start(first) {
        return first.len_utf8();
    }
    text.find(|sign: char| !(sign.is_alphanumeric() || sign == '_')).unwrap_or(text.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn things_as_written_in_files() {
        let cases = [
            (
                "(a: \"1, (x)\", b: [A1, A2L,], c: true,)",
                json!({"a": "1, (x)", "b": ["A1", "A2L"], "c": true}),
            ),
            ("Hose(bore: \"8 \\\" mm\")", json!({"Hose": {"bore": "8 \" mm"}})),
            (
                "[Hose(band: (low: \"1\")), Tee (n: 2)]",
                json!([{"Hose": {"band": {"low": "1"}}}, {"Tee": {"n": 2}}]),
            ),
        ];
        for (text, tree) in cases {
            assert_eq!(tree_of_text(text).unwrap(), tree, "{text}");
        }
    }

    #[test]
    fn damaged_text_is_refused() {
        for text in ["(a: \"1\"", "(a \"1\")", ")", "(\"", "(a: 1))", "Hose(", "[(]", "(a:: 1)"] {
            assert!(tree_of_text(text).is_err(), "{text}");
        }
    }
}
