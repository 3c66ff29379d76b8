"""What checks of safety share: limits with how sure they are, and quantities that carry that doubt."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.library.safety import SafetyLimit
from hushwright.model.safety_in_place import LimitInPlace
from hushwright.verdicts.check import Case

WAY_OUT = (
    "Nothing here certifies a way out. Try it in the dark, without power, with the smallest and the largest person, "
    "before anybody is shut in; local codes and licensed practice decide."
)
ALARM = (
    "Alarms warn only where somebody can act on them: test them in place with the doors shut and the sound on; local "
    "codes and licensed practice decide."
)
EQUIPMENT = (
    "Kind, size, number and place of extinguishers and the like are for local codes and licensed practice; look after "
    "them by the dates on their labels."
)
NOISE = "Sustained loud sound harms hearing for good; local rules on noise at work decide."
FIRE = (
    "Small burning tests say little about a fire in a sealed room; choose linings that pass a test of the finished "
    "build-up where there is one; local codes and licensed practice decide."
)
BANK = (
    "A bank can burn and give off poisonous gas; its maker's instructions come first, then local codes and licensed "
    "practice."
)
EXHAUST = (
    "Carbon monoxide kills unnoticed. Makers' instructions on exhausts come before any distance here, a detector comes "
    "besides; local codes and licensed practice decide."
)
VENUE = "Go through this on the spot, every time; electricity outdoors is for licensed practice and local codes."
PAPERS = "This list is no advice on law and certifies nothing: ask the authority where the van is registered and used."


def limit_of(evaluation: Evaluation, name: str) -> tuple[float, str, str]:
    """Limit of safety of the library: value, basis, why it may not be relied on."""
    record = evaluation.build.library.find(SafetyLimit, name)
    sentence = record.sentence.rstrip(".")
    begin = sentence[0] if sentence[1] == "-" else sentence[0].lower()  # A-weighted stays so
    return record.value.value, f"{begin}{sentence[1:]}: {record.source}", record.doubt


def doubted(quantity: Quantity, doubt: str) -> Quantity:
    """Quantity that a verdict may not rest on, because its limit is not sure."""
    return replace(quantity, validity=(*quantity.validity, doubt)) if doubt else quantity


def typed_case(key: str, state: str, quantity: Quantity, limit: LimitInPlace, place: str, **more: str) -> Case:
    """Case against a limit that the file types or the library lends."""
    return Case(key, state, doubted(quantity, limit.doubt), limit.value, limit.basis, place, **more)  # type: ignore[arg-type]


def library_case(evaluation: Evaluation, key: str, state: str, of: str, limit: str, place: str, **more: str) -> Case:
    """Case of a quantity against a limit of safety of the library."""
    value, basis, doubt = limit_of(evaluation, limit)
    return Case(key, state, doubted(evaluation.quantities[of], doubt), value, basis, place, **more)  # type: ignore[arg-type]


def spoken(name: str) -> str:
    """Name as in a sentence."""
    return name.replace("_", " ")


def state_with(evaluation: Evaluation, room: str) -> str:
    """First state in which people are in a room."""
    return next((state.name for state in evaluation.build.states if state.people_in(room) > 0), "")
