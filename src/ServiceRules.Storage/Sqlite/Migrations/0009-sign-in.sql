-- Who signs in elsewhere: which provider vouches, and under which name it knows the account. No two accounts have both the same.
ALTER TABLE account ADD COLUMN elsewhere_provider TEXT;
ALTER TABLE account ADD COLUMN elsewhere_name TEXT;

CREATE UNIQUE INDEX account_elsewhere ON account (elsewhere_provider, elsewhere_name);

-- What protects what browsers keep, sealed: the key that opens it is not in the database.
CREATE TABLE protection_key (
    name TEXT PRIMARY KEY,
    sealed BLOB NOT NULL
) STRICT;
