-- Answers from before have digests that names went into; what is sent again is judged again, and stands already.
DELETE FROM answered_key;

-- Pseudonym of whom the submission named, so that it goes when that person is forgotten.
ALTER TABLE answered_key ADD COLUMN person TEXT;

CREATE INDEX answered_key_by_age ON answered_key (answered_at);
CREATE INDEX answered_key_by_record ON answered_key (record_index);
CREATE INDEX record_row_by_content ON record_row (record_hash);
CREATE INDEX record_row_by_assessment ON record_row (assessment_hash);
