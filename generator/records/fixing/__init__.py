"""Mends what can be mended in a record's file without a change of meaning: exact edits, so that notes and layout stay."""
