"""Prices, labour, options and the budget."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words

AMOUNTS = ("piece", "m", "m2", "m3", "kg", "ft", "ft2", "ft3", "lb")
BUYS = (
    "donor van", "isolation", "room acoustics", "rooms", "air", "warmth and cooling", "power", "signals", "safety",
    "fittings", "workshop",
)  # fmt: skip


class Budget(Section):
    """What the client wants to spend."""

    total: Quantity = quantity("money", "Sum, in the currency of `prices`.", low=0, high=1e8)
    tax: str = choice("Whether the sum is meant with or without tax.", ("with", "without"), default="without")


class Price(Section):
    """What one thing of the build costs, or who pays for it."""

    of: str = words("Record of the library, name of a fitting, fan or other part, or a kind: `seal`, `grille`, `bend`.")
    size: Quantity | None = quantity(
        "length", "Thickness or diameter it holds for; left out, every one that has no price of its own.", low=0,
        high=10, default=None,
    )  # fmt: skip
    price: Quantity | None = quantity("money", "Price of one unit, without tax.", low=0, high=1e7, default=None)
    per: str = choice("Unit it is sold by.", AMOUNTS, default="piece")
    pack: Quantity | None = quantity("count", "How many units are sold together, for whole sheets, rolls and boxes.",
                                     low=1e-3, high=1e5, default=None)  # fmt: skip
    waste: Quantity | None = quantity("share", "Added for offcuts; left out, nothing.", low=0, high=1, default=None)
    plates: Quantity | None = quantity(
        "count", "Packs that are bought of a board: the plates of its layout for the saw; left out, by area and waste.",
        low=1, high=1000, default=None,
    )  # fmt: skip
    width: Quantity | None = quantity(
        "length", "Width of the roll or slab that wool, mat or foam comes in; as many packs are bought as the strips "
        "on the sheet of rolls take, without waste; left out, by area and waste.", low=0.05, high=6, default=None,
    )  # fmt: skip
    covered_by: str = words(
        "What pays for it instead of a price: another part, `client`, `included` in what it comes with.", default=""
    )
    currency: str = words("Its currency where it is another one; `rates` says what that costs.", default="")
    tax: Quantity | None = quantity("share", "Its rate of tax where it is another one.", low=0, high=0.5, default=None)
    buys: str = choice("What it is bought for; left out, by where it is built in.", ("", *BUYS), default="")
    date: str = words("Date of the price, as 2026-05-04; one older than half a year is told.", default="")
    supplier: str = words("Kind of supplier it is from.", default="", descriptive="printed in the purchase list")
    note: str = words("Remark.", default="", descriptive="printed in the purchase list")


class Prices(Section):
    """Prices of the workshop."""

    currency: str = words("Three letters of the currency, `EUR`.")
    tax: Quantity | None = quantity("share", "Tax on what is sold; left out, none is added.", low=0, high=0.5,
                                    default=None)  # fmt: skip
    markup: Quantity | None = quantity("share", "Added to bought material for its handling; left out, nothing.", low=0,
                                       high=3, default=None)  # fmt: skip
    contingency: Quantity | None = quantity(
        "share", "Added to the sum for what nobody foresaw; left out, nothing.", low=0, high=1, default=None
    )
    spread: Quantity = quantity(
        "share", "How closely prices without a range of their own are known, all together, plus or minus.", low=0,
        high=1, default="10 %",
    )  # fmt: skip
    rates: dict[str, Quantity] = quantity(
        "count", "What one unit of another currency costs in this one, by its three letters.", low=1e-6, high=1e6,
        default={},
    )  # fmt: skip
    items: tuple[Price, ...] = section("What things cost.", default=())


class Operation(Section):
    """A job of the workshop, in the order in which jobs are done."""

    operation: str = words("Name of the job.")
    trade: str = words("Trade that does it, for its rate; left out, the common rate.", default="")
    to: tuple[str, ...] = words("Things it is done to: names or kinds as in `prices`; left out, to the van as a whole.",
                                default=())  # fmt: skip
    per: str = choice("What the time is for: one unit of these things, or the whole job.", ("job", *AMOUNTS),
                      default="job")  # fmt: skip
    time: Quantity = quantity("time", "Time of one person for it.", low=0, high=3.6e6)
    buys: str = choice("What it is done for; left out, by what it is done to.", ("", *BUYS), default="")
    hold_point: str = words(
        "Name of the hold point that follows: nobody goes on before its sheet is signed.", default="",
        descriptive="printed on the job card",
    )  # fmt: skip
    note: str = words("How it is done.", default="", descriptive="printed on the job card")


class Labour(Section):
    """Time and its price."""

    rate: Quantity = quantity("money", "Price of an hour, without tax.", low=0, high=1e5)
    rates: dict[str, Quantity] = quantity("money", "Price of an hour by trade.", low=0, high=1e5, default={})
    tax: Quantity | None = quantity("share", "Rate of tax on labour where it is another one.", low=0, high=0.5,
                                    default=None)  # fmt: skip
    spread: Quantity = quantity(
        "share", "How closely times without a range of their own are known, all together, plus or minus.", low=0,
        high=1, default="20 %",
    )  # fmt: skip
    operations: tuple[Operation, ...] = section("Jobs, in the order in which they are done.", default=())


class Edit(Section):
    """One value of the build file changed."""

    path: str = words("Its place, as `hushwright set` takes it.")
    to: str = words("The new value.")


class Option(Section):
    """An alternative that the client may choose: edits of this file, with a name."""

    name: str = words("Name in the quote.")
    edits: tuple[Edit, ...] = section("What changes.", default=())
    price: Quantity | None = quantity(
        "money", "Price without tax for what edits do not say; added to the difference that they make.", low=-1e7,
        high=1e7, default=None,
    )  # fmt: skip
    note: str = words("What it is good for.", default="", descriptive="printed in the quote")
