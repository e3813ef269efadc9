-- See 0001-documents.sqlite.sql for the trigger on INSERT.

CREATE TRIGGER book_rows_update BEFORE UPDATE ON book_rows
BEGIN
    SELECT RAISE(ABORT, 'a row is never changed; add one that corrects it');
END;

CREATE TRIGGER book_rows_delete BEFORE DELETE ON book_rows
BEGIN
    SELECT RAISE(ABORT, 'a row is never taken away; add one that corrects it');
END;

CREATE TRIGGER book_rows_insert BEFORE INSERT ON book_rows
WHEN EXISTS (SELECT 1 FROM book_rows WHERE id = NEW.id)
    OR NEW.sequence <= (SELECT COALESCE(MAX(sequence), 0) FROM book_rows)
BEGIN
    SELECT RAISE(ABORT, 'a row is added once');
END;
