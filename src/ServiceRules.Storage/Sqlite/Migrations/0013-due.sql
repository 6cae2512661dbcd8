-- What stored records say falls due, as it was found last for each site, and what somebody was told of. No person stands here. Days
-- count from 1970-01-01; times are milliseconds since then in UTC. kind, source: numbers of the program.
CREATE TABLE due_look (
    site TEXT PRIMARY KEY NOT NULL,
    day INTEGER NOT NULL,
    newest INTEGER NOT NULL,
    rules TEXT NOT NULL,
    looked_at INTEGER NOT NULL
) STRICT;

CREATE TABLE due_found (
    site TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    kind INTEGER NOT NULL,
    subject TEXT NOT NULL,
    about TEXT NOT NULL,
    due_day INTEGER NOT NULL,
    source INTEGER NOT NULL,
    part TEXT,
    machine TEXT,
    record TEXT,
    forecast INTEGER NOT NULL CHECK (forecast IN (0, 1)),
    reached INTEGER NOT NULL CHECK (reached IN (0, 1)),
    PRIMARY KEY (site, ordinal)
) STRICT;

-- thing: names the thing and its day to whoever has the key of the log, so that each is told of once. A notice of one stands under its
-- number with a minus before it, where others have an entry of the log.
CREATE TABLE due_notice (
    number INTEGER PRIMARY KEY,
    thing BLOB NOT NULL UNIQUE CHECK (length(thing) = 32),
    site TEXT NOT NULL,
    kind INTEGER NOT NULL,
    subject TEXT,
    due_day INTEGER NOT NULL,
    told_at INTEGER NOT NULL
) STRICT;
