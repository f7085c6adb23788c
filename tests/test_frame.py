"""What the frame of a page loses before it is written."""

from generator.frame import tight

HEAD = '<body>\n  <nav>\n    <a href="x">\n      Find\n    </a>\n  </nav>\n'


def test_room_goes_from_the_frame_and_shrinks_in_the_content():
    page = f"{HEAD}<article>\n\n   <p>Two <b>bold</b>\n     words</p>\n</article>\n  <footer>\n  </footer>\n</body>"
    expected = '<body><nav><a href="x">Find</a></nav><article>\n<p>Two <b>bold</b>\nwords</p>\n</article><footer></footer></body>'
    assert tight(page) == expected


def test_room_that_is_said_stays_as_it_was_written():
    for said in ("<pre>a:\n    b: 1\n\n    c: 2</pre>", "<textarea>a\n   b</textarea>"):
        article = f"<article>\n   {said}\n   </article>"
        assert article in tight(f"{HEAD}{article}</body>")
