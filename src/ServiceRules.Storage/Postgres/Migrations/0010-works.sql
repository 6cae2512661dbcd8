-- Lists that somebody wants as files, and the files, in parts. by_whom: a caller by what was drawn for it, as acts name it; site: whose records it sees, as accounts name it.
-- state: 0 queued, 1 running, 2 done, 3 failed. turn: whose writing counts. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE export_job (
    export_id TEXT COLLATE "C" PRIMARY KEY NOT NULL,
    by_whom TEXT COLLATE "C" NOT NULL,
    site TEXT,
    request TEXT NOT NULL,
    asked_at BIGINT NOT NULL,
    expires_at BIGINT NOT NULL,
    state BIGINT NOT NULL CHECK (state BETWEEN 0 AND 3),
    turn TEXT,
    row_count BIGINT NOT NULL,
    byte_count BIGINT NOT NULL,
    digest BYTEA,
    failure TEXT
);

CREATE INDEX export_job_by_caller ON export_job (by_whom);

CREATE TABLE export_part (
    export_id TEXT COLLATE "C" NOT NULL,
    number BIGINT NOT NULL,
    content BYTEA NOT NULL,
    PRIMARY KEY (export_id, number)
);

-- Whoever asks has its row locked meanwhile.
CREATE TABLE export_caller (
    by_whom TEXT COLLATE "C" PRIMARY KEY NOT NULL,
    asked BIGINT NOT NULL
);

-- How far the log was handed to the queue, for each kind of work that is owed for what is filed.
CREATE TABLE work_mark (
    kind TEXT COLLATE "C" PRIMARY KEY NOT NULL,
    entry_index BIGINT NOT NULL
);
