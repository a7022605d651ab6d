//! Farms as big as twenty years make them: invented, drawn by dice that fall the same on every machine.

use std::fmt::Write;
use std::fs;
use std::path::Path;

/// The last growing year of a farm.
const LAST: usize = 2026;
/// Woods of batches, trees and notes.
const WOODS: [&str; 4] = ["red-oak", "sugar-maple", "red-maple", "white-oak"];
/// The strain of plans, which answers to soaking, and of every batch but where a farm ends them.
const STRAIN: &str = "shiitake-wide-range";
/// The strains of batches, where a farm ends them.
const STRAINS: [&str; 3] = [STRAIN, "shiitake-cold", "shiitake-warm"];
/// Logs of each batch, where a farm ends them.
const FILLED: usize = 20;
/// Words of which notes are made.
const WORDS: [&str; 32] = [
    "stack", "shade", "rain", "bark", "tank", "morning", "label", "frost", "wind", "moss", "ladder", "basket",
    "spring", "ridge", "gate", "pole", "dry", "wet", "early", "late", "heavy", "light", "counted", "turned", "leaned",
    "carried", "picked", "soaked", "beside", "under", "hemlock", "brook",
];

/// Numbers that look random and are the same on every machine (xorshift).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % sides.max(1) as u64) as usize
    }
}

/// How many records of each kind a farm has.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    /// Growing years after its first.
    pub years: usize,
    /// Growing years after which a batch is retired, each drawn from a lot of its winter; nought where none ever is.
    pub lives: usize,
    /// Batches.
    pub batches: usize,
    /// Rows of harvests.
    pub harvests: usize,
    /// Rows of sales.
    pub sales: usize,
    /// Lines of the day book.
    pub diary: usize,
    /// Notes.
    pub notes: usize,
    /// Stands.
    pub stands: usize,
    /// Mapped trees, in these stands.
    pub trees: usize,
    /// Lots.
    pub lots: usize,
    /// Plans, of one season each.
    pub plans: usize,
    /// Handouts.
    pub handouts: usize,
}

impl Size {
    /// A farm that has a little of everything, to be made big in one kind.
    pub const SMALL: Self = Self {
        years: 20,
        lives: 0,
        batches: 50,
        harvests: 100,
        sales: 10,
        diary: 100,
        notes: 10,
        stands: 1,
        trees: 30,
        lots: 2,
        plans: 1,
        handouts: 1,
    };

    /// A farm of fifteen years that fills eighty batches a winter, each cropped for six years.
    pub const FIFTEEN_YEARS: Self = Self {
        years: 15,
        lives: 6,
        batches: 1_200,
        harvests: 20_000,
        sales: 2_000,
        diary: 60_000,
        notes: 150,
        stands: 6,
        trees: 1_500,
        lots: 300,
        plans: 15,
        handouts: 4,
    };

    /// So many records in the proportions of a farm of twenty years: to a batch about six harvests, half a sale, eight lines of
    /// the day book, three trees and half a note.
    pub fn of(records: usize) -> Self {
        let batches = (records / 19).max(1);
        Self {
            years: 20,
            lives: 0,
            batches,
            harvests: batches * 6,
            sales: batches / 2,
            diary: batches * 8,
            notes: batches / 2,
            stands: 3,
            trees: batches * 3,
            lots: batches / 10,
            plans: 20.min(batches),
            handouts: 4.min(batches),
        }
    }

    /// Records in all, the farm's own among them.
    pub fn records(&self) -> usize {
        let rows = self.harvests + self.sales + self.diary + self.trees;
        1 + rows + self.batches + self.notes + self.stands + self.lots + self.plans + self.handouts
    }

    /// Writes the farm into a folder.
    pub fn write(&self, folder: &Path) {
        let mut writer = Writer { folder, size: self, dice: Dice(0x9E37_79B9_7F4A_7C15) };
        writer.farm();
        writer.woodlot();
        writer.lots();
        writer.batches();
        writer.harvests();
        writer.day_book();
        writer.notes();
        writer.plans();
        writer.handouts();
        writer.sales();
    }
}

struct Writer<'a> {
    folder: &'a Path,
    size: &'a Size,
    dice: Dice,
}

