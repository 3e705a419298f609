"""The one error of the build: a line that says what is wrong and what to do about it."""

from __future__ import annotations


class BuildError(Exception):
    """Something the build needs is missing, damaged or refused.

    Parameters
    ----------
    problem : str
        What is wrong, in a few words.
    remedy : str
        What to do about it.

    Examples
    --------
    >>> str(BuildError("npm is missing", "install Node.js"))
    'npm is missing: install Node.js'
    """

    def __init__(self, problem: str, remedy: str) -> None:
        self.problem = problem
        self.remedy = remedy
        super().__init__(f"{problem}: {remedy}")
