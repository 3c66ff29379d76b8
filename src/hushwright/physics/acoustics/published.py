"""Published tables that lie beside the acoustic laws, read once, each row with its source."""

from __future__ import annotations

import csv
import math
from functools import cache
from importlib.resources import files

from hushwright.errors import InvalidInput


@cache
def _rows(name: str) -> tuple[dict[str, str], ...]:
    text = files("hushwright.physics.acoustics").joinpath("tables", name).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


@cache
def published_row(name: str, **key: str) -> dict[str, str]:
    """Row of a published table as printed.

    Parameters
    ----------
    name : str
        File name inside the tables folder [-].
    **key : str
        Column names and the values that single out the row [-].

    Returns
    -------
    dict
        Column to printed cell, an empty cell where the source prints nothing; not to be changed by the caller.

    Raises
    ------
    InvalidInput
        If no row has these values.

    Examples
    --------
    >>> published_row("rating_spectra.csv", id="stc_contour")["f_500"]
    '0'
    """
    for row in _rows(name):
        if all(row[column] == value for column, value in key.items()):
            return row
    raise InvalidInput(f"{name} has no row with {key}")


@cache
def published_values(name: str, prefix: str, **key: str) -> tuple[tuple[float, float], ...]:
    """Band labels and numbers of one row of a published table; bands without a number are left out.

    Parameters
    ----------
    name : str
        File name inside the tables folder [-].
    prefix : str
        Start of the names of the band columns, followed by the nominal band [-].
    **key : str
        Column names and the values that single out the row [-].

    Returns
    -------
    tuple of pairs
        Nominal band [Hz] and value in the unit of the table.

    Raises
    ------
    InvalidInput
        If no row has these values.

    Examples
    --------
    >>> published_values("rating_spectra.csv", "f_", id="stc_contour")[0]
    (125.0, -16.0)
    """
    row = published_row(name, **key)
    pairs = ((float(column.removeprefix(prefix)), cell) for column, cell in row.items() if column.startswith(prefix))
    return tuple((band, float(cell)) for band, cell in pairs if cell and math.isfinite(float(cell)))
