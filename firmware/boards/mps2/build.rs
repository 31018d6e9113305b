//! Puts the memory map and the interrupts' names where the linker looks for it.

use std::{env, error::Error, fs, path::PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    let out = PathBuf::from(env::var("OUT_DIR")?);
    for script in ["memory.x", "device.x"] {
        fs::copy(script, out.join(script))?;
        println!("cargo:rerun-if-changed={script}");
    }
    println!("cargo:rustc-link-search={}", out.display());
    println!("cargo:rerun-if-changed=build.rs");
    Ok(())
}
