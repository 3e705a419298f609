"""What people read, in their language: English sentences are the keys of one catalogue for each other one."""

from __future__ import annotations

from pycore.speech.choice import LANGUAGES, language_asked, speak_in, speaking
from pycore.speech.phrase import (
    Phrase,
    figure,
    join_said,
    language,
    listed,
    lowered,
    mark,
    said_again,
    say,
    template_in_use,
)
from pycore.speech.values import PlainValue, values_of

__all__ = [
    "LANGUAGES",
    "Phrase",
    "PlainValue",
    "figure",
    "join_said",
    "language",
    "language_asked",
    "listed",
    "lowered",
    "mark",
    "said_again",
    "say",
    "speak_in",
    "speaking",
    "template_in_use",
    "values_of",
]
