"""Guides, the practice bench, and how to contribute."""
