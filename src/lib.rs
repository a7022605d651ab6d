//! Hostwood
pub mod book;
pub mod error;
pub mod fault;
pub mod quantity;
pub mod read;
pub mod reckon;
pub mod record;
