-- Revisions stand for ever. SQLite's INSERT OR REPLACE takes rows away without asking the triggers
-- on DELETE, so the one on INSERT lets nothing in that is already there.

CREATE TRIGGER revisions_update BEFORE UPDATE ON revisions
BEGIN
    SELECT RAISE(ABORT, 'a revision is never changed');
END;

CREATE TRIGGER revisions_delete BEFORE DELETE ON revisions
BEGIN
    SELECT RAISE(ABORT, 'a revision is never taken away');
END;

CREATE TRIGGER revisions_insert BEFORE INSERT ON revisions
WHEN NEW.revision <> (SELECT COALESCE(MAX(revision), 0) + 1 FROM revisions WHERE document = NEW.document)
    OR NEW.sequence <= (SELECT COALESCE(MAX(sequence), 0) FROM revisions)
BEGIN
    SELECT RAISE(ABORT, 'revisions follow one another without a gap');
END;
