//! Packs the syntax by which records are inked; run it after changing `record.sublime-syntax`.

use syntect::dumps;
use syntect::parsing::{SyntaxDefinition, SyntaxSetBuilder};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = "src/press/highlight";
    let text = std::fs::read_to_string(format!("{folder}/record.sublime-syntax"))?;
    let mut set = SyntaxSetBuilder::new();
    set.add(SyntaxDefinition::load_from_str(&text, true, None)?);
    dumps::dump_to_uncompressed_file(&set.build(), format!("{folder}/record.packdump"))?;
    Ok(())
}
