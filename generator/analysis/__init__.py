"""Pure computation on plain data: no files, no records, no pages."""
