import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.diagrams import text

from .pictures import TITLES

MEASURED = """async ([lines, font]) => {
  await document.fonts.load(font)
  const pen = document.createElement('canvas').getContext('2d')
  pen.font = font
  pen.fontKerning = 'none'
  return lines.map(line => pen.measureText(line).width)
}"""


@pytest.mark.parametrize("weight, strong", [(400, False), (600, True)])
def test_no_title_is_wider_in_a_browser_than_reckoned(show, weight, strong):
    latin = [chr(code) * 20 for code in (*range(33, 127), *range(0xC0, 0x17F))]
    lines = [*TITLES, *latin, "31 %", "<1 %", "12 min", "Set the hook-to-needle gap, 0.05 to 0.1 mm"]
    widths = show().evaluate(MEASURED, [lines, f'{weight} 13px "Handwheel Docket"'])
    system = show().evaluate(MEASURED, [lines, f"{weight} 13px monospace"])
    assert widths != system  # the face is there
    too_wide = [line for line, wide in zip(lines, widths, strict=True) if wide > text.width(line, 13, strong)]
    assert too_wide == []


@given(st.text(), st.floats(min_value=30, max_value=300))
def test_every_line_fits_and_no_letter_is_lost(words, limit):
    lines = text.wrap(words, limit)
    assert all(text.width(line) <= limit or len(line) <= 2 for line in lines)
    kept = [c for c in "".join(lines) if not c.isspace() and c != "-"]
    assert kept == [c for c in text.clean(words) if not c.isspace() and c != "-"]


def test_a_word_with_hyphens_of_its_own_breaks_at_them():
    assert text.wrap("hook-to-needle-guard", 60) == ("hook-to-", "needle-", "guard")


def test_marks_that_turn_the_writing_direction_are_dropped_and_scripts_are_kept():
    assert text.clean("\u202eבורג\u202c \u200fרופף\ud800") == "בורג רופף"


def test_a_mark_over_a_letter_takes_no_room_and_a_letter_that_the_face_lacks_is_given_enough():
    """Wide: U+6F22 by Unicode Standard Annex 11 (W), which takes a whole em; from memory."""
    assert text.width("a\u0323\u0301") == text.width("a")
    assert text.width("\u1ea5") > text.width("a")
    assert text.width("\u6f22", 10) >= 10
