"""Record text, remedies and jobs in words and links: what pages and commands both say."""
