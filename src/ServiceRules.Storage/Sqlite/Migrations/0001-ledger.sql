-- Leaves of the log. What a query asks for is read from the bytes themselves, so that no column can say another thing.
CREATE TABLE entry (
    entry_index INTEGER PRIMARY KEY CHECK (entry_index >= 0),
    bytes BLOB NOT NULL,
    subject TEXT GENERATED ALWAYS AS (json_extract(CAST(bytes AS TEXT), '$.subject')) VIRTUAL
) STRICT;

CREATE INDEX entry_by_subject ON entry (subject, entry_index);

-- Contents under their SHA-256: 32 bytes.
CREATE TABLE content (
    hash BLOB PRIMARY KEY CHECK (length(hash) = 32),
    bytes BLOB NOT NULL
) STRICT;

-- Every signed head, by its size.
CREATE TABLE checkpoint (
    size INTEGER PRIMARY KEY,
    note TEXT NOT NULL
) STRICT;

-- One row: the newest head. Whoever appends has locked the whole file before reading it (BEGIN IMMEDIATE).
CREATE TABLE head (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    size INTEGER NOT NULL,
    root TEXT NOT NULL,
    note TEXT NOT NULL
) STRICT;

-- The only place where a person stands beside a pseudonym; a row goes when a person is forgotten.
CREATE TABLE person (
    pseudonym TEXT PRIMARY KEY,
    person TEXT NOT NULL UNIQUE
) STRICT;

-- Against mistakes of our own; against others stand the checkpoints outside.
CREATE TRIGGER entry_stays BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry of the log is never removed');
END;

CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry of the log is never changed');
END;
