-- Who signs in. Times are milliseconds since 1970-01-01 in UTC; roles: words with spaces between them; person: of the register.
CREATE TABLE account (
    account_id TEXT COLLATE "C" PRIMARY KEY,
    name TEXT COLLATE "C" NOT NULL,
    plain_name TEXT COLLATE "C" NOT NULL UNIQUE,
    roles TEXT COLLATE "C" NOT NULL,
    made_at BIGINT NOT NULL,
    person TEXT COLLATE "C",
    password TEXT COLLATE "C",
    stamp TEXT COLLATE "C" NOT NULL,
    failures BIGINT NOT NULL,
    locked_until BIGINT,
    locked BIGINT NOT NULL CHECK (locked IN (0, 1)),
    must_change BIGINT NOT NULL CHECK (must_change IN (0, 1)),
    version BIGINT NOT NULL
);

-- Of keys only the SHA-256 is here.
CREATE TABLE api_key (
    key_id TEXT COLLATE "C" PRIMARY KEY,
    name TEXT COLLATE "C" NOT NULL,
    hash BYTEA NOT NULL UNIQUE CHECK (length(hash) = 32),
    roles TEXT COLLATE "C" NOT NULL,
    made_at BIGINT NOT NULL,
    expires_at BIGINT NOT NULL,
    person TEXT COLLATE "C",
    last_used_at BIGINT,
    revoked_at BIGINT
);

-- At most one row: what a first administrator is made with.
CREATE TABLE first_secret (
    one BIGINT PRIMARY KEY CHECK (one = 1),
    hash BYTEA NOT NULL CHECK (length(hash) = 32),
    expires_at BIGINT NOT NULL
);

-- Privileged acts. Accounts and keys stand here by what was drawn for them.
CREATE TABLE account_act (
    number BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    at BIGINT NOT NULL,
    what TEXT COLLATE "C" NOT NULL,
    by_whom TEXT COLLATE "C" NOT NULL,
    about TEXT COLLATE "C" NOT NULL,
    detail TEXT COLLATE "C"
);

-- Against mistakes of our own.
CREATE FUNCTION account_act_is_kept() RETURNS trigger LANGUAGE plpgsql AS $kept$
BEGIN
    RAISE EXCEPTION 'an act is never removed or changed';
END;
$kept$;

CREATE TRIGGER account_act_stays BEFORE DELETE OR TRUNCATE ON account_act
    FOR EACH STATEMENT EXECUTE FUNCTION account_act_is_kept();

CREATE TRIGGER account_act_keeps BEFORE UPDATE ON account_act
    FOR EACH STATEMENT EXECUTE FUNCTION account_act_is_kept();
