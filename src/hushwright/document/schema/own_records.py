"""Records of the workshop's own, beside those of the library."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, quantity, section, words
from hushwright.document.schema.brief import Octaves

SOURCE = "where the values come from; printed beside every use"


class OwnSheet(Section):
    """A sheet."""

    name: str = words("Name used in the layers.")
    source: str = words("Where the values come from.", descriptive=SOURCE)
    density: Quantity = quantity("density", "Density.", low=20, high=20000)
    youngs_modulus: Quantity = quantity("modulus", "Young's modulus along the height.", low=1e6, high=5e11)
    youngs_modulus_across: Quantity | None = quantity(
        "modulus", "Young's modulus across; left out it is the same.", low=1e6, high=5e11, default=None
    )
    poisson: Quantity = quantity("count", "Poisson's ratio.", low=0, high=0.49, default="0.3")
    loss_factor: Quantity = quantity("count", "Loss factor as mounted.", low=1e-5, high=1, default="0.02")


class OwnLimp(Section):
    """A limp barrier."""

    name: str = words("Name used in the layers.")
    source: str = words("Where the values come from.", descriptive=SOURCE)
    density: Quantity = quantity("density", "Density.", low=100, high=20000)


class OwnBlanket(Section):
    """A porous blanket."""

    name: str = words("Name used in the layers.")
    source: str = words("Where the values come from.", descriptive=SOURCE)
    flow_resistivity: Quantity = quantity("flow_resistivity", "Airflow resistivity.", low=100, high=1e7)
    density: Quantity = quantity("density", "Density.", low=1, high=500)
    porosity: Quantity = quantity("share", "Open share of the volume.", low=0.3, high=1, default="97 %")
    tortuosity: Quantity = quantity("count", "Tortuosity.", low=1, high=4, default="1.0")


class OwnSeal(Section):
    """A seal."""

    name: str = words("Name used in `seals`.")
    source: str = words("Where the values come from.", descriptive=SOURCE)
    residual_gap: Quantity = quantity("length", "Slit that workmanship leaves; best a range.", low=0, high=0.01)


class OwnSpectrum(Section):
    """Octave levels of an outdoor situation."""

    name: str = words("Name used in `outdoors`.")
    source: str = words("Where the values come from.", descriptive=SOURCE)
    octaves: Octaves = section("Octave levels.")


class OwnRecords(Section):
    """Records of the workshop's own."""

    sheets: tuple[OwnSheet, ...] = section("Sheets.", default=())
    limp_barriers: tuple[OwnLimp, ...] = section("Limp barriers.", default=())
    blankets: tuple[OwnBlanket, ...] = section("Blankets.", default=())
    seals: tuple[OwnSeal, ...] = section("Seals.", default=())
    situations: tuple[OwnSpectrum, ...] = section("Outdoor situations.", default=())
