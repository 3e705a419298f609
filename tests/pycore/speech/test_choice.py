"""Which language the command line speaks."""

from __future__ import annotations

import pytest

from pycore.cli.main import main
from pycore.speech import language, language_asked, speak_in


@pytest.mark.parametrize(
    ("environment", "expected"),
    [
        # Derived from POSIX: LC_ALL before LC_MESSAGES before LANG; GNU's LANGUAGE before them, but not in C.
        ({}, "en"),
        ({"LANG": "de_DE.UTF-8"}, "de"),
        ({"LANG": "de_DE.UTF-8", "LC_MESSAGES": "en_GB.UTF-8"}, "en"),
        ({"LANG": "en_US.UTF-8", "LC_ALL": "de_CH"}, "de"),
        ({"LANG": "en_US.UTF-8", "LANGUAGE": "fr:de"}, "de"),
        ({"LANG": "C.UTF-8", "LANGUAGE": "de"}, "en"),
        ({"LANG": "fr_FR.UTF-8"}, "en"),
    ],
)
def test_the_environment_names_the_language(environment: dict[str, str], expected: str) -> None:
    assert language_asked(environment) == expected


@pytest.fixture
def english_again() -> object:
    yield
    speak_in("en")


@pytest.mark.usefixtures("english_again")
def test_the_command_line_speaks_german_where_it_is_asked_to(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["layout", "--language", "de", "--set", "wrap.turnover_mm=12.5"]) == 0
    told = capsys.readouterr().out
    assert "Die Leinwand passt auf den Bogen" in told
    # Derived: the decimal comma.
    assert "Ein Umschlag von 12,5 mm lässt wenig zum Ziehen" in told
    assert main(["--language=de", "layout", "--set", "bars.depth_mm=3"]) == 2
    assert "Leistentiefe \N{EN DASH} verlangt: 6 bis 100 mm; angegeben: 3." in capsys.readouterr().err


@pytest.mark.usefixtures("english_again")
def test_an_unknown_language_is_refused_by_name(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["layout", "--language", "fr"]) == 2
    assert "--language must be one of en, de; you gave 'fr'." in capsys.readouterr().err
    assert language() == "en"
