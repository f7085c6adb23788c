"""Addresses once published, as they are kept."""

from __future__ import annotations

from pathlib import Path

from generator.published import NAME, as_text, published, read_addresses

ADDRESSES = ("index.html", "bench/testa-1/skips.html", "bench/testa-1/nest.html", "tools.html")


def test_what_is_written_is_read_again_a_folder_a_line_and_each_address_once() -> None:
    text = as_text((*ADDRESSES, "tools.html"))
    assert text.endswith("\n: index tools\nbench/testa-1: nest skips\n")
    assert sorted(read_addresses(text)) == sorted(ADDRESSES)


def test_a_content_folder_without_the_file_has_published_nothing(tmp_path: Path) -> None:
    assert published(tmp_path) == ()
    (tmp_path / NAME).write_text("# Ours.\n\n: index\n", encoding="utf-8")
    assert published(tmp_path) == ("index.html",)
