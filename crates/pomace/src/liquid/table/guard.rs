//! What no table holds is refused while it is read, before it can fill the memory.

use std::collections::VecDeque;
use std::io::{self, Read};

/// Bytes of one row; a table of all substances has rows of a few hundred.
const ROW_BYTES: usize = 1_000_000;

/// Why a file is no table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(super) enum Unfit {
    /// It holds a zero byte.
    #[error("this is no text: it holds a zero byte")]
    ZeroByte {
        /// Line of the byte.
        line: u64,
    },
    /// A row does not end.
    #[error("the row has more than {ROW_BYTES} bytes")]
    EndlessRow {
        /// Line in which the row begins.
        line: u64,
    },
}

impl Unfit {
    pub(super) const fn line(&self) -> u64 {
        match self {
            Self::ZeroByte { line } | Self::EndlessRow { line } => *line,
        }
    }

    pub(super) const fn mend(&self) -> &'static str {
        match self {
            Self::ZeroByte { .. } => {
                "give a table as text in UTF-8, with commas between the columns"
            }
            Self::EndlessRow { .. } => "end each row with a new line, and close every quote",
        }
    }
}

/// Passes bytes on, keeps count of the lines, and stops at what no table holds.
///
/// The reader behind it counts lines too, but takes `\r\n` apart and so tells the line before.
#[derive(Debug)]
pub(super) struct Guard<R> {
    input: R,
    /// Bytes handed on.
    bytes: u64,
    /// Bytes handed on since the last row was done.
    since: usize,
    /// Where new lines stand, from the end of the last row on.
    new_lines: VecDeque<u64>,
    /// New lines before those.
    passed: u64,
    /// Line in which the next row begins, if no empty line comes before it.
    row_line: u64,
    /// A zero byte comes next.
    zero: bool,
}

impl<R> Guard<R> {
    pub(super) const fn new(input: R) -> Self {
        Self {
            input,
            bytes: 0,
            since: 0,
            new_lines: VecDeque::new(),
            passed: 0,
            row_line: 1,
            zero: false,
        }
    }

    /// A row was read, up to and with the byte before `end`; answers with its last line.
    pub(super) fn done(&mut self, end: u64) -> u64 {
        // The last byte is the one that ended the row, and may be a new line itself.
        let last = end.saturating_sub(1);
        while self.new_lines.front().is_some_and(|at| *at < last) {
            self.new_lines.pop_front();
            self.passed += 1;
        }
        self.since = 0;
        self.row_line = self.passed + 2;
        self.passed + 1
    }

    fn zero_byte(&self) -> io::Error {
        let line = self.passed + self.new_lines.len() as u64 + 1;
        io::Error::new(io::ErrorKind::InvalidData, Unfit::ZeroByte { line })
    }

    fn endless_row(&self) -> io::Error {
        let line = self.row_line;
        io::Error::new(io::ErrorKind::InvalidData, Unfit::EndlessRow { line })
    }
}

impl<R: Read> Read for Guard<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.zero {
            return Err(self.zero_byte());
        }
        if self.since > ROW_BYTES {
            return Err(self.endless_row());
        }
        let mut count = self.input.read(buffer)?;
        let seen = buffer.get(..count).unwrap_or(&[]);
        if let Some(at) = seen.iter().position(|byte| *byte == 0) {
            // Rows before it still count.
            self.zero = true;
            count = at;
        }
        let seen = buffer.get(..count).unwrap_or(&[]);
        for (at, _) in (self.bytes..).zip(seen).filter(|(_, byte)| **byte == b'\n') {
            self.new_lines.push_back(at);
        }
        self.bytes += count as u64;
        self.since += count;
        if count == 0 && self.zero {
            return Err(self.zero_byte());
        }
        Ok(count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(bytes: &[u8]) -> Option<String> {
        let mut all = Vec::new();
        let read = Guard::new(bytes).read_to_end(&mut all);
        read.err().map(|error| error.to_string())
    }

    #[test]
    fn binary_and_endless_files_are_refused() {
        assert_eq!(fault(b"water\n1\n"), None);
        assert!(fault(b"wat\0er").is_some_and(|told| told.contains("zero byte")));
        assert!(fault(&vec![b'a'; 3_000_000]).is_some_and(|told| told.contains("bytes")));
    }
}
