"""Factors of conversion against NIST SP 811 (2008), appendix B, to the seven digits printed there.

Found in a public transcription of that appendix, all but the pound per square foot (from memory).
"""

import pytest

from hushwright.units import parse_quantity

NIST_SP_811 = [
    ("1 in", "length", 0.0254),
    ("1 ft", "length", 0.3048),
    ("1 ft3", "volume", 0.02831685),
    ("1 lb", "mass", 0.4535924),
    ("1 lb/ft3", "density", 16.01846),
    ("1 lb/ft2", "surface_density", 4.882428),  # memory
    ("1 psi", "pressure", 6894.757),
    ("1 inH2O", "pressure", 249.0889),  # inch of water, conventional
    ("1 cfm", "volume_flow", 4.719474e-4),
    ("1 km/h", "speed", 0.2777778),
    ("3600 mph", "speed", 1609.344),  # mile [m]
    ("3600 BTU/h", "power", 1055.056),  # BTU (IT) per second
    ("1 kWh", "energy", 3.6e6),
    ("1 lbf", "force", 4.448222),
    ("1 lbf/ft", "force_per_length", 14.5939),
    ("1 lbf/in", "stiffness", 175.1268),
]


@pytest.mark.parametrize(("text", "kind", "printed"), NIST_SP_811)
def test_a_factor_agrees_with_nist_sp_811(text, kind, printed):
    assert parse_quantity(text, kind).value == pytest.approx(printed, rel=5e-7)


def test_fahrenheit_meets_celsius_where_nist_sp_811_says():
    # t/°C = (t/°F − 32)/1.8, NIST SP 811 (2008), B.8 (memory)
    for fahrenheit in (-40.0, 32.0, 212.0):
        got = parse_quantity(f"{fahrenheit} °F", "temperature").value
        assert got == pytest.approx((fahrenheit - 32) / 1.8, abs=1e-12)
