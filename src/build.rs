//! Builds the program anew when a file that travels inside it was added, changed or taken away.

fn main() {
    for folder in ["content", "examples/sorrel-hollow", "themes/endgrain"] {
        println!("cargo::rerun-if-changed={folder}");
    }
}
