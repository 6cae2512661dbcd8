-- What binds a name to its pseudonym: without it the pseudonym tells nothing of the name, with it another name is seen.
-- Rows from before have none.
ALTER TABLE person ADD COLUMN salt BLOB CHECK (salt IS NULL OR length(salt) = 32);
