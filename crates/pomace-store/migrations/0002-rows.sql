-- Lots, readings, ballots and what else is written down once: only ever added to, and corrected by
-- further rows.
CREATE TABLE book_rows (
    id TEXT NOT NULL PRIMARY KEY,
    sequence BIGINT NOT NULL UNIQUE CHECK (sequence >= 1),
    kind TEXT NOT NULL,
    document TEXT,
    revision BIGINT,
    model TEXT NOT NULL,
    who TEXT NOT NULL,
    at TEXT NOT NULL,
    json TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    corrects TEXT REFERENCES book_rows (id),
    CHECK ((document IS NULL) = (revision IS NULL)),
    FOREIGN KEY (document, revision) REFERENCES revisions (document, revision)
);

CREATE INDEX book_rows_kind ON book_rows (kind, sequence);
CREATE INDEX book_rows_document ON book_rows (document, sequence);
CREATE INDEX book_rows_corrects ON book_rows (corrects);
