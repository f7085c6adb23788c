"""Makes the site's own type anew: `python -m tests.tools.type_face`.

Fetches the open family that it is cut from, and writes the style sheet that carries it, its licence,
and the widths that pictures are measured by. Needs npm and `pip install -e ".[tools]"`.
"""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

from fontTools.ttLib import TTFont

from tests.tools import cut, faces, measure

ROOT = Path(__file__).parent.parent.parent
SHEET = ROOT / "generator" / "assets" / "css" / "face.css"
LICENCE = ROOT / "generator" / "assets" / "type" / "OFL.txt"
WIDTHS = ROOT / "generator" / "diagrams" / "advances.json"
_WEIGHTS = {"Regular": 400, "Bold": 700}

_HEAD = """\
/* The site's own type, cut by tests/tools/type_face.py: change that, not this. The licence is type/OFL.txt.
   Addresses that hold the data, since a browser may refuse a page on disk the fonts of a folder above it.
   Where they do not load, faces that the reader has are scaled to the same widths and heights. */
"""


def main(folder: Path) -> None:
    """Everything that is kept of the type, from packages unpacked below `folder`. Raises NotFetched."""
    ours = dict(zip(_WEIGHTS, map(cut.cut, faces.files(faces.OURS, folder), _WEIGHTS), strict=True))
    SHEET.write_text(_HEAD + _own_rules(ours) + _stand_in_rules(ours, folder), encoding="utf-8")
    widths = {weight.lower(): measure.advances(face) for weight, face in ours.items()}
    WIDTHS.write_text(json.dumps(widths, ensure_ascii=False, indent=0) + "\n", encoding="utf-8")
    LICENCE.write_text(_licence(ours["Regular"], folder), encoding="utf-8")


def _own_rules(ours: dict[str, TTFont]) -> str:
    rules = ""
    for weight, face in ours.items():
        source = f'url("{cut.data_address(cut.woff2(face))}") format("woff2")'
        rules += f'@font-face {{\n  font-family: "{cut.NAME}";\n  font-weight: {_WEIGHTS[weight]};\n  src: {source};\n}}\n'
    return rules


def _stand_in_rules(ours: dict[str, TTFont], folder: Path) -> str:
    often = measure.letters(ROOT / "content")
    rules = ""
    for stand_in in faces.STAND_INS:
        for (weight, face), path in zip(ours.items(), faces.files(stand_in.measured, folder), strict=True):
            by = measure.scale(face, TTFont(path), often)
            rules += measure.stand_in_rule(stand_in, _WEIGHTS[weight], by, face)
    return rules


def _licence(face: TTFont, folder: Path) -> str:
    """The open licence's text under the family's own copyright line."""
    package, name = faces.LICENCE
    text = (faces.unpacked(package, folder) / name).read_text(encoding="utf-8")
    body = text[text.index("This Font Software is licensed") :]
    return f"{face['name'].getDebugName(0)}\n\nCut down and renamed \"{cut.NAME}\" for this site, under the same licence.\n\n{body}"


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        try:
            main(Path(place))
        except faces.NotFetched as error:
            sys.exit(f"The type was not made: {error}")
