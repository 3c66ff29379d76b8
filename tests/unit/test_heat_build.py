"""Climate of a build file: what is remarked, what is assumed, walls listed once, days that are left out."""

import subprocess
import sys

import pytest
from tests.coupled import DEMO, build_of, core_of, edited, library
from tests.plain_builds import plain_build, two_rooms
from tests.unit.heat_cases import CLIMATE, SIDES, WOOL

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.evaluation.results.heat import NO_HEAT
from hushwright.model.climate import day_of_year
from hushwright.model.resolve import resolve

COLDEST = "climate:\n  latitude: 54°\n  longitude: 10°\n"
COLDEST += "  coldest: {date: 15 January, highest: 0 °C, lowest: 0 °C, sky: no sun}\n"


def problems(text: str) -> list[Diagnostic]:
    document, found = read_document_text(text, "van.yaml")
    assert document is not None
    assert not found, found
    return list(resolve(document, library())[1])


def test_a_session_past_midnight_is_remarked_and_computed_until_then() -> None:
    text = edited(DEMO, ("session_begins: 11 h", "session_begins: 22 h"))
    remark = next(each for each in problems(text) if each.reference == "session-past-midnight")
    assert (remark.severity, remark.place.dotted) == ("warning", "climate.session_begins")
    day = core_of(text).heat.day("hottest")
    assert day is not None
    assert day.phases[-1][2] == 86_400.0


def test_wishes_without_a_climate_are_remarked() -> None:
    found = problems(plain_build("  heat: {warmest: 26 °C}\n"))
    assert [(each.reference, each.place.dotted) for each in found] == [("key-without-effect", "brief.heat")]


def test_without_a_climate_nothing_is_computed() -> None:
    assert core_of(plain_build()).heat == NO_HEAT


def test_what_the_library_does_not_know_passes_heat_like_its_kind() -> None:
    told = [each.text for each in build_of(plain_build("", COLDEST)).assumptions]
    assert "heavy sheet passes heat and vapour like any limp barrier" in told


def test_a_wall_between_two_rooms_is_listed_once() -> None:
    faces = core_of(two_rooms("", COLDEST)).heat.faces
    between = [each for each in faces if each.beyond in ("quiet_room", "control_room")]
    assert len(between) == 1


def test_a_day_that_is_left_out_is_not_judged() -> None:
    core = core_of(plain_build("", COLDEST))
    assert core.heat.day("hottest") is None
    assert not any(key.startswith(("warmest/", "mould/")) for key in core.quantities)


def test_a_room_that_is_aired_is_not_held_to_a_temperature() -> None:
    keys = core_of(DEMO).quantities
    assert "coldest/quiet_room/record" in keys
    assert "coldest/quiet_room/pause" not in keys


def test_children_and_women_give_off_less_than_men() -> None:
    warm = plain_build("", CLIMATE, **dict.fromkeys(SIDES, WOOL))
    who = "people: {{quiet_room: 3}}\n    who: [{{room: quiet_room, number: 3, activity: seated{}}}]"
    values = [
        dict(core_of(edited(warm, ("people: {quiet_room: 0}", who.format(more)))).heat.days[0].flows)["people"]
        for more in (", sex: male", ", sex: female", ", age: 9")
    ]
    assert values == sorted(values, reverse=True)
    assert len(set(values)) == 3


@pytest.mark.parametrize(("text", "day"), [("1 January", 1), ("31 Dec", 365), ("Mar 1", 60), ("29 February", None),
                                           ("0 May", None), ("5 Smarch", None), ("", None)])  # fmt: skip
def test_a_date_is_a_day_of_a_year_of_365(text: str, day: int | None) -> None:
    assert day_of_year(text) == day


_ALONE = """
import sys
from hushwright.document.read import read_document_text
from hushwright.evaluation.evaluate import couple
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
couple(resolve(read_document_text(sys.stdin.read(), "build.yaml")[0], read_library())[0])
print([name for name in ("pvlib", "pandas") if name in sys.modules])
"""


@pytest.mark.parametrize("sky", ["no sun", "clear"])
def test_the_sun_needs_no_slow_program(sky: str) -> None:
    text = plain_build("", COLDEST.replace("no sun", sky))
    done = subprocess.run([sys.executable, "-c", _ALONE], input=text, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
