"""Job sheets."""
