"""Tables of the trade and of published standards, with their sources."""
