"""Handwheel: bench knowledge as records, computed and published."""
