"""Charts and reckoners."""
