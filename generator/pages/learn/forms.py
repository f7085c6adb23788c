"""What the forms of the forge ask, for people who write a letter instead. A test holds both to the same questions."""

from __future__ import annotations

FORMS: dict[str, tuple[str, ...]] = {
    "A new machine": (
        "What is it called?",
        "Which machine of the book is it most like, and what is different?",
        "What do you see from outside and under the bed?",
        "What goes wrong with it, how often, and what does the customer say then?",
        "What have you measured?",
    ),
    "Wrong or missing": (
        "Which page?",
        "What does it say, or not say?",
        "What should it say?",
        "How do you know?",
        "Can someone be hurt, or a machine be spoiled, who follows the page as it stands?",
    ),
    "What the bench found": (
        "Which shop, or which name for it?",
        "From when to when?",
        "Which family, and how many of it came in that time, whatever ailed them?",
        "What was found, and how often?",
        "What went otherwise than the book said?",
    ),
}
"Name of a form -> its questions, in order."


def letter(title: str) -> str:
    """A form as text to copy: each question with room for its answer."""
    return "\n".join((title, *(f"\n{question}\n" for question in FORMS[title])))
