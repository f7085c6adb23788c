"""The order of checks at the bench as it is: readings deceive, remedies fail, and the cause may be one that nobody has listed."""
