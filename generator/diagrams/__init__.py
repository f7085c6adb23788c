"""Pictures: Graphviz lays out, we draw SVG."""
