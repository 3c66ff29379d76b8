"""Which instruments and voices sound at a frequency: fundamentals from lowest to highest usual note."""

from __future__ import annotations

# Equal temperament, A4 = 440 Hz (ISO 16); compass of each from common practice, no source.
_COMPASS: tuple[tuple[str, float, float], ...] = (
    ("kick and bass drum", 40.0, 100.0),
    ("double bass and bass guitar", 41.2, 246.9),
    ("low brass", 58.3, 349.2),
    ("bass voice", 82.4, 329.6),
    ("guitar", 82.4, 987.8),
    ("accordion", 87.3, 1760.0),
    ("tenor voice", 130.8, 523.3),
    ("soprano voice", 261.6, 1046.5),
    ("fiddle", 196.0, 2637.0),
    ("flute", 261.6, 2093.0),
)
_ENGINE = (25.0, 90.0)


def lets_through(frequency: float) -> str:
    """Name what has its fundamental near a frequency; above all of them what sibilants and cymbals bring.

    Examples
    --------
    >>> lets_through(80.0)
    'kick and bass drum, double bass and bass guitar, low brass, traffic and engines'
    """
    named = [name for name, low, high in _COMPASS if low <= frequency <= high][:3]
    if _ENGINE[0] <= frequency <= _ENGINE[1]:
        named.append("traffic and engines")
    if not named:
        return "overtones, sibilants and cymbals" if frequency > 1000.0 else "sub-bass"
    return ", ".join(named)
