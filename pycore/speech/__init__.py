"""What people read, in their language: English sentences are the keys of one catalogue for each other language."""

from __future__ import annotations

from pycore.speech.choice import LANGUAGES, language_asked
from pycore.speech.phrase import Phrase, figure, language, mark, say, speak

__all__ = ["LANGUAGES", "Phrase", "figure", "language", "language_asked", "mark", "say", "speak"]
