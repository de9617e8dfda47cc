//! The `narrows` program: a window without arguments, a terminal tool with them.

#[cfg(feature = "gui")]
mod ui;

fn main() {
    println!("narrows");
}
