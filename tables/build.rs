//! Makes static Rust rows from `tables/*.yaml`; a table that breaks its own laws fails the build.

mod make;

use std::path::Path;

fn main() {
    println!("cargo::rerun-if-changed=tables");
    let out = std::env::var_os("OUT_DIR").unwrap_or_default();
    let mut files = Vec::new();
    for name in make::FILES {
        match std::fs::read_to_string(format!("tables/{name}.yaml")) {
            Ok(text) => files.push((name, text)),
            Err(error) => println!("cargo::error=tables/{name}.yaml: {error}"),
        }
    }
    let files: Vec<_> = files.iter().map(|(n, t)| (*n, t.as_str())).collect();
    match make::run(&files) {
        Ok(made) => {
            for (name, text) in made {
                if let Err(error) = std::fs::write(Path::new(&out).join(&name), text) {
                    println!("cargo::error={name}: {error}");
                }
            }
        }
        Err(faults) => {
            for fault in faults {
                println!("cargo::error={fault}");
            }
        }
    }
}
