"""Which wrong keys pass for the right one."""

from math import cos, pi, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.fasteners.near_miss import near_misses, rock
from generator.standards.keys import KEY_SERIES
from generator.standards.quantity import Quantity


def misses(socket: str) -> dict[str, object]:
    return {str(miss.key): miss for miss in near_misses(Quantity.parse(socket))}


@pytest.mark.parametrize(
    ("socket", "key", "miss_mm", "fit"),
    [
        # Misses worked from 25.4 mm = 1 in. Which pairs swap is common practice, no source:
        # 5/64 in and 2 mm, 5/32 in and 4 mm, 5/16 in and 8 mm go for each other; 1/16 and 1.5, 1/8 and 3 round.
        ("3/32 in", "2.5 mm", 0.11875, "will not enter"),
        ("3/32 in", "2 mm", -0.38125, "turns free"),
        ("3/32 in", "5/64 in", -0.396875, "turns free"),
        ("5/64 in", "2 mm", 0.015625, "confused"),
        ("2 mm", "5/64 in", -0.015625, "confused"),
        ("5/32 in", "4 mm", 0.03125, "confused"),
        ("5/16 in", "8 mm", 0.0625, "confused"),
        ("1/16 in", "1.5 mm", -0.0875, "rounds"),
        ("1/8 in", "3 mm", -0.175, "rounds"),
        ("2.5 mm", "3/32 in", -0.11875, "rounds"),
        ("1.5 mm", "1/16 in", 0.0875, "will not enter"),
    ],
)
def test_the_next_key_misses_by_what_it_misses(socket: str, key: str, miss_mm: float, fit: str) -> None:
    miss = misses(socket)[key]
    assert miss.miss_mm == pytest.approx(miss_mm, abs=1e-12)
    assert miss.fit == fit


def test_the_sentence_names_both_sizes_and_the_miss() -> None:
    assert misses("3/32 in")["2.5 mm"].says == "A 2.5 mm key in a 3/32 in socket is 0.12 mm over: it will not enter."
    assert misses("1/8 in")["3 mm"].says.endswith("it rocks 6° each way and will round it.")
    assert misses("5/16 in")["8 mm"].says.startswith("An 8 mm key in a 5/16 in socket")


every_socket = st.sampled_from([size for series in KEY_SERIES.values() for size in series])


@given(every_socket)
def test_the_right_key_is_never_a_near_miss(socket: Quantity) -> None:
    assert all(miss.miss_mm != 0 for miss in near_misses(socket))


@given(every_socket)
def test_no_key_of_the_series_lies_between_a_near_miss_and_its_socket(socket: Quantity) -> None:
    width = socket.number("mm")
    for miss in near_misses(socket):
        low, high = sorted((width, miss.key.number("mm")))
        assert not [k for k in KEY_SERIES[miss.system] if low < k.number("mm") < high]


@given(every_socket)
def test_near_misses_come_nearest_first_and_at_most_two_of_a_system(socket: Quantity) -> None:
    found = near_misses(socket)
    assert [abs(m.miss_mm) for m in found] == sorted(abs(m.miss_mm) for m in found)
    assert all(sum(m.system == system for m in found) <= 2 for system in KEY_SERIES)


def enters(socket: float, key: float, angle: float) -> bool:
    """Oracle by coordinates: no corner of the turned key lies beyond any of the socket's six flats."""
    corners = [(key / sqrt(3) * cos(angle + n * pi / 3 + pi / 6), key / sqrt(3) * sin(angle + n * pi / 3 + pi / 6)) for n in range(6)]
    return all(x * cos(n * pi / 3) + y * sin(n * pi / 3) <= socket / 2 + 1e-12 for x, y in corners for n in range(6))


@given(st.floats(0.6, 10), st.floats(0.6, 0.999))
def test_the_key_rocks_as_far_as_its_corners_allow(socket: float, share: float) -> None:
    angle = rock(socket, socket * share)
    assert enters(socket, socket * share, angle * pi / 180 - 1e-6)
    if angle < 60:
        assert not enters(socket, socket * share, angle * pi / 180 + 1e-4)


@given(st.floats(1, 10), st.floats(0.5, 0.99), st.floats(0.5, 0.99))
def test_a_smaller_key_rocks_further(socket: float, one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert rock(socket, socket * small) >= rock(socket, socket * large)
