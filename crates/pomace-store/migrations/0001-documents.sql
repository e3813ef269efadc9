-- Documents with every revision, and what they are found by. The same for SQLite and PostgreSQL:
-- whole numbers are BIGINT, times and ids TEXT, yes and no are 1 and 0.

-- One row. Who writes takes it first, so that writers follow one another in the order of `sequence`.
CREATE TABLE book (
    one BIGINT NOT NULL PRIMARY KEY CHECK (one = 1),
    sequence BIGINT NOT NULL CHECK (sequence >= 0)
);

INSERT INTO book (one, sequence) VALUES (1, 0);

-- Only ever added to.
CREATE TABLE revisions (
    document TEXT NOT NULL,
    revision BIGINT NOT NULL CHECK (revision >= 1),
    sequence BIGINT NOT NULL UNIQUE CHECK (sequence >= 1),
    text TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    removes BIGINT NOT NULL CHECK (removes IN (0, 1)),
    who TEXT NOT NULL,
    at TEXT NOT NULL,
    why TEXT,
    PRIMARY KEY (document, revision)
);

-- Which revision is the current one.
CREATE TABLE documents (
    document TEXT NOT NULL PRIMARY KEY,
    revision BIGINT NOT NULL,
    sequence BIGINT NOT NULL UNIQUE,
    removed BIGINT NOT NULL CHECK (removed IN (0, 1)),
    kind TEXT NOT NULL,
    name TEXT NOT NULL,
    FOREIGN KEY (document, revision) REFERENCES revisions (document, revision)
);

-- What each save was answered with, for when the answer was lost on its way.
CREATE TABLE answers (
    token TEXT NOT NULL,
    place BIGINT NOT NULL,
    asked TEXT NOT NULL,
    document TEXT NOT NULL,
    revision BIGINT NOT NULL,
    PRIMARY KEY (token, place),
    FOREIGN KEY (document, revision) REFERENCES revisions (document, revision)
);

-- The index: all of it follows from the current texts, and changes with them.

CREATE TABLE names (
    document TEXT NOT NULL REFERENCES documents (document),
    place BIGINT NOT NULL,
    name TEXT NOT NULL,
    folded TEXT NOT NULL,
    PRIMARY KEY (document, place)
);

CREATE INDEX names_folded ON names (folded);

CREATE TABLE edges (
    document TEXT NOT NULL REFERENCES documents (document),
    place BIGINT NOT NULL,
    name TEXT NOT NULL,
    folded TEXT NOT NULL,
    used TEXT,
    PRIMARY KEY (document, place)
);

CREATE INDEX edges_folded ON edges (folded);
CREATE INDEX edges_used ON edges (used);

CREATE TABLE figures (
    document TEXT NOT NULL REFERENCES documents (document),
    name TEXT NOT NULL,
    value DOUBLE PRECISION NOT NULL,
    plus_minus DOUBLE PRECISION,
    PRIMARY KEY (document, name)
);

CREATE INDEX figures_name ON figures (name);
