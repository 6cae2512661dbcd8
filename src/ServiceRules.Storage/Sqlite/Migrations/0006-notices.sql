-- Who is still to be told of what was filed, and what came of it. recipient: its name in the settings of the service; no person
-- stands here. due_at: milliseconds since 1970-01-01 in UTC. state: 0 waiting, 1 delivered, 2 given up, 3 nothing left to tell.
CREATE TABLE notice (
    entry_index INTEGER NOT NULL,
    recipient TEXT NOT NULL,
    due_at INTEGER NOT NULL,
    attempts INTEGER NOT NULL,
    failure TEXT,
    state INTEGER NOT NULL CHECK (state BETWEEN 0 AND 3),
    PRIMARY KEY (entry_index, recipient)
) STRICT;

CREATE INDEX notice_waiting ON notice (entry_index) WHERE state = 0;
