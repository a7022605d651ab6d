//! The words that a drawn page says: what a reader sees between its head and its foot, without tags.

/// Elements whose words nobody looks for: drawings, records, fields and ways to other pages.
const UNSAID: [&str; 6] = ["svg", "pre", "nav", "form", "style", "script"];

/// The words of a page's main part, tags and marks replaced by blanks.
///
/// ```
/// let html = "<nav>Find</nav><main><h1>Soaking</h1><svg><text>12</text></svg><p>Lion&#x27;s mane &amp; oak</p></main>";
/// let words: Vec<String> = hostwood::press::text::of(html).split_whitespace().map(str::to_owned).collect();
/// assert_eq!(words.join(" "), "Soaking Lion's mane & oak");
/// ```
pub fn of(html: &str) -> String {
    let main = html.split_once("<main").map_or("", |(_, rest)| rest);
    let main = main.rsplit_once("</main>").map_or(main, |(main, _)| main);
    let mut text = String::with_capacity(main.len() / 2);
    // What stands before the first end of a tag is the rest of the main part's own.
    let mut rest = main.split_once('>').map_or("", |(_, rest)| rest);
    while let Some((said, tag)) = rest.split_once('<') {
        text.push_str(said);
        text.push(' ');
        rest = after(tag);
    }
    text.push_str(rest);
    text.replace("&#x27;", "'").replace("&#39;", "'").replace("&quot;", " ").replace("&amp;", "&")
}

/// What follows a tag, or the whole element where nobody looks for its words.
fn after(tag: &str) -> &str {
    let unsaid = UNSAID.iter().find(|name| {
        tag.strip_prefix(**name).is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '-'))
    });
    let rest = unsaid.and_then(|name| tag.split_once(&format!("</{name}")).map(|(_, rest)| rest)).unwrap_or(tag);
    rest.split_once('>').map_or("", |(_, rest)| rest)
}
