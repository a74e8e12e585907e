"""Pairs for the two shafts of one boat: in stock, or two that were named."""

from typing import Literal

from pydantic import Field

from yardapp.api.bodies.base import Body, IdInAddress, Reply
from yardapp.api.bodies.fit import Check, Word
from yardapp.api.bodies.stock import GO_ON, Judged, Part


class PairsAsked(Body):
    """What the pairs are narrowed down by."""

    place: Part = Field("", description="Part of where they are.")
    boat: Part = Field("", description="Part of a name or owner of the boat that they are on or came off.")
    aboard: Literal["yes", "no"] = Field("no", description="Those that are on boats too.")
    for_sale: Literal["yes", "no"] = Field("no", description="Only what is for sale.")
    drive: IdInAddress | None = Field(None, description="A drive near whose shaft their bores must be.")
    first: IdInAddress = Field(0, description=GO_ON)


class PairRow(Judged):
    """A right-hand and a left-hand propeller that are alike."""

    right: str
    left: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    where: list[str] = Field(description="Where each of them is, the right one first.")


class Pairs(Reply):
    """A page of pairs, the most alike first."""

    drive: str = Field(description="The drive that was asked for; empty where none was.")
    rows: list[PairRow]
    further: int | None = Field(description="From where the next page goes on; null on the last.")


class PairVerdict(Reply):
    """Two propellers side by side: hands, sizes within the class, blades, open faults."""

    right: str
    left: str
    verdict: Word
    lede: str
    checks: list[Check]
    works: list[str] = Field(description="Work that would make a pair of them, cheapest first.")
