"""The commands, one module each; what they print comes from the same functions that fill the pages."""
