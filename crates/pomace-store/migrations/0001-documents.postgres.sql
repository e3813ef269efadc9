-- Revisions stand for ever.

CREATE FUNCTION pomace_stands() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'a row of % is never changed or taken away', TG_TABLE_NAME;
END $$;

CREATE TRIGGER revisions_stand BEFORE UPDATE OR DELETE ON revisions
    FOR EACH ROW EXECUTE FUNCTION pomace_stands();

CREATE TRIGGER revisions_stay BEFORE TRUNCATE ON revisions
    FOR EACH STATEMENT EXECUTE FUNCTION pomace_stands();

CREATE FUNCTION pomace_follows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.revision <> (SELECT COALESCE(MAX(revision), 0) + 1 FROM revisions WHERE document = NEW.document)
        OR NEW.sequence <= (SELECT COALESCE(MAX(sequence), 0) FROM revisions)
    THEN
        RAISE EXCEPTION 'revisions follow one another without a gap';
    END IF;
    RETURN NEW;
END $$;

CREATE TRIGGER revisions_follow BEFORE INSERT ON revisions
    FOR EACH ROW EXECUTE FUNCTION pomace_follows();
