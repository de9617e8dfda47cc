//! The `narrows` program: a window without arguments, a terminal tool with them.

fn main() {
    println!("narrows");
}
