-- Of which site an account or a key is, by the name of the site; *: of every one; none: there was one site when it was made.
ALTER TABLE account ADD COLUMN site TEXT COLLATE "C";
ALTER TABLE api_key ADD COLUMN site TEXT COLLATE "C";

-- The sites of an installation of several; no row: it has one. came: 1 was there before.
CREATE TABLE served_site (
    name TEXT COLLATE "C" PRIMARY KEY,
    came BIGINT NOT NULL
);
