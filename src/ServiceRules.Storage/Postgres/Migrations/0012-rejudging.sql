-- That the stored history is judged again by the rules in force, and what came of it. by_whom: who began it, as acts name them.
-- beyond: the last place of the log that pages were cut up to, cuts: how often. state: 0 running, 1 done, 2 ended by other rules. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE rejudging (
    number BIGINT PRIMARY KEY CHECK (number > 0),
    digest TEXT COLLATE "C" NOT NULL,
    by_whom TEXT NOT NULL,
    reason TEXT,
    begun_at BIGINT NOT NULL,
    state BIGINT NOT NULL CHECK (state BETWEEN 0 AND 2),
    records BIGINT NOT NULL,
    turned BIGINT NOT NULL,
    unchanged BIGINT NOT NULL,
    passed BIGINT NOT NULL,
    failed BIGINT NOT NULL,
    ended_at BIGINT,
    beyond BIGINT NOT NULL,
    cuts BIGINT NOT NULL
);

-- What of it waits: the newest versions of records between two places of the log. A page that is done is taken away.
CREATE TABLE rejudging_page (
    rejudging BIGINT NOT NULL,
    page BIGINT NOT NULL,
    first_index BIGINT NOT NULL,
    last_index BIGINT NOT NULL,
    records BIGINT NOT NULL,
    PRIMARY KEY (rejudging, page)
);

-- Records that could not be judged.
CREATE TABLE rejudging_failure (
    rejudging BIGINT NOT NULL,
    entry_index BIGINT NOT NULL,
    record TEXT NOT NULL,
    why TEXT NOT NULL,
    PRIMARY KEY (rejudging, entry_index)
);
