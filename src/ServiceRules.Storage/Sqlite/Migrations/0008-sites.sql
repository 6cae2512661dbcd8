-- Of which site an account or a key is, by the name of the site; *: of every one; none: there was one site when it was made.
ALTER TABLE account ADD COLUMN site TEXT;
ALTER TABLE api_key ADD COLUMN site TEXT;

-- The sites of an installation of several; no row: it has one. came: 1 was there before.
CREATE TABLE served_site (
    name TEXT PRIMARY KEY,
    came INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
