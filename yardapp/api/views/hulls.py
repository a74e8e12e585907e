"""A boat's hull: look at what is known of it, change it."""

from typing import Any

from flask import g

from yardapp.api.bodies import hulls as bodies
from yardapp.api.bodies.base import figure_of
from yardapp.api.door import Act, changes, reads
from yardapp.api.views.items import figures_said
from yardapp.vessels import services


@reads("/vessels/{vessel_id}/hull", reply=bodies.Hull)
def hull(act: Act, vessel_id: int) -> bodies.Hull:
    """What is known of a boat's hull."""
    her = services.vessel_by_id(act.session, act.who, vessel_id)
    known = ((size, getattr(her, size.name)) for size in bodies.HULL_SIZES)
    return bodies.Hull(
        vessel_id=her.id,
        version=her.version,
        hull_kind=her.hull_kind,
        planing_kind=her.planing_kind,
        speed_power=her.speed_power or [],
        speed_power_kind=her.speed_power_kind,
        figures={size.name: figure_of(value, size.kind) for size, value in known if value is not None},
        typed={name: text for name, text in (her.hull_typed or {}).items() if text},
        assumed=g.get("assumed", []),
    )


@changes("/vessels/{vessel_id}/hull", body=bodies.HullChange, reply=bodies.Hull)
def set_hull(act: Act, said: bodies.HullWords, vessel_id: int) -> bodies.Hull:
    """Change what is known of a boat's hull; what stood before stays in her history."""
    sent = said.model_fields_set
    words: dict[str, Any] = {
        name: getattr(said, name) for name in (*services.HULL_WORDS, "speed_power") if name in sent
    }
    forgotten = {size.name: None for size in bodies.HULL_SIZES if sent & {size.plain, size.name}}
    figures: dict[str, Any] = {}
    for name, one in figures_said(said, bodies.HULL_SIZES).items():
        figures |= {name: one.value, f"{name}_typed": one.typed}
    services.set_hull(act.session, act.who, vessel_id, said.version, words | forgotten | figures)
    return hull(act, vessel_id)
