//! The window. Draws what the library computed; computes no physics.
//!
//! `session` owns document, results, view and the person's own shelf; `present` turns them into
//! plain models; `diagram` and `widgets` draw those; `panels` put them together and return `actions`.

mod actions;
mod answer;
mod app;
mod diagram;
mod draws;
mod examples;
mod files;
mod history;
mod keep;
mod moment;
mod motion;
mod own_shelf;
mod pages;
mod panels;
mod present;
mod progress;
mod projector;
mod reasons;
mod scholar;
mod second_port;
mod session;
mod settings;
mod study;
mod style;
mod symbols;
#[cfg(test)]
mod tests;
mod view;
mod widgets;
mod worker;

use std::path::PathBuf;

use narrows::presets::Shelf;

/// Opens the window on a file, on a built-in scenario's name or on the first example. Returns when
/// it is closed. A file goes before a scenario of the same name, as in the terminal.
///
/// # Errors
/// There is no display, or a library of the display is missing; one plain sentence.
pub fn run(start: Option<PathBuf>) -> Result<(), String> {
    let named = start.as_deref().filter(|path| !path.exists()).and_then(examples::named);
    let opened = if named.is_some() { None } else { start.as_deref().map(files::read) };
    let document = named.map_or_else(examples::first, Ok)?;
    let shelf = Shelf::built_in().map_err(|error| error.to_string())?;
    let viewport = egui::ViewportBuilder::default()
        .with_title("Narrows")
        .with_app_id("narrows")
        .with_inner_size([1280.0, 700.0])
        .with_min_inner_size([480.0, 320.0]);
    let options = eframe::NativeOptions { viewport, ..Default::default() };
    let create = move |cc: &eframe::CreationContext<'_>| -> Result<Box<dyn eframe::App>, _> {
        // The window stands: from here on a panic is our own and says where.
        drop(std::panic::take_hook());
        style::fonts::install(&cc.egui_ctx);
        let worker = worker::Worker::start(&cc.egui_ctx)?;
        let mut session = session::Session::new(document, Some(worker));
        session.employ(scholar::Scholar::start(&cc.egui_ctx)?);
        if let Some(folder) = eframe::storage_dir("narrows") {
            session.keep_in(folder);
        }
        match opened {
            None => {}
            Some(Ok(_)) => {
                let path = start.unwrap_or_default();
                session.apply(actions::Action::Open(path), &cc.egui_ctx);
            }
            Some(Err(error)) => session.view.message = Some(error),
        }
        Ok(Box::new(app::App::new(session, shelf)))
    };
    // The window crate panics where a library of the display is missing.
    std::panic::set_hook(Box::new(|_| {}));
    let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        eframe::run_native("Narrows", options, Box::new(create))
    }));
    drop(std::panic::take_hook());
    match outcome {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(error_sentence(&error.to_string())),
        Err(panic) => Err(panic_sentence(panic.as_ref())),
    }
}

/// What an error of the window crate means, in one sentence.
fn error_sentence(text: &str) -> String {
    if text.contains("DISPLAY") {
        "the window did not open: there is no display; the commands in the terminal work without one"
            .to_owned()
    } else {
        format!("the window did not open: {text}")
    }
}

/// What a panic of the window crate means, in one sentence.
fn panic_sentence(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic
        .downcast_ref::<String>()
        .map(String::as_str)
        .or_else(|| panic.downcast_ref::<&str>().copied())
        .unwrap_or("no reason given");
    if text.contains("xkbcommon") {
        "the window did not open: the library libxkbcommon-x11 is missing (on Debian: install libxkbcommon-x11-0)"
            .to_owned()
    } else {
        format!("the window stopped: {text}")
    }
}
