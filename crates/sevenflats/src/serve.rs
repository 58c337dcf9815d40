//! `sevenflats serve`: the page, from inside this command, to the browsers of this machine.

use std::io::Write;
use std::net::TcpListener;

use serde::Serialize;

use crate::trouble::Trouble;

pub mod address;
pub mod answer;
pub mod arguments;
pub mod coding;
pub mod door;
pub mod exchange;
pub mod keeper;
mod media_type;
pub mod page;
mod policy;
pub mod port;
pub mod server;
mod stop;
pub mod tag;

use arguments::ServeArguments;
use keeper::Keeper;
use page::Page;

/// The line of `sevenflats serve --json`.
#[derive(Serialize)]
struct ServingLine {
    kind: &'static str,
    url: String,
    port: u16,
    #[serde(skip_serializing_if = "Option::is_none")]
    diary: Option<String>,
}

/// Serves the page that is inside until it is told to stop.
pub(crate) fn serve(
    arguments: &ServeArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<(), Trouble> {
    serve_page(Page::inside(), arguments, out, err)
}

/// Serves a page on this machine alone, says where, and returns when the program is told to stop, by
/// Ctrl-C or by the system.
///
/// # Errors
///
/// When there is no page, when the port cannot be had, or when the address cannot be written.
pub fn serve_page(
    page: Page,
    arguments: &ServeArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<(), Trouble> {
    if !page.is_there() {
        return Err(Trouble::NoPage);
    }
    let (listener, port) = port::listen(arguments.port)?;
    if arguments.port.is_none() && port != port::USUAL {
        elsewhere(port, err)?;
    }
    let diary = diary(arguments, err)?;
    let kept = diary
        .as_ref()
        .map(|diary| diary.path().display().to_string());
    run(page, diary, listener, || {
        announce(arguments.json, port, kept, out)
    })
}

/// Runs the server; says that it does once nothing can be missed any more.
fn run(
    page: Page,
    diary: Option<Keeper>,
    listener: TcpListener,
    announce: impl FnOnce() -> Result<(), Trouble>,
) -> Result<(), Trouble> {
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(Trouble::Serve)?;
    runtime.block_on(async {
        let stop = stop::wished().map_err(Trouble::Serve)?;
        announce()?;
        server::serve_until(page, diary, listener, stop)
            .await
            .map_err(Trouble::Serve)
    })
}

/// The diary that is kept beside the page. Where no place for it is known the page is served without one.
fn diary(arguments: &ServeArguments, err: &mut dyn Write) -> Result<Option<Keeper>, Trouble> {
    if arguments.no_diary {
        return Ok(None);
    }
    match crate::diary::place::place(arguments.diary.as_ref()) {
        Ok(path) => Ok(Some(Keeper::new(&path))),
        Err(trouble) => {
            writeln!(err, "sevenflats: {trouble}; the page is served without one")?;
            Ok(None)
        }
    }
}

fn announce(
    json: bool,
    port: u16,
    diary: Option<String>,
    out: &mut dyn Write,
) -> Result<(), Trouble> {
    let url = address::of(port);
    if json {
        let kind = "serving";
        serde_json::to_writer(
            &mut *out,
            &ServingLine {
                kind,
                url,
                port,
                diary,
            },
        )
        .map_err(std::io::Error::from)?;
        writeln!(out)?;
    } else {
        writeln!(out, "{url}")?;
        writeln!(
            out,
            "Open it in a browser on this machine; Ctrl-C here stops it."
        )?;
        if let Some(diary) = diary {
            writeln!(out, "The page's records are kept in {diary} too.")?;
        }
    }
    // Whoever waits for the address must not wait for a full buffer.
    Ok(out.flush()?)
}

/// What a page keeps is kept by the browser under its address, port included.
fn elsewhere(port: u16, err: &mut dyn Write) -> Result<(), Trouble> {
    writeln!(
        err,
        "sevenflats: port {} is taken, so it is {port} this time; a browser keeps things by the address, and what the page kept at {} is not seen from here",
        port::USUAL,
        port::USUAL
    )?;
    Ok(())
}
