//! Characters by which a tree is known, each from a closed list of states.
//!
//! The lists, and how each state reads in a lead of a key, follow Ibberson and others 1971, *Common Trees of Pennsylvania*; a
//! state is what one sees on a stem of log size, on a twig that grew in the sun, or on a leaf that lies under the tree.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;
use super::said::{Cited, Mark};
use super::source::Source;
use super::words::words;

/// What a character of a wood is, and who says so.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
pub struct Seen<T> {
    /// Its states: several where trees of one wood differ, or where it changes as the tree thickens.
    #[schemars(length(min = 1))]
    pub is: Vec<T>,
    /// Who says it.
    pub source: Id<Source>,
    /// How it came here.
    #[serde(default)]
    pub mark: Mark,
    /// What a reader should know about it.
    pub note: Option<String>,
}

impl<T> Cited for Seen<T> {
    fn source(&self) -> &Id<Source> {
        &self.source
    }

    fn mark(&self) -> Mark {
        self.mark
    }

    fn note(&self) -> Option<&str> {
        self.note.as_deref()
    }
}

/// What a record says of one character, whichever it is.
pub struct Told<'a> {
    /// The places of its states among those of the character.
    pub states: Vec<usize>,
    /// Who says it.
    pub cited: &'a dyn Cited,
}

words! {
    /// What one does to see a character.
    pub enum Reach {
        /// See it from afar.
        Glance = "at a glance",
        /// Stand before the stem.
        Stem = "at the stem",
        /// Look up at the whole tree.
        Crown = "from a few steps away",
        /// Take a leaf from the tree, or from the ground where the tree is bare.
        Leaf = "a leaf in the hand",
        /// Cut into the bark.
        Knife = "a cut into the bark",
        /// Take a twig: a low or fallen one, or that of a seedling beside the tree.
        Twig = "a twig in the hand",
    }
}

words! {
    /// When a character is seen.
    pub enum When {
        /// While the tree is bare.
        Winter = "in winter",
        /// While it is in leaf.
        Summer = "in summer",
        /// All year.
        Always = "all year",
        /// Never at the tree: it tells of a place, or has no measure.
        Never = "not at the tree",
    }
}

