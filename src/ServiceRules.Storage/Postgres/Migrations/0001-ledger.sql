-- The bytes of an entry are JSON in UTF-8, as the database is: that is asked before any script runs.
CREATE FUNCTION entry_subject(bytes BYTEA) RETURNS TEXT
    LANGUAGE sql IMMUTABLE STRICT
    RETURN convert_from(bytes, 'UTF8')::json ->> 'subject';

-- Leaves of the log. What a query asks for is read from the bytes themselves, so that no column can say another thing.
CREATE TABLE entry (
    entry_index BIGINT PRIMARY KEY CHECK (entry_index >= 0),
    bytes BYTEA NOT NULL,
    subject TEXT COLLATE "C" GENERATED ALWAYS AS (entry_subject(bytes)) STORED
);

CREATE INDEX entry_by_subject ON entry (subject, entry_index);

-- Contents under their SHA-256: 32 bytes.
CREATE TABLE content (
    hash BYTEA PRIMARY KEY CHECK (length(hash) = 32),
    bytes BYTEA NOT NULL
);

-- Every signed head, by its size.
CREATE TABLE checkpoint (
    size BIGINT PRIMARY KEY,
    note TEXT NOT NULL
);

-- One row, there from the start: the newest head, with size 0 before the first. Whoever appends has locked it before
-- reading it (FOR UPDATE), so that any number of instances make one log.
CREATE TABLE head (
    one BIGINT PRIMARY KEY CHECK (one = 1),
    size BIGINT NOT NULL,
    root TEXT NOT NULL,
    note TEXT NOT NULL
);

INSERT INTO head (one, size, root, note) VALUES (1, 0, '', '');

-- The only place where a person stands beside a pseudonym; a row goes when a person is forgotten. The salt binds the name
-- to the pseudonym.
CREATE TABLE person (
    pseudonym TEXT COLLATE "C" PRIMARY KEY,
    person TEXT NOT NULL UNIQUE,
    salt BYTEA CHECK (salt IS NULL OR length(salt) = 32)
);

-- Against mistakes of our own; against others stand the checkpoints outside.
CREATE FUNCTION entry_is_kept() RETURNS trigger LANGUAGE plpgsql AS $kept$
BEGIN
    RAISE EXCEPTION 'an entry of the log is never removed or changed';
END;
$kept$;

CREATE TRIGGER entry_stays BEFORE DELETE OR TRUNCATE ON entry
    FOR EACH STATEMENT EXECUTE FUNCTION entry_is_kept();

CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry
    FOR EACH STATEMENT EXECUTE FUNCTION entry_is_kept();
