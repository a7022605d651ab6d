//! A piece of dated work: the page that tells more of it, and what a calendar says of it.

use pulldown_cmark::{Event, TagEnd};

use super::batch::pieces;
use super::date;
use crate::page::Page;
use crate::quantity::Units;
use crate::read::markdown::events;
use crate::reckon::findings::Work;
use crate::reckon::findings::agenda::{What, WorkKind};
use crate::reckon::findings::title::names;
use crate::reckon::season::Basis;

/// The page that tells more of a kind of work.
pub const fn page(kind: WorkKind) -> Page {
    match kind {
        WorkKind::Fell => Page::Felling,
        WorkKind::NoCut | WorkKind::Other => Page::Seasons,
        WorkKind::Order | WorkKind::UseUp => Page::Supply,
        WorkKind::Rest | WorkKind::Rested => Page::Bucking,
        WorkKind::Inoculate | WorkKind::Fill => Page::Inoculation,
        WorkKind::FirstFruit => Page::Batches,
        WorkKind::Soak => Page::SoakRota,
    }
}

/// What a reader should know of the work, the cautions that lead it, and where more is told, line by line.
pub fn lines(work: &Work, units: Units) -> Vec<String> {
    let caution = |record: &crate::record::caution::Caution| format!("{}: {}", record.severity.words(), record.says);
    let mut lines = vec![about(work, units)];
    lines.extend(work.cautions.iter().map(|found| caution(&found.record)));
    lines.push(format!("More in the guide: {}", page(work.kind()).path()));
    lines
}

/// What a reader should know of the work, and what its days rest on.
fn about(work: &Work, units: Units) -> String {
    let about = told(work, units);
    match (&work.what, work.basis.doubt()) {
        (What::Fell { .. }, _) | (_, None) => about,
        (_, Some(doubt)) => format!("{about} The days are {doubt}."),
    }
}

fn told(work: &Work, units: Units) -> String {
    match &work.what {
        What::Fell { woods, whole: (from, to), rested } => {
            let rest = if *rested { "Felled in these days their logs rest as long as they should. " } else { "" };
            format!(
                "Trees of these woods may come down from {} to {}: {}. {rest}{} Felling is for a trained feller.",
                from.show(units),
                to.show(units),
                names(woods).join(", "),
                basis_words(work.basis)
            )
        }
        What::NoCut(window) => format!("{}. {}", window.record.name, plain(&window.record.says)),
        What::Order { wanted, .. } => {
            let opens =
                |day: &crate::quantity::Date| format!(" It is wanted on {}, when inoculation begins.", day.show(units));
            format!("Ordered by today it comes in time.{}", wanted.as_ref().map_or_else(String::new, opens))
        }
        What::UseUp { opened, .. } => {
            format!("Opened on {}. Use an opened bag up within a month (eXtension, totems).", opened.show(units))
        }
        What::Inoculate { mushrooms, woods, rest, down, .. } => format!(
            "{} on {}. The logs rest {} to {}, so their trees are down by {}.",
            mushrooms.iter().map(|mushroom| mushroom.name()).collect::<Vec<_>>().join(", "),
            names(woods).join(", "),
            rest.low.written(),
            rest.high.written(),
            down.show(units)
        ),
        What::Rest(lying) | What::Rested(lying) => {
            let (from, to) = lying.rested;
            format!(
                "Felled {}. By our rest these logs are ready from {} to {}.",
                lying.felled.show(units),
                from.show(units),
                to.show(units)
            )
        }
        What::Fill(lying, fill) => {
            let (from, to) = lying.rested;
            let rested = format!("Felled {}; rested {}", lying.felled.show(units), date::between(from, to, units));
            let late = "before inoculation opens: keep them shaded, off the soil and covered against drying until then; \
                        sources differ on so long a rest";
            let by = fill.days.1.show(units);
            if fill.late { format!("{rested}, {late}. Fill by {by}.") } else { format!("{rested}. Fill by {by}.") }
        }
        What::FirstFruit { batch, logs } => format!(
            "{}, {} inoculated on {}. From now on they may give their first mushrooms, when the air suits and it \
             rains. Eat nothing that is not the planted mushroom.",
            batch.strain.record.name,
            pieces(*logs, batch),
            batch.record.inoculated.show(units)
        ),
        What::Soak(_, turn) => format!(
            "Into the tank: {}. Look every day; pick until about {}.",
            turn.logs.iter().map(|(batch, logs)| format!("{logs} of {}", batch.name)).collect::<Vec<_>>().join("; "),
            turn.picked_by().show(units)
        ),
        What::Other(window) => plain(&window.record.says),
    }
}

/// What the days of a felling rest on, in a sentence.
fn basis_words(basis: Basis) -> String {
    match basis {
        Basis::Observed => "The days rest on dates observed on this farm.".to_owned(),
        basis => format!("The days are {}.", basis.doubt().unwrap_or_else(|| "those of the season window".to_owned())),
    }
}

/// Markdown without its links, as a calendar shows it.
fn plain(markdown: &str) -> String {
    let words = events(markdown).filter_map(|event| match event {
        Event::Text(text) | Event::Code(text) => Some(text.into_string()),
        Event::SoftBreak | Event::HardBreak | Event::End(TagEnd::Paragraph) => Some(" ".to_owned()),
        _ => None,
    });
    words.collect::<String>().trim().to_owned()
}
