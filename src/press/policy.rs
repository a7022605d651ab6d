//! What a page may load, as its content-security policy says: the guide's own files, and nothing from anywhere else.
//!
//! A guide is opened from a folder, where no server sends a header, so that every page carries its policy in a `<meta>`. A
//! handout is one file and names what stands in it by its hash.
//!
//! Source: W3C, *Content Security Policy Level 3*; the hashes by its section 2.3.1.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// What no page does: load from elsewhere, stand in another's frame of reference, or send what was typed away.
const NOTHING_ELSE: &str = "default-src 'none'; base-uri 'none'; form-action 'self'";

/// The policy of a page of the guide.
///
/// ```
/// assert!(hostwood::press::policy::of_page().contains("script-src 'self'"));
/// ```
pub fn of_page() -> String {
    format!("{NOTHING_ELSE}; img-src 'self' data:; style-src 'self'; script-src 'self'")
}

/// The policy of a page that carries these styles and this script inside it.
///
/// ```
/// let policy = hostwood::press::policy::of_handout(&["p { margin: 0; }"], "");
/// assert!(policy.ends_with("script-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='"));
/// ```
pub fn of_handout(styles: &[&str], script: &str) -> String {
    let styles: Vec<String> = styles.iter().map(|style| hash(style)).collect();
    format!("{NOTHING_ELSE}; img-src data:; style-src {}; script-src {}", styles.join(" "), hash(script))
}

/// The hash of what stands between the tags of an element.
fn hash(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text.as_bytes())))
}
