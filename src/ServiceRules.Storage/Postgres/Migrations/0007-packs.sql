-- Packs and limit sheets that may judge here, under the digest that assessments name. book: their canonical spelling. Times
-- are milliseconds since 1970-01-01 in UTC.
CREATE TABLE rule_set (
    digest TEXT COLLATE "C" PRIMARY KEY,
    book BYTEA NOT NULL,
    stored_at BIGINT NOT NULL
);

-- Which of them judge, since when: the last one counts. by_whom: a pseudonym; entry_index: its entry of the log.
CREATE TABLE rule_activation (
    number BIGINT PRIMARY KEY CHECK (number > 0),
    digest TEXT COLLATE "C" NOT NULL,
    at BIGINT NOT NULL,
    reason TEXT COLLATE "C" NOT NULL,
    by_whom TEXT COLLATE "C",
    entry_index BIGINT
);

-- Against mistakes of our own.
CREATE FUNCTION rule_activation_is_kept() RETURNS trigger LANGUAGE plpgsql AS $kept$
BEGIN
    RAISE EXCEPTION 'an activation is never removed or changed';
END;
$kept$;

CREATE TRIGGER rule_activation_stays BEFORE DELETE OR TRUNCATE ON rule_activation
    FOR EACH STATEMENT EXECUTE FUNCTION rule_activation_is_kept();

CREATE TRIGGER rule_activation_keeps BEFORE UPDATE ON rule_activation
    FOR EACH STATEMENT EXECUTE FUNCTION rule_activation_is_kept();
