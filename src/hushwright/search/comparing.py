"""A wall, door or window with other build-ups, each taken through the verbs: what it keeps out, weighs, costs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from hushwright.costing.money import smallest_coin
from hushwright.document.edits import Edit, edited
from hushwright.document.read import read_document_text
from hushwright.errors import InvalidInput, UnreadableDocument
from hushwright.evaluation.cost.pricing import naming_of, priced
from hushwright.evaluation.cost.take_off import things_of
from hushwright.evaluation.couple import Core, couple, couple_sound
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.mass.mass import masses_in
from hushwright.evaluation.mass.space import first_take, space_of
from hushwright.evaluation.results import FacePrediction, Resonance
from hushwright.evaluation.sound.faces import Setting, opening_partition, surface_partition
from hushwright.evaluation.sound.floor import floating_room, settled
from hushwright.evaluation.sound.heard import setting_of
from hushwright.evaluation.sound.predictions import face_prediction
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.library.read import read_library
from hushwright.model.build import Build, OpeningInPlace, Surface
from hushwright.model.resolve import resolve
from hushwright.physics.air import Air
from hushwright.search.build_ups import Alternative, alternatives_of, layered_named, surface_named
from hushwright.search.changes_of_openings import changes_of_opening
from hushwright.search.reckoning import bought_as_used
from hushwright.search.writing import Writing

AS_BUILT = "as it is"


@dataclass(frozen=True, slots=True)
class Compared:
    """One build-up of a face: nominal numbers, without their spread; ``problem`` says why it cannot stand there."""

    name: str
    edits: tuple[Edit, ...] = ()
    problem: str = ""
    prediction: FacePrediction | None = None
    levels: tuple[tuple[str, float, str], ...] = ()  # quantity, value, kind
    mass: float = 0.0  # kg of the whole van, in the state where it is most
    headroom: float = 0.0  # of the room of the face
    width: float = 0.0
    length: float = 0.0
    money: Decimal | None = None  # materials of the face by the amount used, without tax
    currency: str = ""
    unpriced: tuple[str, ...] = ()
    one_price: tuple[tuple[str, float], ...] = ()  # name and thickness of what has one price for every thickness
    resonances: Mapping[tuple[str, str], float] = field(default_factory=dict)  # kind and which leaves, frequency
    space: float = 0.0  # depth of its innermost cavity, 0 without one

    def level(self, key: str) -> float | None:
        """Value of one quantity of quiet."""
        return next((value for name, value, _ in self.levels if name == key), None)


@dataclass
class Comparison:
    """A face and what it may be built like, computed one after the other."""

    text: str
    file: str
    face: str
    number: int = field(default=0, init=False)

    def __iter__(self) -> Iterator[Compared]:
        """Begin with the build-up as it is; all that it may be instead follow."""
        build, problem = build_from(self.text, self.file)
        if build is None:
            yield Compared(AS_BUILT, problem=problem)
            return
        found = _instead(build, self.face)
        self.number = 1 + len(found)
        try:
            core = couple(build)
        except CannotEvaluate as refused:
            yield Compared(AS_BUILT, problem=refused.note)
            return
        yield _compared(AS_BUILT, (), build, core, self.face)
        for each in found:
            try:
                changed = edited(self.text, each.edits)
            except (InvalidInput, UnreadableDocument) as refused:
                yield Compared(each.name, each.edits, str(refused))
                continue
            other, problem = build_from(changed, self.file)
            if other is None:
                yield Compared(each.name, each.edits, problem)
            else:
                yield _compared(each.name, each.edits, other, core, self.face)


def _instead(build: Build, name: str) -> tuple[Alternative, ...]:
    """What a face may be built like, or what can be changed about a door or window."""
    layered = layered_named(build, name)
    if not isinstance(layered, OpeningInPlace):
        return alternatives_of(build, name)
    return tuple(
        Alternative(what, tuple(edits)) for what, _, edits in changes_of_opening(build, layered, Writing(build))
    )


def build_from(text: str, file: str) -> tuple[Build | None, str]:
    """Build of a text, or `None` and the first problem that stands in its way."""
    document, problems = read_document_text(text, file)
    if document is None:
        return None, problems[0].note if problems else "the file cannot be read with it"
    build, more = resolve(document, read_library())
    errors = [each for each in (*problems, *more) if each.severity == "error"]
    if build is None or errors:
        first = next(iter(errors), None)
        return None, "no build" if first is None else f"{first.value}: {first.note}" if first.value else first.note
    return build, ""


def _compared(name: str, edits: tuple[Edit, ...], build: Build, core: Core, face: str) -> Compared:
    try:
        return _through(name, edits, build, core, face)
    except CannotEvaluate as refused:
        return Compared(name, edits, refused.note)


def _through(name: str, edits: tuple[Edit, ...], build: Build, core: Core, face: str) -> Compared:
    air = Air(build.brief.air_temperature)
    state = first_take(build)
    floating = floating_room(build, state, air)
    found = predicted(settled(build, floating), face, setting_of(build, air))
    if found is None:
        return Compared(name, edits, "there is no such face any more")
    prediction, resonances, depth = found
    quantities = couple_sound(build, build, core)
    levels = tuple((key, each.value, each.kind) for key, each in quantities.items()
                   if key.startswith(("background/", "rooms/", "neighbours/")))  # fmt: skip
    layered = surface_named(build, face) or next(each for each in build.openings if each.name == face)
    room = next((each for each in build.rooms if each.name == layered.room), build.rooms[0])
    space = space_of(build, room, floating)
    whole = with_cables(build)
    mass = max(masses_in(whole, each).total for each in build.states)
    money, unpriced, one_price = _materials(build, layered.place)
    return Compared(
        name, edits, "", prediction, levels, mass, min(space.headroom_centre, space.headroom_shoulder),
        space.clear_width_shoulder, room.length, money, build.costs.currency, unpriced, one_price,
        {(each.kind, each.text): each.frequency for each in reversed(resonances)}, depth,
    )  # fmt: skip


def predicted(build: Build, name: str, setting: Setting) -> tuple[FacePrediction, list[Resonance], float] | None:
    """What a face, door or window keeps out by itself, its resonances, and the depth of its innermost space [m]."""
    surface = surface_named(build, name)
    if surface is not None:
        partition = surface_partition(surface, setting) if surface.layers else None
        layered: Surface | OpeningInPlace = surface
        beyond = surface.beyond
    else:
        opening = next((each for each in build.openings if each.name == name), None)
        if opening is None:
            return None
        partition, layered, beyond = opening_partition(opening, setting), opening, opening.face
    if partition is None:
        return None
    prediction, resonances = face_prediction(name, beyond, partition, layered.area, layered.place, setting)
    spaces = [layer.thickness for layer in layered.layers if layer.is_cavity]
    return prediction, resonances, spaces[-1] if spaces else 0.0


def _materials(build: Build, place: str) -> tuple[Decimal | None, tuple[str, ...], tuple[tuple[str, float], ...]]:
    """Price of what the layers are made of, by the amount used; what has none; what has one for every thickness."""
    if not build.costs.currency:
        return None, (), ()
    things = things_of(build)
    own = tuple(each for each in things if each.place.startswith(f"{place}."))
    lines, covered, unpriced = priced(
        own, bought_as_used(build.costs), naming_of(things), smallest_coin(build.costs.currency)
    )
    del covered  # somebody else pays
    names = (each.name if each.size is None else f"{each.name} {1000.0 * each.size:g} mm" for each in unpriced)
    sized = {each.place for each in build.costs.prices if each.size is not None or each.per != "m2"}
    alike = ((line.name, line.size) for line in lines if line.size is not None and line.place not in sized)
    return sum((line.cost for line in lines), Decimal(0)), tuple(dict.fromkeys(names)), tuple(alike)
