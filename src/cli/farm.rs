//! Finds the farm that a command is about, and binds its book.

use std::path::{Path, PathBuf};

use super::{Ended, FarmAt};
use crate::book;
use crate::book::Book;
use crate::fault::Fault;
use crate::quantity::{Date, Units};
use crate::read::{Found, folder};
use crate::reckon::findings::Choice;
use crate::record::{Kind, Layout};

/// Where the farm is: the folder named, else the current one if it has a `farm.yaml`, else the demo farm.
///
/// # Errors
///
/// A usage fault where the folder named does not exist.
pub fn find(named: Option<&Path>) -> Result<FarmAt, Ended> {
    match named {
        Some(folder) if folder.is_dir() => Ok(FarmAt::Folder(folder.to_owned())),
        Some(folder) => Err(Ended::Usage(format!("There is no folder {}.", folder.display()))),
        None if Path::new("farm.yaml").is_file() => Ok(FarmAt::Folder(PathBuf::from("."))),
        None => match records_here() {
            Some(name) => Err(Ended::Usage(format!(
                "This folder holds {name}, but no farm.yaml. Write a farm.yaml here, or name the farm's folder."
            ))),
            None => Ok(FarmAt::Demo),
        },
    }
}

/// A sign that the current folder is meant as a farm.
fn records_here() -> Option<String> {
    let kinds = Kind::ALL.into_iter().filter(|kind| kind.layout() != Layout::Sheets && *kind != Kind::Note);
    let misspelt = ["farm.yml", "Farm.yaml", "farm.yaml.txt"].into_iter().find(|name| Path::new(name).is_file());
    misspelt.map(str::to_owned).or_else(|| {
        let here: Vec<&str> = kinds.filter_map(Kind::folder).filter(|folder| Path::new(folder).is_dir()).collect();
        (here.len() >= 2).then(|| here.join("/ and ") + "/")
    })
}

/// Reads and binds the farm's book, in the units that the call asks for or else in the farm's own.
///
/// # Errors
///
/// Faults of the records, or a failure of the machine.
pub fn bind(farm: &FarmAt, units: Option<Units>) -> Result<Book, Ended> {
    let found = match farm {
        FarmAt::Folder(folder) => folder::files(folder)?,
        FarmAt::Demo => folder::demo(),
    };
    Ok(book::bind_in(found, units)?)
}

/// The farm's choice, with what the call asked for in its place.
///
/// The date of the edition comes from the records or from `SOURCE_DATE_EPOCH`, never from the clock.
///
/// # Errors
///
/// A usage fault where `SOURCE_DATE_EPOCH` is not a number of seconds.
pub fn choice(book: &Book, season: Option<i16>) -> Result<Choice, Ended> {
    let own = Choice::of(book);
    let edition = own.edition.map_or_else(epoch, |date| Ok(Some(date)))?;
    Ok(Choice { season: season.unwrap_or(own.season), edition, ..own })
}

fn epoch() -> Result<Option<Date>, Ended> {
    let Some(text) = std::env::var_os("SOURCE_DATE_EPOCH") else { return Ok(None) };
    let seconds = text.to_str().and_then(|text| text.parse::<i64>().ok());
    let date = seconds.and_then(|seconds| jiff::Timestamp::from_second(seconds).ok());
    let date = date.map(|stamp| Date(jiff::tz::Offset::UTC.to_datetime(stamp).date()));
    date.map(Some).ok_or_else(|| Ended::Usage("SOURCE_DATE_EPOCH must be a number of seconds since 1970.".to_owned()))
}

/// The files of the farm's own theme, where it names a folder of them.
///
/// # Errors
///
/// A fault at the name, where it is not a folder inside the farm's; a failure to read it.
pub fn look(farm: &FarmAt, book: &Book) -> Result<Vec<Found>, Ended> {
    let (FarmAt::Folder(folder), Some(look)) = (farm, &book.farm.record.look) else { return Ok(Vec::new()) };
    let inside = |home: &str| Path::new(look.trim_start_matches("./")).starts_with(home);
    let records = Kind::ALL.into_iter().filter_map(Kind::folder).any(inside);
    if !records && let Some(found) = folder::look(folder, look)? {
        return Ok(found);
    }
    let fault = Fault::new("no-look", format!("there is no folder `{look}` for the look in the farm's folder"));
    let fault = fault.instead("name a folder beside `farm.yaml`, or take the line `look:` away");
    Err(Ended::Faults(vec![match &book.farm.look {
        Some(place) => fault.at(place.clone()),
        None => fault,
    }]))
}
