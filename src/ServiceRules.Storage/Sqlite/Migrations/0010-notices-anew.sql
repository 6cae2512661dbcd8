-- Notices that were given up are looked for, and tried anew. renewed: how often somebody had one tried anew.
ALTER TABLE notice ADD COLUMN renewed INTEGER NOT NULL DEFAULT 0;

CREATE INDEX notice_given_up ON notice (entry_index, recipient) WHERE state = 2;

CREATE INDEX notice_renewed ON notice (entry_index) WHERE state = 0 AND renewed > 0;
