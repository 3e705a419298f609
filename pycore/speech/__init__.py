"""What people read, in their language: English sentences are the keys of one catalogue for each other one."""

from __future__ import annotations

from pycore.speech.choice import LANGUAGES, language_asked, speak_in, speaking
from pycore.speech.phrase import Phrase, figure, language, lowered, mark, said_again, say, template_in_use

__all__ = [
    "LANGUAGES",
    "Phrase",
    "figure",
    "language",
    "language_asked",
    "lowered",
    "mark",
    "said_again",
    "say",
    "speak_in",
    "speaking",
    "template_in_use",
]
