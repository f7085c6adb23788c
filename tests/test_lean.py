"""What a page loses before it is written, held to a reader of the HTML standard's own rules: html5lib."""

import html5lib
import pytest

from generator.lean import lean

HEAD = '<!doctype html><html lang="en"><head><title>x</title></head><body>\n  <nav>\n    <a href="x y">\n      Find\n    </a>\n  </nav>\n'


def test_room_goes_from_the_frame_and_shrinks_in_the_content():
    page = f"{HEAD}<article>\n\n   <p>Two <b>bold</b>\n     words</p>\n</article>\n  <footer>\n  </footer>\n</body>"
    expected = '<body><nav><a href="x y">Find</a></nav><article>\n<p>Two <b>bold</b>\nwords\n</article><footer></footer></body>'
    assert lean(page).endswith(expected)


def test_room_goes_where_a_piece_stands_apart_and_stays_between_words():
    said = '<section>\n<h2>\nA</h2>\n<p>b\n<i>c</i>\n<b>d</b></p>\n</section>\n<table>\n<tr>\n<td>e\n<i>f</i></td>\n</tr>\n</table>\n<p>g'
    expected = "<section><h2>A</h2><p>b\n<i>c</i>\n<b>d</b></section><table><tr><td>e\n<i>f</i></table><p>g"
    assert expected in lean(f"{HEAD}<article>{said}</article></body>")


@pytest.mark.parametrize("said", ["<pre>a:\n    b: 1\n\n    c: 2</pre>", "<textarea>a\n   b</textarea>"])
def test_room_that_is_said_stays_as_it_was_written(said):
    article = f"<article>\n   {said}\n   </article>"
    assert article in lean(f"{HEAD}{article}</body>")


@pytest.mark.parametrize(
    "body",
    [
        '<a href="x/">one</a><a href="y" title="">two</a><i class="a b" id="c">three</i>',
        '<svg viewBox="0 0 1 1"><path class="line" d="M0 0"/><rect x="1" y="2"/></svg>',
        '<p title="a=b">It says <code>id="x" or y</code></p><i class="z">q</i>',
        "<p title='say \"no\" twice'>a</p><input value=\"`\"><input value=\"it's\">",
        '<script type="application/json">{"a":"b=\\"c\\" d"}</script><i class="z">q</i>',
        "<ul><li>a</li>\n<li>b<ul><li>c</li></ul></li></ul><dl><dt>a</dt><dd>b</dd></dl>",
        "<table><thead><tr><th>a</th><th>b</th></tr></thead><tbody><tr><td>c</td><td></td></tr></tbody></table>",
        "<dl><div><dt>a</dt><dd>b</dd></div><div><dt>c</dt><dd>d</dd></div></dl>",
        "<ul><li>a</li> said after <li>b</li></ul>",
        "<section>\n<h2>a b\n</h2>\n<table>\n<tr>\n<th title='>\n'>c\n<td>d\n</table>\n</section>\ne\n<header>\n<h1>f\ng</h1>\n</header>\nh",
        "<p>a</p><p>b</p> said after <p>c</p><ul><li><p>d</p></li></ul><p>e</p><div><p>f</p></div><p>g</p><nav>h</nav>",
        "<a href=x><p>a</p></a><p>b</p><a href=y>c</a><p>d</p><b>e</b><table><tr><td><p>f</p></td><td><p>g</p><p>h</p></td></tr></table>",
        '<p title="it&#39;s" lang="x">it&#39;s &amp;#39; &#x27;so&#x27;</p><i class="z">q</i>',
        "<p title='it&#39;s'>it&#39;s</p><i class=\"z\">q</i>",
        '<p>a</p><svg xmlns="http://www.w3.org/2000/svg" class="b"><path d="M0 0"/></svg>',
    ],
)
def test_a_browser_builds_the_same_page_of_it(body):
    whole = f"{HEAD}<article>{body}</article></body></html>"
    assert _built(lean(whole)) == _built(whole)


def _built(html: str) -> list[tuple[str, dict[str, str], list[str], list[str]]]:
    """Every element with its attributes, the words that it begins with and those after it, in order.

    The namespace of a drawing is that of its element, whether an attribute says so or not.
    """
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    found = parser.parse(html).iter()
    return [(str(e.tag), {name: value for name, value in e.attrib.items() if not name.endswith("xmlns")}, (e.text or "").split(), (e.tail or "").split()) for e in found]
