"""View models and templates: what analysis computed, in words and structure."""
