"""What every body and every reply is made of."""

from collections.abc import Iterable
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator, WithJsonSchema, create_model

from yardapp.api.sizes import SI_UNITS, K, Size
from yardapp.quantities import Kind

LARGEST_ID = 2**31 - 1
NO_CONTROLS = r"^[^\x00-\x1f\x7f]*$"
NO_CONTROLS_BUT_LINES = r"^[^\x00-\x08\x0b\x0c\x0e-\x1f\x7f]*$"


class Body(BaseModel):
    """What comes in: no name that is not known here, no text for a number."""

    model_config = ConfigDict(strict=True, extra="forbid", allow_inf_nan=False)


class Reply(BaseModel):
    """What goes out."""

    model_config = ConfigDict(frozen=True)


def _whole(sent: object) -> object:
    """7.0 is a whole number to JSON."""
    return int(sent) if isinstance(sent, float) and sent.is_integer() else sent


def _counted(sent: object) -> object:
    """An address carries text alone."""
    is_digits = isinstance(sent, str) and sent.isascii() and sent.isdigit() and len(sent) < 20
    return int(str(sent)) if is_digits else sent


# The bounds come before the validator: pydantic then knows them as bounds of the number.
Id = Annotated[int, Field(ge=1, le=LARGEST_ID), BeforeValidator(_whole)]
IdOrNone = Annotated[int, Field(ge=0, le=LARGEST_ID), BeforeValidator(_whole)]
Blade = Annotated[int, Field(ge=1, le=7), BeforeValidator(_whole)]
Blades = Annotated[int, Field(ge=2, le=7), BeforeValidator(_whole)]
CountAtOnce = Annotated[int, Field(ge=1, le=400), BeforeValidator(_whole)]
IdInAddress = Annotated[int, Field(ge=0, le=LARGEST_ID), BeforeValidator(_counted)]
Limit = Annotated[int, Field(ge=1, le=200), BeforeValidator(_counted)]
Hand = Literal["right", "left"]
Basis = Literal["measured", "stamped", "decoded", "paper", "guessed"]


Place = Annotated[str, Field(min_length=1, max_length=120, pattern=NO_CONTROLS)]
Name = Annotated[str, Field(min_length=1, max_length=80, pattern=NO_CONTROLS)]
Words = Annotated[str, Field(max_length=80, pattern=NO_CONTROLS)]
Note = Annotated[str, Field(max_length=2000, pattern=NO_CONTROLS_BUT_LINES)]
Line = Annotated[str, Field(max_length=300, pattern=NO_CONTROLS)]
TiedOn = Annotated[
    str,
    Field(max_length=20, pattern=NO_CONTROLS, description="A blank tag that it bears already; empty: the next one."),
]
LONGEST_TEXT = 60
Written = Annotated[str, Field(min_length=1, max_length=LONGEST_TEXT)]


class Figure(Reply):
    """One figure. `plus_minus` is two standard uncertainties (k = 2), null where nobody said how well it was read."""

    value: int | float | str
    unit: str | None = Field(description="SI; null for a word, 1 for a plain number.")
    plus_minus: float | None
    basis: str | None = Field(None, description="How it is known: measured, stamped, decoded, paper or guessed.")


class Assumed(Reply):
    """A text without a unit, and the unit that was assumed for it."""

    field: str
    typed: str
    why: str


def figure_of(
    value: float | str, kind: Kind | Literal["word"], u: float | None = None, basis: str | None = None
) -> Figure:
    """A figure of the register, with its ± as people read it."""
    if kind == "word":
        return Figure(value=value, unit=None, plus_minus=None, basis=basis)
    shown = int(value) if kind == "count" else float(value)
    return Figure(value=shown, unit=SI_UNITS[kind], plus_minus=None if u is None else K * u, basis=basis)


AnyBody = TypeVar("AnyBody", bound=Body)


def with_sizes(name: str, base: type[AnyBody], sizes: Iterable[Size]) -> type[AnyBody]:
    """`base` with two names for each size, text and SI, and a `plus_minus` beside them."""
    sizes = tuple(sizes)
    beside = [size for size in sizes if size.kind != "count"]
    plus_minus = create_model(
        f"{name}PlusMinus",
        __base__=Body,
        __doc__="± at k = 2: text with its unit under the plain name, or SI under the full one.",
        **_fields(beside, is_plus_minus=True),
    )
    optional: Any = (plus_minus | None, Field(None, description="How well each figure is known."))
    return create_model(name, __base__=base, __doc__=base.__doc__, **_fields(sizes), plus_minus=optional)


def _fields(sizes: Iterable[Size], *, is_plus_minus: bool = False) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for size in sizes:
        if size.plain == size.name:
            of_n = "; as text of N in 1:N" if is_plus_minus and size.kind == "taper" else ""
            either = Field(None, description=f"{size.says}, as text or as a number{of_n}.")
            made[size.name] = (_either(size, is_plus_minus) | None, either)
            continue
        made[size.plain] = (Written | None, Field(None, description=f"{size.says}, as it is written."))
        made[size.name] = (_number(size, is_plus_minus) | None, Field(None, description=f"{size.says}, {size.unit}."))
    return made


def _number(size: Size, is_plus_minus: bool) -> Any:
    return Annotated[float, Field(le=size.at_most, **_above(size, is_plus_minus))]


def _above(size: Size, is_plus_minus: bool) -> dict[str, Any]:
    if is_plus_minus:
        return {"ge": 0.0}
    return {"gt": 0.0} if size.least is None else {"ge": size.least}


def _either(size: Size, is_plus_minus: bool) -> Any:
    """Text or a number under one name."""
    above = _above(size, is_plus_minus)
    bounds = {"minimum": above["ge"]} if "ge" in above else {"exclusiveMinimum": above["gt"]}
    number = {"type": "integer" if size.kind == "count" else "number", "maximum": size.at_most, **bounds}

    def checked(sent: object) -> object:
        sent = _whole(sent)
        if isinstance(sent, int if size.kind == "count" else int | float) and not isinstance(sent, bool):
            if sent <= size.at_most and (sent >= above["ge"] if "ge" in above else sent > above["gt"]):
                return sent
        elif isinstance(sent, str) and 0 < len(sent) <= LONGEST_TEXT:
            return sent
        least = f"from {above['ge']:g}" if "ge" in above else "above zero"
        raise ValueError(f"must be text, or a number {least} up to {size.at_most:g}.")

    schema = {"anyOf": [{"type": "string", "minLength": 1, "maxLength": LONGEST_TEXT}, number]}
    return Annotated[str | float, PlainValidator(checked), WithJsonSchema(schema)]
