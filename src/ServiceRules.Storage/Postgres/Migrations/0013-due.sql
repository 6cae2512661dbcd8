-- What stored records say falls due, as it was found last for each site, and what somebody was told of. No person stands here. Days
-- count from 1970-01-01; times are milliseconds since then in UTC. kind, source: numbers of the program.
CREATE TABLE due_look (
    site TEXT COLLATE "C" PRIMARY KEY NOT NULL,
    day BIGINT NOT NULL,
    newest BIGINT NOT NULL,
    rules TEXT COLLATE "C" NOT NULL,
    looked_at BIGINT NOT NULL
);

CREATE TABLE due_found (
    site TEXT COLLATE "C" NOT NULL,
    ordinal BIGINT NOT NULL,
    kind BIGINT NOT NULL,
    subject TEXT COLLATE "C" NOT NULL,
    about TEXT COLLATE "C" NOT NULL,
    due_day BIGINT NOT NULL,
    source BIGINT NOT NULL,
    part TEXT COLLATE "C",
    machine TEXT COLLATE "C",
    record TEXT COLLATE "C",
    forecast BIGINT NOT NULL CHECK (forecast IN (0, 1)),
    reached BIGINT NOT NULL CHECK (reached IN (0, 1)),
    PRIMARY KEY (site, ordinal)
);

-- thing: names the thing and its day to whoever has the key of the log, so that each is told of once. A notice of one stands under its
-- number with a minus before it, where others have an entry of the log.
CREATE TABLE due_notice (
    number BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    thing BYTEA NOT NULL UNIQUE CHECK (length(thing) = 32),
    site TEXT COLLATE "C" NOT NULL,
    kind BIGINT NOT NULL,
    subject TEXT COLLATE "C",
    due_day BIGINT NOT NULL,
    told_at BIGINT NOT NULL
);
