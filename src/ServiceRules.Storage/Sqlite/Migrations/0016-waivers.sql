-- Waivers that count at a site beside those of its registers. content: the waiver/1 document that the log keeps under this hash;
-- entry_index, withdrawn_entry: entries of the log. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE site_waiver (
    number INTEGER PRIMARY KEY CHECK (number > 0),
    site TEXT NOT NULL,
    subject TEXT NOT NULL,
    content BLOB NOT NULL,
    at INTEGER NOT NULL,
    entry_index INTEGER NOT NULL,
    withdrawn_at INTEGER,
    withdrawn_entry INTEGER
) STRICT;

CREATE INDEX site_waiver_by_site ON site_waiver (site, number);