impl Writer<'_> {
    fn write(&self, path: &str, text: &str) {
        let path = self.folder.join(path);
        fs::create_dir_all(path.parent().expect("a path has a folder")).expect("the folder can be made");
        fs::write(path, text).expect("the file can be written");
    }

    fn farm(&self) {
        let text = "name: Twenty Years (invented)\nplace: {latitude: 43.6, longitude: -72.5}\nseason: 2026\nunits: us\n\
                    log: {diameter: [4 in, 6 in], length: 40 in}\ngrows: [shiitake]\nwoods: [red-oak, sugar-maple, red-maple]\n\
                    soak: {tank: 40, hours: 12 hours}\nclimate:\n  monthly_means: [18 F, 21 F, 30 F, 42 F, 54 F, 63 F, 68 F, \
                    66 F, 58 F, 46 F, 35 F, 24 F]\n";
        self.write("farm.yaml", text);
    }

    /// Trees about fifteen feet apart, every tenth with a second stem from its stump.
    fn woodlot(&mut self) {
        for stand in 0..self.size.stands {
            let trees = self.size.trees / self.size.stands + usize::from(stand < self.size.trees % self.size.stands);
            let side = (trees as f64).sqrt().ceil().max(1.0) as usize;
            let acres = (trees as f64 * 225.0 / 43560.0).max(0.1);
            let record = format!(
                "name: Stand {stand}\narea: {acres:.2} acres\ntarget: 70 ft2/ac\nheight: 60 ft\nprism: {{factor: 10 ft2/ac, counts: [11, 9, 10, 12]}}\n"
            );
            self.write(&format!("woodlot/stand-{stand}.yaml"), &record);
            let mut sheet = "tag,wood,dbh (in),height (ft),decision,why,clump,east (ft),north (ft)\n".to_owned();
            let mut last = (0, "keep");
            for tree in 0..trees {
                let second = tree % 10 == 9;
                if !second {
                    last = (self.dice.roll(WOODS.len()), ["fell", "keep", "keep"][self.dice.roll(3)]);
                }
                let clump = if tree % 10 >= 8 { format!("C{}", tree / 10) } else { String::new() };
                let (dbh, height) = (40 + self.dice.roll(90), 45 + self.dice.roll(25));
                let [east, north] = [tree % side, tree / side].map(|step| step * 15 + self.dice.roll(9));
                let _ = writeln!(
                    sheet,
                    "T{stand}-{tree},{},{}.{},{height},{},,{clump},{east},{north}",
                    WOODS[last.0],
                    dbh / 10,
                    dbh % 10,
                    last.1
                );
            }
            self.write(&format!("woodlot/stand-{stand}.csv"), &sheet);
        }
    }

    fn lots(&mut self) {
        for lot in 0..self.size.lots {
            let (wood, logs) = (WOODS[self.dice.roll(WOODS.len())], 10 + self.dice.roll(30));
            let (logs, winter) =
                if self.size.lives == 0 { (logs, LAST) } else { (self.filled(lot), self.begun(self.drawing(lot)) - 1) };
            let text = format!(
                "name: Lot {lot}\nwood: {wood}\nlogs: {logs}\nfelled: '{winter}-11-03'\nfrom: An invented neighbour.\n"
            );
            self.write(&format!("lots/lot-{lot}.yaml"), &text);
        }
    }

    /// The first batch that draws on a lot.
    fn drawing(&self, lot: usize) -> usize {
        (lot * self.size.batches).div_ceil(self.size.lots)
    }

    /// The logs of a lot, all of which its batches filled.
    fn filled(&self, lot: usize) -> usize {
        (self.drawing(lot + 1) - self.drawing(lot)) * FILLED
    }

    /// The year in which a batch was inoculated.
    fn begun(&self, batch: usize) -> usize {
        LAST - self.size.years + batch * self.size.years / self.size.batches
    }

    fn batches(&mut self) {
        for batch in 0..self.size.batches {
            let (wood, logs) = (WOODS[self.dice.roll(WOODS.len())], 10 + self.dice.roll(15));
            let logs = if self.size.lives == 0 { logs } else { FILLED };
            let year = self.begun(batch);
            let from = match self.size.lives {
                0 => format!("strain: {STRAIN}\nwood: {wood}\n"),
                lives => self.drawn(batch, year + lives),
            };
            let text = format!(
                "{from}logs: {logs}\ninoculated: '{year}-04-05'\nspawn: sawdust\nsamples:\n  - label: S-{batch}\n    \
                 at_inoculation: 28 lb\n"
            );
            self.write(&format!("batches/{}.yaml", id(batch)), &text);
        }
    }

    /// What a batch says of its strain, its lot and its end.
    fn drawn(&self, batch: usize, spent: usize) -> String {
        let (strain, lot) = (STRAINS[batch % STRAINS.len()], batch * self.size.lots / self.size.batches);
        let ended =
            if spent <= LAST { format!("ended: {{date: '{spent}-11-20', how: retired}}\n") } else { String::new() };
        format!("strain: {strain}\nlot: lot-{lot}\nnumber: {}\n{ended}", batch + 1)
    }

    /// A batch, and a day in its growing years, the year after inoculation the first.
    fn day(&mut self, row: usize) -> (usize, usize, String) {
        let batch = row % self.size.batches;
        let begun = self.begun(batch);
        let year = (begun + 1 + self.dice.roll(5)).min(LAST);
        (batch, year, format!("{year}-{:02}-{:02}", 5 + self.dice.roll(5), 1 + self.dice.roll(28)))
    }

    /// A sheet for each year, since nobody keeps twenty years on one.
    fn sheets(&self, folder: &str, head: &str, rows: Vec<(usize, String)>) {
        let mut sheets = vec![String::new(); self.size.years + 1];
        let first = LAST - self.size.years;
        for (year, row) in rows {
            sheets[year - first] += &row;
        }
        for (year, rows) in (first..).zip(sheets).filter(|(_, rows)| !rows.is_empty()) {
            self.write(&format!("{folder}/{year}.csv"), &format!("{head}\n{rows}"));
        }
    }

    fn harvests(&mut self) {
        let size = self.size;
        let row = |row: usize| {
            let (batch, year, day) = self.day(row);
            let tenths = 4 + self.dice.roll(50);
            (year, format!("{day},{},{}.{} lb,basket {row}\n", id(batch), tenths / 10, tenths % 10))
        };
        let rows = (0..size.harvests).map(row).collect();
        self.sheets("harvests", "date,batch,weight,note", rows);
    }

    /// Sales at a stall, of which every fifth brings a part home, and every ninth is of a strain alone.
    fn sales(&mut self) {
        let size = self.size;
        let row = |row: usize| {
            let (batch, year, day) = self.day(row);
            let (of, strain) = if row % 9 == 8 { (String::new(), STRAIN) } else { (id(batch), "") };
            let (pounds, price) = (2 + self.dice.roll(8), 10 + self.dice.roll(6));
            let home = usize::from(row % 5 == 4);
            let taken = (pounds - home) * price;
            (year, format!("{day},{of},{strain},{pounds} lb,{taken},{home} lb,stall {row}\n"))
        };
        let rows = (0..size.sales).map(row).collect();
        self.sheets("sales", "date,batch,strain,weight,taken,unsold,note", rows);
    }

    fn day_book(&mut self) {
        let size = self.size;
        let row = |row: usize| {
            let (batch, year, day) = self.day(row);
            let (of, weight) = (id(batch), 22 + self.dice.roll(9));
            let line = match self.dice.roll(8) {
                0 => format!("{day},,rained-on,,,0.{} in,", 2 + self.dice.roll(7)),
                1 => format!("{day},{of},weighed,,S-{batch},{weight} lb,"),
                2 => format!("{day},{of},weeds-seen,,,,a crust on one end"),
                3 => format!("{day},{of},fruited,2,,8,"),
                _ => format!("{day},{of},soaked,{},,12 hours,", 4 + self.dice.roll(6)),
            };
            (year, line + "\n")
        };
        let rows = (0..size.diary).map(row).collect();
        self.sheets("yard", "date,batch,what,logs,log,amount,note", rows);
    }

    fn notes(&mut self) {
        for note in 0..self.size.notes {
            let (batch, year, day) = self.day(note);
            let wood = WOODS[self.dice.roll(WOODS.len())];
            let words: Vec<&str> = (0..60).map(|_| WORDS[self.dice.roll(WORDS.len())]).collect();
            let text = format!(
                "---\ntitle: Note {note} of {year}\ndate: '{day}'\nabout: [batch:{}, wood:{wood}]\n---\n\nOf [shiitake](mushroom:shiitake): {}.\n",
                id(batch),
                words.join(" ")
            );
            self.write(&format!("notes/note-{note}.md"), &text);
        }
    }

    fn plans(&mut self) {
        for plan in 0..self.size.plans {
            let (season, logs) = (LAST - plan, 40 + self.dice.roll(60));
            let logs = if self.size.lives == 0 { logs } else { logs * FILLED / 2 };
            let text = format!(
                "name: The winter of {season}\nseason: {season}\nfloor: gets-by\nwishes:\n  - {{strain: {STRAIN}, spawn: sawdust, logs: {logs}}}\n  - \
                 {{strain: shiitake-cold, spawn: plug, guests: 12}}\noffers:\n  - {{item: sawdust, weight: 5.5 lb, price: 27}}\n"
            );
            self.write(&format!("plans/winter-{season}.yaml"), &text);
        }
    }

    fn handouts(&self) {
        for handout in 0..self.size.handouts {
            let text = "title: Harvest card\nreaders: for whoever picks\nsheets: 2\nmushrooms: [shiitake]\nwoods: [red-oak]\nabout: Pick only \
                        what fits.\nsections:\n  - shows: picking\n  - shows: look-alikes\n  - shows: ask\n    ask:\n      - about: A doubtful \
                        meal\n        whom: The poison centre, at once\n";
            self.write(&format!("handouts/card-{handout}.yaml"), text);
        }
    }
}

/// The id of a batch.
fn id(batch: usize) -> String {
    format!("batch-{batch}")
}
