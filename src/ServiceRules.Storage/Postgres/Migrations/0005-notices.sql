-- Who is still to be told of what was filed, and what came of it. recipient: its name in the settings of the service; no person
-- stands here. due_at: milliseconds since 1970-01-01 in UTC. state: 0 waiting, 1 delivered, 2 given up, 3 nothing left to tell.
CREATE TABLE notice (
    entry_index BIGINT NOT NULL,
    recipient TEXT COLLATE "C" NOT NULL,
    due_at BIGINT NOT NULL,
    attempts BIGINT NOT NULL,
    failure TEXT,
    state BIGINT NOT NULL CHECK (state BETWEEN 0 AND 3),
    PRIMARY KEY (entry_index, recipient)
);

CREATE INDEX notice_waiting ON notice (entry_index) WHERE state = 0;
