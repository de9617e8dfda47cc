//! The `narrows` program: a window without arguments, a terminal tool with them.

#[cfg(feature = "gui")]
mod ui;

fn main() -> std::process::ExitCode {
    #[cfg(feature = "gui")]
    if let Err(error) = ui::run(std::env::args().nth(1).map(Into::into)) {
        eprintln!("narrows: {error}");
        return std::process::ExitCode::from(1);
    }
    std::process::ExitCode::SUCCESS
}
