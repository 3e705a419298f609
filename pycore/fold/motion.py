"""Where every facet is at every moment: rigid maps that keep every crease closed."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Finish
from pycore.fold.facets import Corner, Facet
from pycore.fold.kinds import Kind
from pycore.fold.rigid import E1, E2, E3, ORIGIN, Rigid, about, from_rays
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import Angles, angles_at

Floats = npt.NDArray[np.float64]


def facet_maps(spec: FoldSpec, facets: list[Facet], at: Floats) -> list[Rigid]:
    """The rigid map of every facet, from the flat sheet (z = 0) to its place.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    facets : list of Facet
        From `flat_facets`.
    at : (n,) float64
        0 flat to 1 folded.

    Returns
    -------
    list of Rigid
        One a facet, each of n maps.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fold.spec import fold_spec
    >>> spec = fold_spec(Job())
    >>> from pycore.fold.facets import flat_facets
    >>> maps = facet_maps(spec, flat_facets(spec), np.ones(1))
    >>> maps[1].apply(np.array([[150.0, 215.0, 0.0]])).round(9).tolist()
    [[[150.0, 200.0, -15.0]]]
    """
    local = corner_maps(spec, np.asarray(at, float))
    return [_on_sheet(facet.corner, local[facet.kind]) for facet in facets]


def corner_maps(spec: FoldSpec, at: Floats) -> dict[Kind, Rigid]:
    """The rigid map of every kind of facet in the frame of a corner.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    at : (n,) float64
        0 to 1.

    Returns
    -------
    dict
        Only the kinds that the finish has.

    References
    ----------
    The gusset is built from rays, at 45 and 90 degrees, which never degenerate; a formula with cross products
    would be singular when folded.
    """
    angles = angles_at(spec, at)
    depth = spec.depth_mm
    under, over = about(E2, ORIGIN, angles.under), about(E1, ORIGIN, -angles.over)
    maps = {
        Kind.FACE: about(E1, ORIGIN, np.zeros_like(at)),
        Kind.UNDER_SIDE: under,
        Kind.OVER_SIDE: over,
        Kind.UNDER_TURNOVER: under.after(about(E2, depth * E1, angles.under_back)),
    }
    if spec.finish is Finish.TRIMMED:
        maps[Kind.TAB] = under.after(about(E1, ORIGIN, -angles.gusset))
        maps[Kind.OVER_TURNOVER] = over.after(about(E1, depth * E2, -angles.over_back))
        return maps
    gusset = _tucked_gusset if spec.finish is Finish.TUCKED else _lapped_gusset
    maps[Kind.GUSSET_UNDER], maps[Kind.GUSSET_OVER] = gusset(spec, angles, under, over)
    if not spec.whole:
        maps[Kind.OVER_TURNOVER] = over.after(about(E1, depth * E2, -angles.over_back))
        return maps
    # Turn-over and back gusset follow the over side as one: it turns back only once that stands upright.
    back = about(E1, -depth * E3, -angles.over_back)
    maps[Kind.OVER_TURNOVER] = back.after(over)
    maps[Kind.BACK_OVER] = back.after(maps[Kind.GUSSET_OVER])
    maps[Kind.BACK_MIDDLE] = back.after(maps[Kind.GUSSET_UNDER])
    diagonal = (E1 + E2) / np.sqrt(2)
    maps[Kind.BACK_UNDER] = from_rays(
        depth * E1,
        (E1, diagonal),
        under.apply(depth * E1[np.newaxis])[:, 0],
        (maps[Kind.UNDER_TURNOVER].direct(E1), maps[Kind.BACK_MIDDLE].direct(diagonal)),
    )
    return maps


def _tucked_gusset(spec: FoldSpec, angles: Angles, under: Rigid, over: Rigid) -> tuple[Rigid, Rigid]:
    """The under half turns by psi about the under side's edge; the ridge between the halves lies in it."""
    e = spec.setback_rad
    k = np.pi / 4 + e
    ridge, edge = np.cos(k) * E1 + np.sin(k) * E2, -np.sin(e) * E1 + np.cos(e) * E2
    psi = angles.gusset[:, np.newaxis]
    along = under.direct(E1)
    upright = np.cos(psi) * E2 - np.sin(psi) * under.direct(E3)
    ridge_now = np.cos(k) * along + np.sin(k) * upright
    place = np.zeros((len(psi), 3))
    return (
        from_rays(ORIGIN, (E1, ridge), place, (along, ridge_now)),
        from_rays(ORIGIN, (ridge, edge), place, (ridge_now, over.direct(edge))),
    )


def _lapped_gusset(spec: FoldSpec, angles: Angles, under: Rigid, over: Rigid) -> tuple[Rigid, Rigid]:
    """The over half turns by chi about the over side's edge, outwards, so that nothing enters the bar."""
    chi = angles.gusset[:, np.newaxis]
    edge = over.direct(E2)
    outward = np.cos(chi) * E1 + np.sin(chi) * over.direct(E3)
    diagonal, ridge_now = (E1 + E2) / np.sqrt(2), (outward + edge) / np.sqrt(2)
    place = np.zeros((len(chi), 3))
    return (
        from_rays(ORIGIN, (E1, diagonal), place, (under.direct(E1), ridge_now)),
        from_rays(ORIGIN, (E1, E2), place, (outward, edge)),
    )


def _on_sheet(corner: Corner, local: Rigid) -> Rigid:
    """From a corner's frame to the sheet's: R_g = M R M^T, t_g = C + M t - R_g C."""
    frame = np.eye(3)
    frame[:2, :2] = corner.axes
    origin = np.array([*corner.origin, 0.0])
    turn = frame @ local.turn @ frame.T
    return Rigid(turn, origin + local.shift @ frame.T - turn @ origin)
