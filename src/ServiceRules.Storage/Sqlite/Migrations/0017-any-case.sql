-- What is asked for without regard to the case of letters is found by it, and not by reading every row.
CREATE INDEX record_row_by_record_of_any_case ON record_row (LOWER(record), entry_index);
CREATE INDEX record_row_by_machine_of_any_case ON record_row (LOWER(machine), entry_index);
CREATE INDEX unit_row_by_unit_of_any_case ON unit_row (LOWER(unit), entry_index);
