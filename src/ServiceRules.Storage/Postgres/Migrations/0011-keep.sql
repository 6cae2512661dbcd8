-- Where an act stands in the log; none for those from before acts were put there, and for locks by guessing that came soon
-- after one that is in it.
ALTER TABLE account_act ADD COLUMN entry_index BIGINT;

CREATE INDEX account_act_by_about ON account_act (about, number);
