//! How much one document and one folder may hold; check and message read the same numbers.

/// Bytes of one document.
pub const DOCUMENT_BYTES: u64 = 1_000_000;
/// Steps, lines, parts, garnishes or briefs of one document, each.
pub const LIST_ITEMS: usize = 1_000;
/// Arrays, inline tables and dotted keys inside one another.
pub const NESTING: usize = 16;
/// Bytes of one amount, time, temperature or other measure.
pub const MEASURE_BYTES: usize = 200;
/// Bytes of one name.
pub const NAME_BYTES: usize = 200;
/// Folders inside a book's folder.
pub const FOLDER_DEPTH: usize = 8;
/// Documents of one book read from a folder.
pub const BOOK_DOCUMENTS: usize = 10_000;
/// Findings of one document; more help nobody.
pub const FINDINGS: usize = 200;
