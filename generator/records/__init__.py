"""Records: read from YAML, validated, checked by rules, and made into frozen data."""
