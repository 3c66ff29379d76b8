"""Heat through build-ups, heat of people and the network against published values and independent solutions."""

import csv
import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.thermal.conduction import (
    BuildUpSection,
    SurfaceResistances,
    mixed_thermal_resistance,
    surface_resistances,
    thermal_transmittance,
)
from hushwright.physics.thermal.layers import AirLayer, KnownLayer, SolidLayer
from hushwright.physics.thermal.matrices import _exponential
from hushwright.physics.thermal.network import design_day_temperature, minutes_until_too_warm, run_network
from hushwright.physics.thermal.occupants import ACTIVITIES, metabolic_heat, occupant_heat
from hushwright.physics.thermal.rooms import Drive, Envelope, HeatNetwork, RoomNode

TABLES = Path(__file__).parent / "tables"
EXAMPLES = {
    each["id"]: each for each in tomllib.loads((TABLES / "worked_examples.toml").read_text(encoding="utf-8"))["example"]
}
with (TABLES / "06_thermal_facts.csv").open(encoding="utf-8", newline="") as handle:
    FACTS = {row["id"]: row for row in csv.DictReader(handle)}
with (TABLES / "04_metabolic_heat_per_person.csv").open(encoding="utf-8", newline="") as handle:
    PEOPLE = list(csv.DictReader(handle))


@pytest.mark.parametrize(("name", "key", "tolerance"), [("th01", "U_exact", 5e-5), ("th02", "U", 5e-3)])
def test_transmittance_of_a_masonry_wall(name, key, tolerance):
    # th01 public copy (printed 1.85 from a rounded resistance, exact beside it); th02 Building Construction Handbook
    given, out = EXAMPLES[name]["inputs"], EXAMPLES[name]["outputs"]
    layers = [SolidLayer(*layer) for layer in given["layers"]]
    found = thermal_transmittance(layers, surfaces=SurfaceResistances(given["Rsi"], given["Rse"]))
    assert found == pytest.approx(out[key], abs=tolerance)


def test_parallel_paths_are_the_upper_limit():
    # th04 public copy: resistance of two paths side by side, surfaces included in the paths
    given = EXAMPLES["th04"]["inputs"]
    sections = [
        BuildUpSection(1.0 - given["share2"], (KnownLayer(given["R1"]),)),
        BuildUpSection(given["share2"], (KnownLayer(given["R2"]),)),
    ]
    found = mixed_thermal_resistance(sections, surfaces=SurfaceResistances(0.0, 0.0))
    assert found.upper == pytest.approx(EXAMPLES["th04"]["outputs"]["R"], abs=5e-5)
    assert 1.0 / found.upper == pytest.approx(EXAMPLES["th04"]["outputs"]["U_printed"], abs=5e-3)


@pytest.mark.parametrize(("fact", "heat_flow"), [("th01", "horizontal"), ("th02", "up"), ("th03", "down")])
def test_inside_surface_resistance(fact, heat_flow):
    # ISO 6946, values found in a public copy; half a last digit
    assert surface_resistances(heat_flow).inside == pytest.approx(float(FACTS[fact]["value"]), abs=5e-3)


@pytest.mark.parametrize(
    ("wind", "printed"), [(1, 0.08), (2, 0.06), (3, 0.05), (4, 0.04), (5, 0.04), (7, 0.03), (10, 0.02)]
)
def test_outside_surface_resistance_follows_the_wind(wind, printed):
    # ISO 6946 annex on surfaces (th04: 0.04 found, the row of winds from memory); half a last digit
    assert surface_resistances("horizontal", wind).outside == pytest.approx(printed, abs=5.01e-3)


@pytest.mark.parametrize(
    ("heat_flow", "printed"),
    [("horizontal", (0.11, 0.15, 0.18)), ("up", (0.11, 0.15, 0.16)), ("down", (0.11, 0.15, 0.19))],
)
def test_air_layers_have_the_resistances_of_the_table(heat_flow, printed):
    # ISO 6946, table of unventilated air layers (th05, memory): 5, 10 and 25 mm; half a last digit
    for thickness, resistance in zip((0.005, 0.010, 0.025), printed, strict=True):
        assert AirLayer(thickness).resistance(heat_flow) == pytest.approx(resistance, abs=5.01e-3)


