-- Waivers that count at a site beside those of its registers. content: the waiver/1 document that the log keeps under this hash;
-- entry_index, withdrawn_entry: entries of the log. Times are milliseconds since 1970-01-01 in UTC.
CREATE TABLE site_waiver (
    number BIGINT PRIMARY KEY CHECK (number > 0),
    site TEXT COLLATE "C" NOT NULL,
    subject TEXT COLLATE "C" NOT NULL,
    content BYTEA NOT NULL,
    at BIGINT NOT NULL,
    entry_index BIGINT NOT NULL,
    withdrawn_at BIGINT,
    withdrawn_entry BIGINT
);

CREATE INDEX site_waiver_by_site ON site_waiver (site, number);
