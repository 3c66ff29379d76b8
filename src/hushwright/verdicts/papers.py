"""Are the papers there: every item of every list, and what is not listed says whom to ask."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.model.safety_in_place import PaperInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.safety_cases import PAPERS

ASK = "ask the authority"


def _papers(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(_case(each) for each in evaluation.build.papers)


def _case(each: PaperInPlace) -> Case:
    lacking = _open(each)
    quantity = Quantity(float(each.status == "refused"), "count", validity=lacking, known=not lacking)
    return Case(f"{each.jurisdiction}/{each.item}", "", quantity, 0.0,
                each.known or f"nothing is known here of this paper: {ASK}", each.place, hint=_told(each),
                caution=PAPERS, question=f"{each.jurisdiction}: is the paper on {each.item} there?")  # fmt: skip


def _open(each: PaperInPlace) -> tuple[str, ...]:
    """What keeps a paper from being there; a refused one needs no further reason."""
    if not each.listed:
        return (f"not listed: {ASK}",)
    if each.status == "refused":
        return ()
    if each.status not in ("granted", "not needed"):
        return (f"its status is: {each.status}",)
    if not each.says_who:
        return (f"it is {each.status}, but nobody says which authority said so: {ASK}",)
    return () if each.date else (f"it is {each.status}, without a date",)


def _wanting(each: PaperInPlace) -> bool:
    return each.status == "refused" or bool(_open(each))


def _told(each: PaperInPlace) -> str:
    """Who sees to it, since when, who said so."""
    if not each.listed:
        return f"list it with owner, date and status; {ASK}"
    parts = [each.owner or "nobody sees to it", each.status, each.date, each.says_who]
    told = ", ".join(part for part in parts if part)
    return f"ask the authority for it, or change what it refuses; {told}" if _wanting(each) else told


CHECKS = (
    Check("paper", "Papers", "Are the papers there?", "at_most", _papers,
          f"the file lists no papers: {ASK} which are needed", counts="papers refused"),
)  # fmt: skip