def plane_resistance(rib_share: float, conductivities: tuple[float, float]) -> float:
    """Resistance of a 16 mm board, 40 mm layer with a rib, and 16 mm board by finite volumes, an independent answer."""
    from scipy.sparse import lil_matrix
    from scipy.sparse.linalg import spsolve

    across, through, pitch, depth = 48, 72, 0.4, 0.072
    dx, dy = pitch / across, depth / through
    conductivity = np.full((across, through), 0.13)
    x, y = (np.arange(across) + 0.5) * dx, (np.arange(through) + 0.5) * dy
    core = (y > 0.016) & (y < 0.056)
    conductivity[:, core] = np.where(x < rib_share * pitch, conductivities[1], conductivities[0])[:, None]
    matrix, right = lil_matrix((across * through, across * through)), np.zeros(across * through)
    for i in range(across):
        for j in range(through):
            here = i * through + j
            for di, dj, area, length in ((1, 0, dy, dx), (-1, 0, dy, dx), (0, 1, dx, dy), (0, -1, dx, dy)):
                ii, jj = i + di, j + dj
                if not 0 <= ii < across:
                    continue
                own = 0.5 * length / conductivity[i, j]
                if 0 <= jj < through:
                    link = area / (own + 0.5 * length / conductivity[ii, jj])
                    matrix[here, ii * through + jj] -= link
                else:
                    link = area / (own + (0.04 if jj < 0 else 0.13))
                    right[here] += link * (0.0 if jj < 0 else 1.0)
                matrix[here, here] += link
    field = spsolve(matrix.tocsr(), right).reshape(across, through)
    flow = float(np.sum(dx * (1.0 - field[:, -1]) / (0.13 + 0.5 * dy / conductivity[:, -1])))
    return pitch / flow


def test_two_dimensional_conduction_lies_between_the_limits():
    # independent: finite volumes; ISO 6946 says the truth lies between its limits
    layers = [SolidLayer(0.016, 0.13), SolidLayer(0.040, 0.04), SolidLayer(0.016, 0.13)]
    rib = [layers[0], SolidLayer(0.040, 0.18), layers[2]]
    found = mixed_thermal_resistance(
        [BuildUpSection(0.875, tuple(layers)), BuildUpSection(0.125, tuple(rib))],
        surfaces=SurfaceResistances(0.13, 0.04),
    )
    exact = plane_resistance(0.125, (0.04, 0.18))
    assert found.lower < exact < found.upper
    assert found.value == pytest.approx(exact, rel=0.05)
    assert not found.validity


def test_steel_through_wool_is_beyond_the_method_and_says_so():
    wool, steel = SolidLayer(0.06, 0.035), SolidLayer(0.06, 50.0)
    found = mixed_thermal_resistance([BuildUpSection(0.995, (wool,)), BuildUpSection(0.005, (steel,))])
    assert found.validity
    assert found.upper / found.lower > 1.5


@pytest.mark.parametrize("row", PEOPLE, ids=lambda row: f"{row['activity']} {row['room_C']}")
def test_heat_of_people_is_that_of_the_tables(row):
    # ASHRAE Fundamentals 2009/2013 ch. 18 table 1 (adjusted total); Jones, table 7.16
    names = [name for name in ACTIVITIES if row["activity"].startswith(name)]
    name = max(names, key=len) if row["activity"] not in ACTIVITIES else row["activity"]
    heat = occupant_heat(name, float(row["room_C"]))
    assert heat.sensible_heat == pytest.approx(float(row["sensible_W"]))
    assert heat.latent_heat == pytest.approx(float(row["latent_W"]))


def test_a_warm_room_takes_a_fifth_off_the_sensible_heat():
    # note of the ASHRAE table: at 27 °C keep the total, sensible about 20 % less
    cool, warm = occupant_heat("standing, light work", 24.0), occupant_heat("standing, light work", 27.0)
    assert warm.total_heat == pytest.approx(cool.total_heat)
    assert warm.sensible_heat == pytest.approx(0.8 * cool.sensible_heat)


def test_one_met_is_the_seated_person_of_the_table_within_a_tenth():
    # ISO 8996: 58.15 W/m² over 1.8 m², against 115 W of Jones' seated person at rest (1.0 to 1.2 met)
    assert metabolic_heat(1.1).total_heat == pytest.approx(115.0, rel=0.1)


def shell(name: str = "shell", area: float = 20.0, **changes: float) -> Envelope:
    values = {
        "outside_resistance": 0.04,
        "skin_heat_capacity": 4e3,
        "core_resistance": 1.5,
        "leaf_heat_capacity": 15e3,
        "inside_resistance": 0.13,
    }
    return Envelope(name, "quiet", "outside", area, **(values | changes))