/// Makes the lists of states, the record that holds them and the list of characters: a block a character, with its name
/// in a lead, what one does to see it, when, and how far it is trusted.
macro_rules! characters {
    ($(
        $(#[$about:meta])*
        $field:ident: $name:ident, $said:literal, $reach:ident, $when:ident, $trust:literal { $($state:ident = $words:literal,)+ }
    )+) => {
        $(
            words! {
                $(#[$about])*
                pub enum $name { $(#[doc = $words] $state = $words,)+ }
            }
        )+

        /// The characters of a wood; a character that nobody told is left out, and decides nothing.
        #[derive(Debug, Clone, Default, Deserialize, Serialize, JsonSchema)]
        pub struct Characters {
            $($(#[$about])* pub $field: Option<Seen<$name>>,)+
        }

        words! {
            /// A character by which trees are told apart.
            pub enum Character { $($(#[$about])* $name = $said,)+ }
        }

        impl Character {
            /// What one does to see it.
            pub const fn reach(self) -> Reach {
                match self { $(Self::$name => Reach::$reach,)+ }
            }

            /// When it is seen.
            pub const fn when(self) -> When {
                match self { $(Self::$name => When::$when,)+ }
            }

            /// How far it is trusted, from 0 to 1.
            pub const fn trust(self) -> f64 {
                match self { $(Self::$name => $trust,)+ }
            }

            /// Its states: how records write each, and how a reader meets it.
            pub fn states(self) -> Vec<(&'static str, &'static str)> {
                match self { $(Self::$name => $name::ALL.iter().map(|state| (state.id(), state.words())).collect(),)+ }
            }
        }

        impl Characters {
            /// What they say of one character, where they say anything.
            pub fn told(&self, character: Character) -> Option<Told<'_>> {
                match character {
                    $(Character::$name => self.$field.as_ref().map(|seen| Told {
                        states: seen.is.iter().map(|state| *state as usize).collect(),
                        cited: seen,
                    }),)+
                }
            }
        }
    };
}

characters! {
    /// What kind of leaves it has.
    foliage: Foliage, "Foliage", Glance, Always, 1.0 {
        Broad = "flat leaves that fall in autumn",
        Needles = "needles",
        Scales = "scales, pressed to the twig",
        Leathery = "flat leaves, leathery and green all winter",
    }
    /// How its needles stand.
    needles: Needles, "Needles", Twig, Always, 1.0 {
        Single = "one by one",
        Two = "in twos",
        Three = "in threes",
        Five = "in fives",
        Tuft = "in tufts, which fall and leave pegs",
    }
    /// How leaves and buds stand on the twig.
    arrangement: Arrangement, "Buds along the twig", Twig, Always, 1.0 {
        Alternate = "one by one, alternate",
        Opposite = "in pairs, opposite",
        Whorled = "in threes, whorled",
        Spiral = "in a spiral",
    }
    /// How its leaf is divided.
    leaf_type: LeafType, "Leaf", Leaf, Always, 1.0 {
        Simple = "of one blade",
        Pinnate = "of leaflets in two rows",
        Bipinnate = "of leaflets that are divided again",
        Palmate = "of leaflets spread from one point",
        Needle = "a needle",
    }
    /// The edge of its leaf or leaflet.
    leaf_margin: LeafMargin, "Edge of the leaf", Leaf, Always, 1.0 {
        Entire = "without teeth or lobes",
        FineSerrate = "fine teeth, all alike",
        DoubleSerrate = "teeth of two sizes, small on large",
        CoarseTooth = "coarse teeth, one to each side vein",
        RoundTooth = "rounded teeth or waves",
        LobeRound = "lobes with round ends",
        LobeBristle = "lobes that end in bristles",
        LobePalmFew = "lobes from one point, with a few large teeth",
        LobePalmMany = "lobes from one point, with many teeth",
        LobeStar = "five points like a star",
        LobeTulip = "four lobes and an end as if cut off",
        LobeMitten = "whole, two-lobed and three-lobed on one tree",
    }
    /// The foot of its blade.
    leaf_base: LeafBase, "Foot of the leaf", Leaf, Always, 1.0 {
        Even = "even on both sides",
        Uneven = "lower on one side",
        Heart = "heart-shaped",
    }
    /// The underside of its leaf.
    leaf_underside: LeafUnderside, "Underside of the leaf", Leaf, Summer, 1.0 {
        Plain = "green, a little paler",
        Smooth = "without any hair",
        Silvery = "silvery white",
        Hairy = "hairy all over",
        Rusty = "with rust-coloured hair",
        Tufts = "with tufts of hair where veins meet",
        Pale = "pale and bluish",
    }
    /// How many leaflets a leaf has.
    leaflets: Leaflets, "Leaflets of one leaf", Leaf, Always, 1.0 {
        Three = "3",
        Five = "5",
        Seven = "7",
        Nine = "9",
        Eleven = "11",
        More = "13 or more",
    }
    /// What stands at the end of the twig.
    end_bud: EndBud, "End of the twig", Twig, Winter, 1.0 {
        Cluster = "a cluster of buds",
        Single = "one true end bud",
        PseudoTerminal = "a side bud, with the scar of the twig's end beside it",
        None = "no bud to be seen",
    }
    /// The scales of its end bud.
    bud_scales: BudScales, "Scales of the end bud", Twig, Winter, 1.0 {
        Naked = "none, the bud is bare",
        One = "one cap",
        Two = "two, or three at most",
        Few = "three to six",
        Many = "more than six",
        Hidden = "none in sight, the bud is hidden",
    }
    /// The shape of its bud.
    bud_shape: BudShape, "Shape of the bud", Twig, Winter, 1.0 {
        RoundBlunt = "round or blunt",
        OvoidPoint = "egg-shaped with a point",
        ConeSharp = "a sharp cone",
        Cigar = "long and thin, many times as long as wide",
        Duckbill = "flat like a duck's bill",
        Stalked = "on a foot of its own",
        Lopsided = "bulging on one side",
        Pressed = "small, flat against the twig",
        Sunken = "sunk into the leaf scar",
    }
    /// The colour of its bud.
    bud_colour: BudColour, "Colour of the bud", Twig, Winter, 1.0 {
        Brown = "brown",
        Red = "red",
        Black = "black",
        Yellow = "yellow",
        Green = "green",
        Grey = "ash-coloured",
        Purple = "purple",
        White = "whitish",
    }
    /// The surface of its bud.
    bud_surface: BudSurface, "Surface of the bud", Twig, Winter, 1.0 {
        Smooth = "smooth",
        Hairy = "downy or hairy",
        Sticky = "sticky",
        HalfWoolly = "woolly in the upper half",
        Silky = "silky",
    }
    /// How thick its twig is.
    twig: Twig, "Thickness of the twig", Twig, Never, 1.0 {
        Slender = "slender",
        Medium = "middling",
        Stout = "stout",
    }
    /// What a scratched twig smells of.
    twig_smell: TwigSmell, "Smell of a scratched twig", Twig, Always, 1.0 {
        None = "of wood only",
        Wintergreen = "of wintergreen",
        Almond = "of bitter almond",
        Spicy = "spicy",
        Rank = "rank",
        Peppery = "of pepper",
    }
    /// Its pith.
    pith: Pith, "Pith of a cut twig", Twig, Winter, 1.0 {
        Solid = "solid and round",
        Star = "a star, cut across",
        Triangle = "a triangle, cut across",
        Chambered = "empty chambers, cut lengthwise",
        Barred = "solid with bars across, cut lengthwise",
    }
    /// The scar that a leaf leaves.
    leaf_scar: LeafScar, "Leaf scar", Twig, Winter, 1.0 {
        Small = "small, half an oval",
        VLine = "a thin V",
        Notched = "a half moon with a notch for the bud",
        HalfRound = "a half circle, straight on top",
        Circle = "a circle",
        ThreeLobed = "a shield of three lobes",
        Heart = "a heart",
        Ring = "a ring round the bud",
    }
    /// The scar that its stipules leave.
    stipule_scar: StipuleScar, "Line round the twig at each bud", Twig, Winter, 1.0 {
        Ring = "a line right round the twig",
        Short = "no line right round it",
    }
    /// Thorns.
    thorns: Thorns, "Thorns", Stem, Always, 1.0 {
        None = "none",
        Paired = "short, in pairs at the buds",
        Branched = "long and branched",
        Spur = "short side twigs like thorns",
        Leaf = "on the edges of the leaves",
    }
    /// Bark at breast height, on a stem of log size.
    bark: Bark, "Bark at breast height", Stem, Always, 1.0 {
        SmoothGrey = "smooth and grey",
        Pitted = "smooth and grey, pitted by disease",
        Target = "smooth and pale grey, with round cracks one in another",
        LongPlate = "grey, in long plates loose along one edge",
        DarkLenticel = "dark and smooth, with pale lines across",
        ScalyDark = "dark, in small flakes that turn up like burnt chips",
        WhitePeel = "white, peeling in sheets",
        WhiteTight = "white and tight, with black marks",
        BronzeCurl = "bronze, in fine curls",
        SalmonPeel = "salmon-pink, in papery curls",
        Shreddy = "in narrow strips, loose at their ends",
        Shaggy = "in long hard strips that stand off",
        Net = "a tight net of low ridges",
        Diamond = "ridges that cross into diamonds",
        FlatStripe = "smooth shiny stripes between shallow furrows",
        FlatRidge = "long flat grey ridges",
        Blocky = "broken into small blocks",
        DeepRidge = "deep hard ridges",
        ScalyGrey = "pale grey flakes",
        Warty = "grey with corky warts or ridges",
        Fluted = "smooth over a stem ridged like muscle",
        GreenStreak = "grey-green with pale streaks between ridges",
        GreenWhite = "smooth, greenish to cream, with dark marks under old branches",
        Mottled = "flaking into patches of cream, green and brown",
        PlatesDark = "dark plates with raised edges",
        FurrowRough = "rough, with furrows",
        Stringy = "in long fibres",
        RedScaly = "red-brown flakes",
        StripedGreen = "green with white stripes",
        Rope = "a climbing stem, hairy like a rope",
    }
    /// Inner bark, freshly cut.
    inner_bark: InnerBark, "Inner bark, freshly cut", Knife, Always, 1.0 {
        Plain = "whitish to pale brown",
        YellowOrange = "yellow to orange-yellow",
        Reddish = "reddish",
        Orange = "orange",
        Slimy = "slimy when wet",
        Cinnamon = "cinnamon-brown",
        Salmon = "salmon-pink",
    }
    /// Fruit or catkins that one finds in winter; where none is found, nothing is decided.
    fruit: Fruit, "Fruit or catkins on it or under it", Leaf, Winter, 1.0 {
        Acorn = "acorns or their cups",
        Catkin = "catkins, closed, for the spring",
        CatkinCone = "catkins, and small cones of wood",
        SamaraPair = "winged seeds in pairs",
        SamaraPaddle = "winged seeds like paddles",
        SamaraTwist = "twisted winged seeds",
        Bur = "prickly burs",
        ConeErect = "upright cones that fall apart",
        Hop = "papery sacks like hops",
        Bract3 = "nutlets on a leaf of three lobes",
        BallSmooth = "balls on a stalk, without spines",
        BallSpiny = "balls with spines",
        Pod = "pods",
        Bean = "long thin pods like beans",
        BractPea = "peas that hang from a leafy tongue",
        Drupe = "small fruits with a stone",
        NutHusk = "nuts or their husks",
        Cone = "cones",
        Berry = "berries",
    }
    /// Whether dead leaves hang on into winter.
    dead_leaves: DeadLeaves, "Dead leaves in winter", Crown, Winter, 0.3 {
        Kept = "many hang on",
        Shed = "nearly all have fallen",
    }
    /// The shape of the whole tree, which room, light and the saw change: it tells little.
    habit: Habit, "Shape of the whole plant", Crown, Always, 0.1 {
        Normal = "one stem with spreading branches",
        DeadLow = "dead branches hang low on the stem",
        Vase = "branches rise like a vase",
        Flat = "branches lie in flat layers",
        Clump = "several stems from one foot",
        Conical = "a cone with one straight stem",
        Upturned = "the ends of the branches turn up",
        Climber = "climbs on other trees",
        Shrub = "a shrub or a small tree of many stems",
    }
    /// Where it grows wild.
    grows_wild: GrowsWild, "Where it grows wild", Crown, Never, 1.0 {
        EastOfNorthAmerica = "the east of North America",
        WestOfNorthAmerica = "the west of North America",
        Europe = "Europe",
        Asia = "Asia",
    }
}
