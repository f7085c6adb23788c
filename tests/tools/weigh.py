"""Where the bytes of a built site are, by kind of page: `python -m tests.tools.weigh site`."""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

PARTS = {
    "drawings": r"<svg.*?</svg>",
    "tables": r"<table.*?</table>",
    "data": r"<script type=\"?application/ld.*?</script>",
    "lists of drawings": r"<ul class=\"?hw-outline.*?</details>",
}
"Part of a page's content -> what it looks like."
NAVIGATION = re.compile(r"<nav class=\"md-nav md-nav--primary\".*?</ul></nav></div>", re.S)


def parts(html: str) -> Iterator[tuple[str, int]]:
    """Each part of a page with its bytes; together they are the page."""
    head, _, body = html.partition("</head>")
    frame, _, rest = body.partition("<article")
    article, _, foot = rest.rpartition("</article>")
    side = "".join(NAVIGATION.findall(frame))
    yield "head", len(head.encode())
    yield "navigation", len(side.encode())
    for name, look in PARTS.items():
        found = re.findall(look, article, re.S)
        article = re.sub(look, "", article, flags=re.S)
        yield name, len("".join(found).encode())
    words = re.sub(r"<[^>]*>", "", article)
    yield "words", len(words.encode())
    yield "marks about them", len(article.encode()) - len(words.encode())
    yield "rest of the frame", len((frame + foot).encode()) - len(side.encode())


def weigh(site: Path) -> dict[str, Counter[str]]:
    """Kind of page, by its folder -> pages and bytes of each part."""
    kinds: dict[str, Counter[str]] = {}
    for path in sorted(site.rglob("*.html")):
        inside = path.relative_to(site).parts
        kind = kinds.setdefault(inside[0] if len(inside) > 1 else "hubs", Counter())
        kind["pages"] += 1
        kind.update(dict(parts(path.read_text(encoding="utf-8"))))
    return kinds


def main() -> None:
    """One line a kind, the heaviest first, bytes in thousands a page; then what is no page."""
    site = Path(sys.argv[1])
    found = weigh(site)
    for kind, told in sorted(found.items(), key=lambda item: item[1]["pages"] - item[1].total()):
        pages = told.pop("pages")
        each = ", ".join(f"{part} {count / pages / 1000:.1f}" for part, count in told.most_common() if count)
        print(f"{kind}: {pages} pages, {told.total() / 1e6:.2f} MB, {told.total() / pages / 1000:.1f} kB each: {each}")
    others = sum(p.stat().st_size for p in site.rglob("*") if p.is_file() and p.suffix != ".html")
    print(f"what is no page: {others / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