def test_a_light_room_cools_with_its_time_constant():
    # closed form: C dT/dt = -H T with the shell's own mass next to nothing
    wall = shell(skin_heat_capacity=1e-3, leaf_heat_capacity=1e-3)
    room = RoomNode("quiet", 6.5, contents_heat_capacity=50e3)
    drive = Drive(60.0, {"outside": np.zeros(120)}, np.full(120, 0.5))
    found = run_network(HeatNetwork((room,), (wall,)), drive, 20.0).room("quiet")
    capacity = 50e3 + 6.5 * 101_325.0 / (287.055 * 293.15) * 1006.0
    time_constant = capacity / (20.0 * wall.thermal_transmittance)
    assert found[-1] == pytest.approx(20.0 * math.exp(-7200.0 / time_constant), rel=1e-4)


def test_the_network_agrees_with_a_general_solver():
    # independent: adaptive Runge-Kutta on the same equations, written out by hand
    from scipy.integrate import solve_ivp

    steps, flow = 48, 0.03
    outside = 15.0 + 10.0 * np.sin(np.arange(steps))
    people = np.where(np.arange(steps) > 20, 300.0, 0.0)
    drive = Drive(
        300.0,
        {"outside": outside},
        np.full(steps, 0.5),
        flows={("outside", "quiet"): np.full(steps, flow)},
        gains={("quiet", "people"): people},
    )
    found = run_network(HeatNetwork((RoomNode("quiet", 6.5),), (shell(),)), drive, 18.0)
    density = 101_325.0 / (287.055 * 293.15)

    def slope(time, state):
        k = min(int(time // 300.0), steps - 1)
        air, skin, leaf = state
        outer, core, inner = 20.0 / 0.04, 20.0 / 1.5, 20.0 / 0.13
        into_air = inner * (leaf - air) + density * 1006.0 * flow * (outside[k] - air) + 0.5 * people[k]
        into_skin = outer * (outside[k] - skin) + core * (leaf - skin)
        into_leaf = core * (skin - leaf) + inner * (air - leaf) + 0.5 * people[k]
        return into_air / (6.5 * density * 1006.0), into_skin / 80e3, into_leaf / 300e3

    state = np.full(3, 18.0)
    for k in range(steps):
        span = (k * 300.0, (k + 1) * 300.0 - 1e-6)
        state = solve_ivp(slope, span, state, method="LSODA", rtol=1e-8, atol=1e-8).y[:, -1]
    assert found.temperature[:, -1] == pytest.approx(state, abs=1e-4)


def test_minutes_until_too_warm_agree_with_a_hand_calculation():
    # by hand: a tight, adiabatic-like room warms by Q t/C; 200 W into air and 100 kJ/K from 22 to 26 °C is 36 min
    wall = shell(core_resistance=1e4, leaf_heat_capacity=1e-2, inside_resistance=0.13)
    room = RoomNode("quiet", 6.5, contents_heat_capacity=100e3)
    drive = Drive(
        60.0,
        {"outside": np.full(120, 22.0)},
        np.full(120, 0.5),
        gains={("quiet", "equipment"): np.full(120, 200.0)},
    )
    minutes = minutes_until_too_warm(HeatNetwork((room,), (wall,)), drive, "quiet", 26.0, 22.0)
    capacity = 100e3 + 6.5 * 101_325.0 / (287.055 * 293.15) * 1006.0
    assert minutes == pytest.approx(capacity * 4.0 / 200.0 / 60.0, rel=0.01)


def test_the_design_day_is_hottest_after_noon_and_coldest_before_sunrise():
    # ASHRAE Fundamentals 2009 ch. 14, shares of the daily range (memory)
    day = design_day_temperature(32.0, 12.0, 300.0)
    assert 13.0 <= float(np.argmax(day)) / 12.0 <= 15.1
    assert 4.5 <= float(np.argmin(day)) / 12.0 <= 5.5
    assert float(day.max()) == pytest.approx(32.0, abs=0.01)
    assert float(day.min()) == pytest.approx(20.0, abs=0.05)


@pytest.mark.parametrize(("size", "stiffness"), [(5, 0.1), (20, 3.0), (60, 50.0), (96, 400.0)])
def test_the_exponential_is_that_of_another_program(size: int, stiffness: float) -> None:
    """Second opinion: the matrix exponential of SciPy."""
    from scipy.linalg import expm

    chosen = np.random.default_rng(size)
    matrix = -np.diag(chosen.random(size) * stiffness)
    matrix[: size // 2, size // 2 :] += 0.1 * chosen.random((size // 2, size - size // 2))
    assert np.allclose(_exponential(matrix), expm(matrix), rtol=1e-12, atol=1e-13)
