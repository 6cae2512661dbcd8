-- Packs and limit sheets that may judge here, under the digest that assessments name. book: their canonical spelling. Times
-- are milliseconds since 1970-01-01 in UTC.
CREATE TABLE rule_set (
    digest TEXT PRIMARY KEY,
    book BLOB NOT NULL,
    stored_at INTEGER NOT NULL
) STRICT;

-- Which of them judge, since when: the last one counts. by_whom: a pseudonym; entry_index: its entry of the log.
CREATE TABLE rule_activation (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    digest TEXT NOT NULL,
    at INTEGER NOT NULL,
    reason TEXT NOT NULL,
    by_whom TEXT,
    entry_index INTEGER
) STRICT;

-- Against mistakes of our own.
CREATE TRIGGER rule_activation_stays BEFORE DELETE ON rule_activation
BEGIN
    SELECT RAISE(ABORT, 'an activation is never removed');
END;

CREATE TRIGGER rule_activation_keeps BEFORE UPDATE ON rule_activation
BEGIN
    SELECT RAISE(ABORT, 'an activation is never changed');
END;
