"""The soft proof: how a picture's colours look once they are printed, for a display or as Lab."""

from __future__ import annotations

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.transform import Transform, make_request, make_transform
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Intent


def proof_transform(
    source: Endpoint,
    gamut: DeviceGamut,
    display: Standard,
    *,
    intent: Intent,
    black_point_compensation: bool,
    viewing: Viewing,
) -> Transform:
    """From the picture's values to the canvas and on to the display.

    Parameters
    ----------
    source : Profile or Standard
        The picture's space.
    gamut : DeviceGamut
    display : Standard
        A display's space, or Lab.
    intent : Intent
        For the way to the canvas.
    black_point_compensation : bool
        For the way to the canvas.
    viewing : Viewing
        For the way from the canvas to the display.

    Returns
    -------
    Transform

    Raises
    ------
    ProfileError
        A profile lacks what is needed.

    References
    ----------
    ISO 3664 for the light that this is computed for, D50; ICC.1:2022, 6.3.2 for the white of the canvas.
    """
    there = make_transform(
        source, gamut.profile, intent=intent, black_point_compensation=black_point_compensation
    )
    return there.then(seen_transform(gamut, display, viewing=viewing))


def seen_transform(gamut: DeviceGamut, display: Standard, *, viewing: Viewing) -> Transform:
    """From the canvas's values to how they look.

    Parameters
    ----------
    gamut : DeviceGamut
    display : Standard
        A display's space, or Lab.
    viewing : Viewing

    Returns
    -------
    Transform

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    return make_transform(
        gamut.profile,
        display,
        intent=Intent.ABSOLUTE if viewing is Viewing.CANVAS else Intent.RELATIVE,
        black_point_compensation=viewing is Viewing.NEITHER,
    )


def clip_request(
    source: Endpoint, gamut: DeviceGamut, *, intent: Intent, black_point_compensation: bool
) -> Transform:
    """What the canvas would have to show to keep the picture's colours.

    The perceptual and the saturation intent move colours on purpose, by rules that each profile hides in its
    tables; what they must move, because it lies outside, is what the relative intent is asked for.

    Parameters
    ----------
    source : Profile or Standard
    gamut : DeviceGamut
    intent : Intent
    black_point_compensation : bool

    Returns
    -------
    Transform
        To Lab relative to the canvas's white.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    return make_request(
        source,
        gamut.profile,
        intent=colorimetric(intent),
        black_point_compensation=black_point_compensation,
    )


def colorimetric(intent: Intent) -> Intent:
    """The intent that says what an intent must move: the absolute for itself, for others the relative.

    Parameters
    ----------
    intent : Intent

    Returns
    -------
    Intent

    Examples
    --------
    >>> colorimetric(Intent.PERCEPTUAL).value
    'relative'
    """
    return Intent.ABSOLUTE if intent is Intent.ABSOLUTE else Intent.RELATIVE
