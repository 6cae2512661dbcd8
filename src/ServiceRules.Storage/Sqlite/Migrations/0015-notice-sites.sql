-- Of which site a notice is, by the name of the site, so that whoever is of one is told its own without looking through all others.
ALTER TABLE notice ADD COLUMN site TEXT;

UPDATE notice SET site = COALESCE(
    (SELECT record_row.site FROM entry JOIN record_row ON record_row.record = entry.subject
     WHERE entry.entry_index = notice.entry_index ORDER BY record_row.entry_index DESC LIMIT 1),
    (SELECT due_notice.site FROM due_notice WHERE due_notice.number = -notice.entry_index));

CREATE INDEX notice_by_site ON notice (site, state, entry_index DESC, recipient);
