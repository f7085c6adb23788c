"""Commands for maintainers. The site and its build need none of them: what they make is kept in the tree."""
