-- Lists that somebody wants as files, and the files, in parts. by_whom: a caller by what was drawn for it, as acts name it; site: whose records it sees, as accounts name it.
-- state: 0 queued, 1 running, 2 done, 3 failed. turn: whose writing counts. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE export_job (
    export_id TEXT PRIMARY KEY NOT NULL,
    by_whom TEXT NOT NULL,
    site TEXT,
    request TEXT NOT NULL,
    asked_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 3),
    turn TEXT,
    row_count INTEGER NOT NULL,
    byte_count INTEGER NOT NULL,
    digest BLOB,
    failure TEXT
) STRICT;

CREATE INDEX export_job_by_caller ON export_job (by_whom);

CREATE TABLE export_part (
    export_id TEXT NOT NULL,
    number INTEGER NOT NULL,
    content BLOB NOT NULL,
    PRIMARY KEY (export_id, number)
) STRICT;

-- Whoever asks has its row locked meanwhile.
CREATE TABLE export_caller (
    by_whom TEXT PRIMARY KEY NOT NULL,
    asked INTEGER NOT NULL
) STRICT;

-- How far the log was handed to the queue, for each kind of work that is owed for what is filed.
CREATE TABLE work_mark (
    kind TEXT PRIMARY KEY NOT NULL,
    entry_index INTEGER NOT NULL
) STRICT;
