-- What is asked of versions of records, all of it made from the log again at any time, but for the
-- site of a version whose context was erased: only its row still knows it. Words are those of the formats.
-- day: days since 1970-01-01. filed_at: milliseconds since 1970-01-01 in UTC. amends, newest: 0 or 1. tasks: with spaces
-- between them. person: a pseudonym.
CREATE TABLE record_row (
    entry_index BIGINT PRIMARY KEY CHECK (entry_index >= 0),
    record TEXT NOT NULL,
    site TEXT,
    machine TEXT NOT NULL,
    area TEXT,
    tasks TEXT NOT NULL,
    day BIGINT NOT NULL,
    filed_at BIGINT NOT NULL,
    person TEXT,
    amends BIGINT NOT NULL CHECK (amends IN (0, 1)),
    newest BIGINT NOT NULL CHECK (newest IN (0, 1)),
    state TEXT NOT NULL,
    disposition TEXT,
    assessment_index BIGINT,
    record_hash TEXT NOT NULL,
    assessment_hash TEXT
);

CREATE INDEX record_row_by_record ON record_row (record, entry_index);
CREATE INDEX record_row_by_site ON record_row (site, entry_index);
CREATE INDEX record_row_by_machine ON record_row (machine, entry_index);

CREATE TABLE unit_row (
    entry_index BIGINT NOT NULL,
    ordinal BIGINT NOT NULL,
    unit TEXT NOT NULL,
    disposition TEXT NOT NULL,
    PRIMARY KEY (entry_index, ordinal)
);

CREATE INDEX unit_row_by_unit ON unit_row (unit, entry_index);

CREATE TABLE finding_row (
    entry_index BIGINT NOT NULL,
    ordinal BIGINT NOT NULL,
    rule TEXT NOT NULL,
    subject TEXT NOT NULL,
    unit TEXT,
    verdict TEXT NOT NULL,
    severity TEXT NOT NULL,
    effect TEXT NOT NULL,
    reason TEXT NOT NULL,
    PRIMARY KEY (entry_index, ordinal)
);

CREATE INDEX finding_row_by_rule ON finding_row (rule, entry_index);
CREATE INDEX finding_row_by_verdict ON finding_row (verdict, entry_index);

-- One row: how many entries of the log the rows cover.
CREATE TABLE row_cover (
    one BIGINT PRIMARY KEY CHECK (one = 1),
    size BIGINT NOT NULL
);

-- What was answered to a submission with a key. answered_at: milliseconds since 1970-01-01 in UTC.
CREATE TABLE answered_key (
    scope TEXT NOT NULL,
    key TEXT NOT NULL,
    fingerprint BYTEA NOT NULL CHECK (length(fingerprint) = 32),
    kind BIGINT NOT NULL,
    record_index BIGINT NOT NULL,
    assessment_index BIGINT NOT NULL,
    answered_at BIGINT NOT NULL,
    PRIMARY KEY (scope, key)
);
