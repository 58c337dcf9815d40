//! The WebAssembly: our rooms compiled for the page, with the declarations that its TypeScript reads.

use std::path::{Path, PathBuf};
use std::process::Command;

use wasm_bindgen_cli_support::Bindgen;

use crate::debian;
use crate::program::run;
use crate::target::{Compiler, TARGET, compiler};
use crate::trouble::Trouble;

/// The modules: a feature of the room `wasm` each, in the order in which the page loads them.
const MODULES: [&str; 4] = ["tune", "desk", "programme", "demo"];

/// Builds every module into `web/src/made`.
pub(crate) fn build(root: &Path) -> Result<(), Trouble> {
    let compiler = compiler()?;
    for module in MODULES {
        let compiled = compile(root, &compiler, module)?;
        bind(&compiled, module, &root.join("web/src/made"))?;
    }
    Ok(())
}

/// Compiles one module and gives the place of its code.
fn compile(root: &Path, compiler: &Compiler, module: &str) -> Result<PathBuf, Trouble> {
    let target = target_folder(root);
    let mut cargo = match compiler {
        Compiler::Own => {
            Command::new(std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned()))
        }
        Compiler::Debian { linker } => debians(&target, linker)?,
    };
    cargo
        .current_dir(root)
        .args(["build", "--quiet", "--locked"]);
    if let Compiler::Debian { .. } = compiler {
        // its cargo is older than the version we ask for; what it lacks is switched on below
        cargo.args(["-Zbuild-std=std,panic_abort", "--ignore-rust-version"]);
    }
    cargo.args(["--package", "wasm", "--lib", "--profile", "page"]);
    cargo.args([
        "--no-default-features",
        "--features",
        module,
        "--target",
        TARGET,
    ]);
    cargo.arg("--target-dir").arg(&target);
    // no one else's switches: they would name features that a browser lacks
    cargo
        .env_remove("RUSTFLAGS")
        .env("CARGO_ENCODED_RUSTFLAGS", switches());
    run(&mut cargo, "Install a Rust toolchain.")?;
    Ok(target.join(TARGET).join("page/wasm.wasm"))
}

/// What became stable after Debian's version, and our own rooms use.
const LATER: [&str; 2] = ["let_chains", "unsigned_is_multiple_of"];

/// The names of this machine's folders stay out of what is shipped.
fn switches() -> String {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(Path::new(&std::env::var_os("HOME")?).join(".cargo")));
    let sources = home.map(|home| home.join("registry/src"));
    let shortened = sources.map(|from| format!("--remap-path-prefix={}=crates", from.display()));
    shortened.unwrap_or_default()
}

/// Debian's cargo and compiler, which compiles our own rooms with what it lacks switched on.
fn debians(target: &Path, linker: &Path) -> Result<Command, Trouble> {
    let wrapper = target.join("with-later-features");
    let script = format!(
        "#!/bin/sh\nrustc=$1\nshift\nexec \"$rustc\" '-Zcrate-attr=feature({})' \"$@\"\n",
        LATER.join(",")
    );
    write(&wrapper, script.as_bytes())?;
    executable(&wrapper)?;
    let mut cargo = Command::new(debian::CARGO);
    cargo
        .env("RUSTC_BOOTSTRAP", "1")
        .env("RUSTC", debian::RUSTC)
        .env("RUSTC_WORKSPACE_WRAPPER", wrapper)
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker);
    Ok(cargo)
}

/// Makes the glue and the declarations.
fn bind(compiled: &Path, module: &str, into: &Path) -> Result<(), Trouble> {
    let failed = |reason: String| Trouble::Bindings {
        path: compiled.to_owned(),
        reason,
    };
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(compiled)
        .out_name(module)
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    let bindgen = bindgen
        .web(true)
        .map_err(|error| failed(error.to_string()))?;
    let made = bindgen.generate(into);
    made.map_err(|error| failed(format!("{error:#}")))
}

/// A folder of its own: the other cargo shall not throw away what ours has built.
fn target_folder(root: &Path) -> PathBuf {
    let target =
        std::env::var("CARGO_TARGET_DIR").map_or_else(|_| root.join("target"), PathBuf::from);
    target.join("page")
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let folder = path.parent().unwrap_or(path);
    let written = std::fs::create_dir_all(folder).and_then(|()| std::fs::write(path, bytes));
    written.map_err(|reason| Trouble::File {
        path: path.to_owned(),
        reason,
    })
}

#[cfg(unix)]
fn executable(path: &Path) -> Result<(), Trouble> {
    use std::os::unix::fs::PermissionsExt;
    let all = std::fs::Permissions::from_mode(0o755);
    std::fs::set_permissions(path, all).map_err(|reason| Trouble::File {
        path: path.to_owned(),
        reason,
    })
}

#[cfg(not(unix))]
fn executable(_: &Path) -> Result<(), Trouble> {
    Ok(())
}
