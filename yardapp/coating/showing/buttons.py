"""What may be tapped of each blade as it stands: one tap is one act."""

from dataclasses import dataclass, replace

from yardapp.coating.acts import FINGER
from yardapp.coating.portion import portion_m3
from yardapp.coating.services import Story
from yardapp.coating.standing import Next, Standing, UnitStanding

LABELS = {
    "started": "Started",
    "done": "Done",
    "tacky": "Tacky: imprint, nothing on the glove",
    "wet": "Still wet",
    "too dry": "Too dry",
    "remedied": "Put right",
    "stirring": "Stirring now",
    "mixed": "Mixed, ready",
}
BY_PHASE = {
    "to do": ("started",),
    "open": ("started",),
    "running": ("done",),
    "waiting": ("tacky", "wet", "too dry"),
    "test": ("tacky", "wet", "too dry"),
    "unknown": ("tacky", "wet", "too dry", "started"),
    "missed": ("remedied", "started"),
}


@dataclass(frozen=True, kw_only=True)
class Button:
    """One tap: what is sent, what stands on it, how a phone without network tells of it."""

    value: str
    label: str
    words: str
    main: bool = False


def button(kind: str, unit: str, step: int | None, on: str, *, main: bool = False) -> Button:
    """The button of one act on one blade or piece."""
    label = LABELS[kind]
    return Button(value=f"{kind}|{unit}|{'' if step is None else step}", label=label, words=f"{on}: {label}", main=main)


def buttons_of(first: Next | None, story: Story, standing: Standing) -> list[Button]:
    """The acts of what is to be done now: one tap is all it takes."""
    if first is None:
        return []
    if first.act in ("stirring", "mixed"):
        return _of_pot(first, story, standing)
    unit = next((one for one in standing.units if one.key == first.unit), None)
    return [*acts_of(story, unit), *_on_all(story, unit)] if unit is not None else []


def _of_pot(first: Next, story: Story, standing: Standing) -> list[Button]:
    """Stirring; then mixed, as much as the coats to come need, or another amount that is said later."""
    value = f"{first.act}||{'' if first.step is None else first.step}|{first.product}"
    amount_ml = _amount_ml(first, story, standing) if first.act == "mixed" else None
    if amount_ml is None:
        return [Button(value=value, label=LABELS[first.act], words=first.name, main=True)]
    ready, other = f"Mixed {amount_ml} ml", "Mixed another amount"
    return [
        Button(value=f"{value}|{amount_ml}", label=ready, words=f"{first.name}: {ready}", main=True),
        Button(value=value, label=other, words=f"{first.name}: {other}"),
    ]


def _amount_ml(first: Next, story: Story, standing: Standing) -> int | None:
    product = story.system.product(first.product)
    areas_m2 = {unit.key: unit.area_m2 for unit in story.units if unit.area_m2 is not None}
    metals_c = [one.metal_c for one in story.run.readings if one.metal_c is not None]
    if product is None:
        return None
    amount_m3 = portion_m3(
        story.system,
        product,
        standing.ops,
        areas_m2,
        now_s=standing.now_s,
        metal_c=metals_c[-1] if metals_c else None,
        loss_ratio=story.job.loss_ratio,
    )
    return None if amount_m3 is None else round(amount_m3 * 1e6)


def acts_of(story: Story, unit: UnitStanding) -> list[Button]:
    """What may be tapped of one blade or piece as it stands."""
    found = [one for kind in BY_PHASE.get(unit.phase, ()) for one in _acts(story, unit, kind)]
    return [replace(one, main=number == 0 and unit.phase != "missed") for number, one in enumerate(found)]


def _acts(story: Story, unit: UnitStanding, kind: str) -> list[Button]:
    run = story.run.unit(unit.key)
    if kind in FINGER:
        step = unit.touch_step if unit.touch_step is not None else run.last.step if run.last else None
        is_tested = step is not None and story.system.test_after(step) is not None
        return [button(kind, unit.key, step, _on(story, unit, step))] if is_tested else []
    if run.next is None:
        return []
    if kind == "remedied":
        return _remedies(story, unit, run.next)
    return [button(kind, unit.key, run.next, _on(story, unit, run.next))]


def _remedies(story: Story, unit: UnitStanding, step: int) -> list[Button]:
    """Put right, and from where it goes on: with the coat that waits, or again from one that is on."""
    on = _on(story, unit, step)
    ways = [("", f"Put right: {story.system.steps[step].name} follows")]
    ways += [
        (str(coat.step), f"Put right: again from {coat.name}") for coat in story.run.unit(unit.key).coats(story.system)
    ]
    return [Button(value=f"remedied|{unit.key}|{again}", label=label, words=f"{on}: {label}") for again, label in ways]


def _on(story: Story, unit: UnitStanding, step: int | None) -> str:
    return unit.label if step is None else f"{unit.label}, {story.system.steps[step].name}"


def _on_all(story: Story, unit: UnitStanding) -> list[Button]:
    """What goes before the coats is done on all of them together, as often as not."""
    step = story.run.unit(unit.key).next
    if step is None or story.system.steps[step].is_coat or len(story.units) == 1:
        return []
    there = [one for one in story.run.units if one.next == step]
    name = story.system.steps[step].name
    label = "Done on all"
    return [Button(value=f"done||{step}", label=label, words=f"{name}: done on all")] if len(there) > 1 else []


def further(story: Story, unit: UnitStanding) -> list[tuple[str, list[Button]]]:
    """Every act of this step and the next: without network the page can't tell what comes, so it offers them all."""
    run = story.run.unit(unit.key)
    steps = [step for step in story.system.chain if run.next is not None and step >= run.next][:2]
    if run.last is not None:
        steps.insert(0, run.last.step)
    found = []
    for step in steps:
        kinds = [] if run.last is not None and step == run.last.step else ["started", "done"]
        kinds += FINGER if story.system.test_after(step) is not None else ()
        on = _on(story, unit, step)
        found.append((story.system.steps[step].name, [button(kind, unit.key, step, on) for kind in kinds]))
    return [(name, buttons) for name, buttons in found if buttons]
