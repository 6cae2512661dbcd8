-- SHA-256 over the rows of one version, of each table: a row that was changed behind the program's back is seen when it is told.
-- overtaken_digest: what digest is to be once another version is the newest; none where one is.
ALTER TABLE record_row ADD COLUMN digest BLOB;
ALTER TABLE record_row ADD COLUMN overtaken_digest BLOB;
ALTER TABLE record_row ADD COLUMN units_digest BLOB;
ALTER TABLE record_row ADD COLUMN findings_digest BLOB;
ALTER TABLE record_row ADD COLUMN shown_digest BLOB;

-- The rows from before have none of these: the next opening makes them from the log.
UPDATE row_cover SET size = 0;
