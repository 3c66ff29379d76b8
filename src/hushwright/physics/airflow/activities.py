"""How hard people work at what they do in a recording room, in met."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.errors import InvalidInput

_PERSILY = "Persily and de Jonge 2017, table 3"
_COMPENDIUM = "Ainsworth et al. 2000, Compendium of Physical Activities"


@dataclass(frozen=True, slots=True)
class Activity:
    """What a person does, and how much energy it takes.

    Parameters
    ----------
    name : str
        What the person does.
    met : float
        Metabolic rate over that at rest [met].
    source : str
        Where the value comes from.
    """

    name: str
    met: float
    source: str


ACTIVITIES: tuple[Activity, ...] = (
    Activity("resting", 1.0, f"{_PERSILY} (lying or sitting quietly; memory)"),
    Activity("seated", 1.3, f"{_PERSILY} (sitting, reading or writing)"),
    Activity("standing", 1.3, f"{_PERSILY} (standing quietly; memory)"),
    Activity("at the desk", 1.5, f"{_PERSILY} (sitting tasks, light effort)"),
    Activity("talking", 1.5, f"{_COMPENDIUM} (sitting, talking; memory)"),
    Activity("singing", 2.0, f"{_COMPENDIUM} (standing, singing; memory)"),
    Activity("playing seated", 2.0, f"{_COMPENDIUM} (flute, cello, horn, classical guitar)"),
    Activity("playing", 2.5, f"{_COMPENDIUM} (violin, trumpet, piano)"),
    Activity("playing standing", 3.0, f"{_COMPENDIUM} (guitar in a band, standing)"),
    Activity("drumming", 4.0, f"{_COMPENDIUM} (drums); concerts 6 to 8, Romero et al., De La Rue et al. 2013"),
    Activity("moving kit", 4.0, "common practice, no source"),
    Activity("light cleaning", 2.3, f"{_PERSILY} (light cleaning)"),
    Activity("dancing", 7.8, f"{_PERSILY} (dancing, general; memory)"),
)
_BY_NAME = {each.name: each for each in ACTIVITIES}


def activity(name: str) -> Activity:
    """Activity of a recording session by its name.

    Parameters
    ----------
    name : str
        One of the names in ``ACTIVITIES``.

    Returns
    -------
    Activity
        Name, metabolic rate [met] and source.

    Raises
    ------
    InvalidInput
        If no activity has this name.

    References
    ----------
    .. [1] A. Persily and L. de Jonge, "Carbon dioxide generation rates for building occupants", *Indoor Air* 27
       (2017) 868-879, table 3.
    .. [2] B. E. Ainsworth et al., "Compendium of physical activities", *Med. Sci. Sports Exerc.* 32 (2000) S498-S516.

    Examples
    --------
    >>> activity("singing").met
    2.0
    """
    if name not in _BY_NAME:
        raise InvalidInput(f"activity is {name!r}; known are {', '.join(sorted(_BY_NAME))}")
    return _BY_NAME[name]
