-- What the newest version of a record shows something of, so that those that may bear on another are found. what: machine, lock,
-- person, defect or exception. first_day, last_day: days since 1970-01-01 that the record speaks of. People stand here by the
-- identities of the record itself; the rows go with it.
CREATE TABLE shown_row (
    what TEXT NOT NULL,
    key TEXT NOT NULL,
    first_day INTEGER NOT NULL,
    last_day INTEGER NOT NULL,
    entry_index INTEGER NOT NULL,
    PRIMARY KEY (what, key, first_day, entry_index)
) STRICT, WITHOUT ROWID;

CREATE INDEX shown_row_by_entry ON shown_row (entry_index);

-- The rows of records from before have none of these: the next opening makes them from the log.
UPDATE row_cover SET size = 0;
