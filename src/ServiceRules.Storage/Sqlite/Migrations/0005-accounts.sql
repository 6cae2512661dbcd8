-- Who signs in. Times are milliseconds since 1970-01-01 in UTC; roles: words with spaces between them; person: of the register.
CREATE TABLE account (
    account_id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    plain_name TEXT NOT NULL UNIQUE,
    roles TEXT NOT NULL,
    made_at INTEGER NOT NULL,
    person TEXT,
    password TEXT,
    stamp TEXT NOT NULL,
    failures INTEGER NOT NULL,
    locked_until INTEGER,
    locked INTEGER NOT NULL CHECK (locked IN (0, 1)),
    must_change INTEGER NOT NULL CHECK (must_change IN (0, 1)),
    version INTEGER NOT NULL
) STRICT;

-- Of keys only the SHA-256 is here.
CREATE TABLE api_key (
    key_id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    roles TEXT NOT NULL,
    made_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    person TEXT,
    last_used_at INTEGER,
    revoked_at INTEGER
) STRICT;

-- At most one row: what a first administrator is made with.
CREATE TABLE first_secret (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    expires_at INTEGER NOT NULL
) STRICT;

-- Privileged acts. Accounts and keys stand here by what was drawn for them.
CREATE TABLE account_act (
    number INTEGER PRIMARY KEY,
    at INTEGER NOT NULL,
    what TEXT NOT NULL,
    by_whom TEXT NOT NULL,
    about TEXT NOT NULL,
    detail TEXT
) STRICT;

-- Against mistakes of our own.
CREATE TRIGGER account_act_stays BEFORE DELETE ON account_act
BEGIN
    SELECT RAISE(ABORT, 'an act is never removed');
END;

CREATE TRIGGER account_act_keeps BEFORE UPDATE ON account_act
BEGIN
    SELECT RAISE(ABORT, 'an act is never changed');
END;
