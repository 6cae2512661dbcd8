-- The newest records of some days of a site are found by it, and not by reading all of the site. Lists go by entries and end with a page: by
-- this index all of their days would be read and put in order for each. They do not say that there is no entry before the first, so that it is
-- none of theirs.
CREATE INDEX record_row_by_day ON record_row (site, day, entry_index) WHERE newest = 1 AND entry_index >= 0;
