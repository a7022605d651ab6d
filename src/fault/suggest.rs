//! Finds the word that was meant.

/// The candidate closest to a misspelt word, where one is close enough.
///
/// A candidate that begins with the word comes first; else two words are close when at most a quarter of the longer one's
/// letters differ, by the edit distance of Damerau (1964).
///
/// ```
/// use hostwood::fault::suggest::closest;
/// assert_eq!(closest("red-oka", ["red-oak", "red-maple"]), Some("red-oak"));
/// assert_eq!(closest("oak-wilt-wi", ["oak-wilt-iowa", "oak-wilt-wisconsin"]), Some("oak-wilt-wisconsin"));
/// assert_eq!(closest("walnut", ["red-oak", "red-maple"]), None);
/// ```
pub fn closest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    candidates
        .into_iter()
        .filter_map(|candidate| distance(word, candidate).map(|distance| (distance, candidate)))
        .min()
        .map(|(_, candidate)| candidate)
}

/// Whether the candidate only differs by letters rather than begins with the word, and by how many.
fn distance(word: &str, candidate: &str) -> Option<(bool, usize)> {
    let (word, lower) = (word.to_lowercase(), candidate.to_lowercase());
    let (letters, others) = (word.chars().count(), lower.chars().count());
    // At least so many letters differ as one has more than the other, and no more where one begins with the other.
    let least = letters.abs_diff(others);
    if letters >= 3 && lower.starts_with(&word) {
        return Some((false, least));
    }
    let close = |distance: usize| distance * 4 <= letters.max(others);
    let distance = close(least).then(|| strsim::damerau_levenshtein(&word, &lower));
    distance.filter(|distance| close(*distance)).map(|distance| (true, distance))
}

/// How to mend a word: by the known one that was meant, where one is close enough, or else as `otherwise` says.
///
/// ```
/// use hostwood::fault::suggest::instead_of;
/// assert_eq!(instead_of("red-oka", ["red-oak"], String::new), "write `red-oak`, if that is meant");
/// ```
pub fn instead_of<'a>(
    word: &str,
    known: impl IntoIterator<Item = &'a str>,
    otherwise: impl FnOnce() -> String,
) -> String {
    closest(word, known).map_or_else(otherwise, |meant| format!("write `{meant}`, if that is meant"))
}

/// A list of words in one sentence part: "a, b or c".
///
/// ```
/// assert_eq!(hostwood::fault::suggest::either(["in", "cm", "mm"]), "`in`, `cm` or `mm`");
/// ```
pub fn either<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let quoted: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match quoted.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
