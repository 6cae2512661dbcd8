-- That the stored history is judged again by the rules in force, and what came of it. by_whom: who began it, as acts name them.
-- beyond: the last place of the log that pages were cut up to, cuts: how often. state: 0 running, 1 done, 2 ended by other rules. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE rejudging (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    digest TEXT NOT NULL,
    by_whom TEXT NOT NULL,
    reason TEXT,
    begun_at INTEGER NOT NULL,
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 2),
    records INTEGER NOT NULL,
    turned INTEGER NOT NULL,
    unchanged INTEGER NOT NULL,
    passed INTEGER NOT NULL,
    failed INTEGER NOT NULL,
    ended_at INTEGER,
    beyond INTEGER NOT NULL,
    cuts INTEGER NOT NULL
) STRICT;

-- What of it waits: the newest versions of records between two places of the log. A page that is done is taken away.
CREATE TABLE rejudging_page (
    rejudging INTEGER NOT NULL,
    page INTEGER NOT NULL,
    first_index INTEGER NOT NULL,
    last_index INTEGER NOT NULL,
    records INTEGER NOT NULL,
    PRIMARY KEY (rejudging, page)
) STRICT;

-- Records that could not be judged.
CREATE TABLE rejudging_failure (
    rejudging INTEGER NOT NULL,
    entry_index INTEGER NOT NULL,
    record TEXT NOT NULL,
    why TEXT NOT NULL,
    PRIMARY KEY (rejudging, entry_index)
) STRICT;
