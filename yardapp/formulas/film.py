"""Film of a coating: how thick when wet, how far it goes, how much is needed."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_whole


def spreading_rate(dry_film_m: ArrayLike, solids_ratio: ArrayLike) -> NDArray[np.float64]:
    """Area that a volume of product covers, without loss: solids / dry film.

    Parameters
    ----------
    dry_film_m : array_like, shape S
        Thickness of the dry film, m.
    solids_ratio : array_like, shape S
        Solids by volume, 1; 71 % is 0.71.

    Returns
    -------
    rate : ndarray, shape S
        m2 for each m3, which is 1000 times m2 for each litre; NaN where not known.

    Raises
    ------
    OutsideRange
        A film is not above zero; solids are not above zero and at most 1.

    Source
    ------
    Film arithmetic, confirmed in several texts.

    Examples
    --------
    >>> float(spreading_rate(125e-6, 0.71)) / 1000
    5.68
    """
    alike(dry_film_m=dry_film_m, solids_ratio=solids_ratio)
    dry_film_m = hold("dry_film_m", dry_film_m, "must be above zero.", above=0)
    return _hold_solids(solids_ratio) / dry_film_m


def wet_film(dry_film_m: ArrayLike, solids_ratio: ArrayLike, thinner_ratio: ArrayLike = 0.0) -> NDArray[np.float64]:
    """Wet film that dries to a dry one: dry (1 + thinner) / solids.

    Parameters
    ----------
    dry_film_m : array_like, shape S
        Thickness of the dry film, m.
    solids_ratio : array_like, shape S
        Solids of the unthinned product by volume, 1.
    thinner_ratio : array_like, shape S
        Volume of thinner over volume of product, 1.

    Returns
    -------
    wet_film_m : ndarray, shape S
        m; NaN where not known.

    Raises
    ------
    OutsideRange
        A film is not above zero; solids are not above zero and at most 1; thinner is below zero or above 1.

    Source
    ------
    Film arithmetic, confirmed in several texts.

    Examples
    --------
    >>> float(wet_film(125e-6, 0.71)) * 1e6
    176.1
    """
    alike(dry_film_m=dry_film_m, solids_ratio=solids_ratio, thinner_ratio=thinner_ratio)
    dry_film_m = hold("dry_film_m", dry_film_m, "must be above zero.", above=0)
    thinner_ratio = hold("thinner_ratio", thinner_ratio, "must lie from 0 to 1.", at_least=0, at_most=1)
    return dry_film_m * (1 + thinner_ratio) / _hold_solids(solids_ratio)


def product_needed(
    area_m2: ArrayLike,
    coats_count: ArrayLike,
    dry_film_m: ArrayLike,
    solids_ratio: ArrayLike,
    loss_ratio: ArrayLike = 0.0,
) -> NDArray[np.float64]:
    """Volume of unthinned product for a job: area x coats x dry film / solids / (1 - loss).

    Parameters
    ----------
    area_m2 : array_like, shape S
        Area to be coated, m2.
    coats_count : array_like, shape S
        Number of coats, whole.
    dry_film_m : array_like, shape S
        Thickness of one coat when dry, m.
    solids_ratio : array_like, shape S
        Solids by volume, 1.
    loss_ratio : array_like, shape S
        Share that stays in tin, brush and roller, 1.

    Returns
    -------
    volume_m3 : ndarray, shape S
        m3; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; coats are not a whole number from 1 to 20; a loss is below zero or reaches 1.

    Source
    ------
    Film arithmetic, confirmed in several texts.

    Examples
    --------
    >>> float(product_needed(5.68, 1, 125e-6, 0.71)) * 1000
    1.00
    """
    alike(
        area_m2=area_m2,
        coats_count=coats_count,
        dry_film_m=dry_film_m,
        solids_ratio=solids_ratio,
        loss_ratio=loss_ratio,
    )
    area_m2 = hold("area_m2", area_m2, "must be above zero.", above=0)
    said = "must be a whole number from 1 to 20."
    coats_count = hold_whole("coats_count", coats_count, said, at_least=1, at_most=20)
    loss_ratio = hold("loss_ratio", loss_ratio, "must be zero or more and less than 1.", at_least=0, below=1)
    return as_given(area_m2 * coats_count / spreading_rate(dry_film_m, solids_ratio) / (1 - loss_ratio))


def _hold_solids(solids_ratio: ArrayLike) -> NDArray[np.float64]:
    return hold("solids_ratio", solids_ratio, "must be above zero and at most 1.", above=0, at_most=1)
