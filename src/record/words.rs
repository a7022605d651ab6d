//! Lists of words: what stands in a record, in tables and anchors, and how a reader meets it.

/// Makes an enum of words that a record may hold: a row a word, with how a reader meets it on a page.
///
/// Records, JSON Schema, tables and anchors write the name of a variant in kebab case, since serde and strum are told so
/// here alone.
///
/// ```text
/// words! {
///     /// Whether a tree stays.
///     pub enum Decision {
///         /// It stays.
///         Keep = "to be kept",
///         /// It may come down.
///         Fell = "to be felled",
///     }
/// }
/// ```
macro_rules! words {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$row:meta])* $word:ident = $said:literal,)+ }) => {
        $crate::record::words::words! { $(#[$about])* pub enum $name { $($(#[$row])* $word,)+ } }

        impl $name {
            /// The word as a reader meets it on a page.
            pub const fn words(self) -> &'static str {
                match self { $(Self::$word => $said,)+ }
            }
        }
    };
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$row:meta])* $word:ident,)+ }) => {
        $(#[$about])*
        #[derive(
            Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash,
            serde::Deserialize, serde::Serialize, schemars::JsonSchema,
            strum::EnumCount, strum::EnumString, strum::IntoStaticStr,
        )]
        #[serde(rename_all = "kebab-case")]
        #[strum(serialize_all = "kebab-case")]
        pub enum $name { $($(#[$row])* $word,)+ }

        impl $name {
            /// Every word, in the order in which a reader meets them.
            pub const ALL: [Self; <Self as strum::EnumCount>::COUNT] = [$(Self::$word,)+];

            /// The word as records, tables and anchors write it.
            pub fn id(self) -> &'static str {
                self.into()
            }
        }
    };
}
pub(crate) use words;
