//! How much one document and one folder may hold; check and message read the same numbers.

/// Bytes of one document.
pub const DOCUMENT_BYTES: u64 = 1_000_000;
/// Steps, lines, parts, garnishes or briefs of one document, each.
pub const LIST_ITEMS: usize = 1_000;
/// Trials of one document; each is read and computed as a document of its own.
pub const TRIALS: usize = 50;
/// Arrays, inline tables and dotted keys inside one another.
pub const NESTING: usize = 16;
/// Bytes of one amount, time, temperature or other measure.
pub const MEASURE_BYTES: usize = 200;
/// Bytes of what is counted; a range is written with it twice.
pub const NOUN_BYTES: usize = 60;
/// Bytes of the name that a share is of.
pub const SHARE_NAME_BYTES: usize = 120;
/// Bytes of one name.
pub const NAME_BYTES: usize = 200;
/// Folders inside a book's folder.
pub const FOLDER_DEPTH: usize = 8;
/// Documents of one book read from a folder.
pub const BOOK_DOCUMENTS: usize = 200_000;
/// Findings of one document; more help nobody.
pub const FINDINGS: usize = 200;
/// What one resolving may spend on suggestions for names that lead nowhere, counted in names looked
/// at; comparing two letter by letter counts as a hundred or more. In a book of ten thousand
/// documents that is enough for more than a thousand different names. Where more lead nowhere, a
/// folder is missing, and no suggestion helps.
pub const SUGGESTING: usize = 40_000_000;
