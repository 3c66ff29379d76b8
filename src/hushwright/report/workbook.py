"""Tables as a workbook: every text a text, none a formula; the same bytes for the same tables."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any, Final

from hushwright.report.cost_tables import Sheet

_EPOCH: Final = (1980, 1, 1, 0, 0, 0)  # first moment that a ZIP can name
_UNSAID = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f]")  # control characters that XML cannot hold
_NAME = re.compile(r"[\[\]:*?/\\]")
_WIDEST = 60


def workbook(sheets: Sequence[Sheet], title: str) -> bytes:
    """Workbook of tables.

    Parameters
    ----------
    sheets : sequence of Sheet
        At least one.
    title : str
        Title in the properties.

    Returns
    -------
    bytes
        An XLSX file; no cell is a formula, and nothing in it depends on the clock.
    """
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    book.remove(book.active)
    for sheet in sheets:
        page = book.create_sheet(_NAME.sub(" ", sheet.title)[:31])
        for row, cells in enumerate((sheet.columns, *sheet.rows), start=1):
            for column, value in enumerate(cells, start=1):
                _write(page.cell(row, column), value)
        for cell in page[1]:
            cell.font = Font(bold=True)
        page.freeze_panes = "A2"
        _widen(page, sheet)
    book.properties.title = _UNSAID.sub("", title)
    book.properties.creator = "hushwright"
    book.properties.created = book.properties.modified = datetime(*_EPOCH)
    raw = io.BytesIO()
    book.save(raw)
    return _without_clock(raw.getvalue())


def _write(cell: Any, value: object) -> None:
    """One cell; text is text whatever it begins with."""
    if value is None:
        return
    if isinstance(value, str):
        cell.value = _UNSAID.sub("", value)[:32767]
        cell.data_type = "s"
        if value[:1] in ("=", "+", "-", "@"):
            cell.quotePrefix = True
        return
    cell.value = value
    if isinstance(value, Decimal):
        cell.number_format = "#,##0.00"


def _widen(page: Any, sheet: Sheet) -> None:
    from openpyxl.utils import get_column_letter

    for at, name in enumerate(sheet.columns):
        longest = max([len(name), *(len(str(row[at])) for row in sheet.rows if row[at] is not None)])
        page.column_dimensions[get_column_letter(at + 1)].width = min(longest + 2, _WIDEST)


def _without_clock(raw: bytes) -> bytes:
    """Same archive with every entry at one moment, and the moment of saving replaced."""
    written = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as old, zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>1980-01-01T00:00:00Z", content)
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, content)
    return written.getvalue()
