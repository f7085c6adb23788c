"""One page for each record, and the hubs and lists that lead there."""
