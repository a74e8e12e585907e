from dataclasses import replace

import pytest

from tests.coating.systems import PRIMER, two_primers_and_a_top, window
from yardapp.coating.checking import SystemRefused, check
from yardapp.coating.exchange import from_json, to_json
from yardapp.coating.shipped import shipped
from yardapp.coating.system import Film, Limits, Part, Step, TimeAt, Window, WindowAt

SYSTEM = two_primers_and_a_top()


def with_step(number, **said):
    steps = list(SYSTEM.steps)
    steps[number] = replace(steps[number], **said)
    return replace(SYSTEM, steps=tuple(steps))


def with_primer(**said):
    return replace(SYSTEM, products=(replace(PRIMER, **said), SYSTEM.products[1]))


def rows(*given):
    return tuple(WindowAt(temperature_c=at_c, earliest_s=low, latest_s=high) for at_c, low, high in given)


def test_a_sound_system_has_no_problem():
    assert check(SYSTEM) == ()


@pytest.mark.parametrize(
    ("system", "path", "said"),
    [
        (
            with_step(1, window=Window(by_touch=True, rows=rows((10, 3600, 1800)))),
            "steps[1].window.rows[0].latest_s",
            "At 10 °C the latest is not after the earliest.",
        ),
        (
            with_step(1, window=Window(by_touch=True, rows=rows((20, 1, 9), (10, 1, 9)))),
            "steps[1].window.rows[1].temperature_c",
            "10 °C stands after 20 °C",
        ),
        (
            with_step(1, window=Window(by_touch=True, rows=rows((10, 1, 9), (20, 1, None)))),
            "steps[1].window.rows",
            "Either every row has a latest, or none has.",
        ),
        (with_step(1, window=window(20, 60, by_touch=False)), "steps[1].window.by_touch", "what would it decide?"),
        (with_step(1, window=None), "steps[1].window", "what would it decide?"),
        (with_step(6, window=window(1, 2)), "steps[6].window", "it has no window"),
        (with_step(1, product="Varnish"), "steps[1].product", "Varnish is not among the system's products."),
        (with_step(1, product=""), "steps[1].product", "Say which product Primer 1 uses."),
        (with_step(0, product="Clear"), "steps[0].product", "there is nothing to mix"),
        (with_step(1, kind="spray"), "steps[1].kind", "'spray' is no step."),
        (with_step(1, film=Film(dry_m=0)), "steps[1].film.dry_m", "The dry film must be above zero; this is 0."),
        (with_step(1, film=Film(dry_m=2e-4, wet_m=1e-4)), "steps[1].film.dry_m", "no thicker dry than wet"),
        (
            with_step(1, limits=Limits(metal_low_c=30, metal_high_c=10)),
            "steps[1].limits.metal_high_c",
            "The highest metal is not above the lowest.",
        ),
        (
            with_step(1, limits=Limits(metal_low_c=float("nan"))),
            "steps[1].limits.metal_low_c",
            "A limit lies from -45 to 60 °C",
        ),
        (
            with_step(1, limits=Limits(relative_humidity_most=85)),
            "steps[1].limits.relative_humidity_most",
            "85 % is 0.85",
        ),
        (
            with_primer(parts=(Part(name="Base", share=4), Part(name="Hardener", share=0))),
            "products[0].parts[1].share",
            "Hardener's share in the mix must be above zero; this is 0.",
        ),
        (with_primer(parts=()), "products[0].parts", "Primer has no part"),
        (with_primer(ratio_by="eye"), "products[0].ratio_by", "by volume or by weight"),
        (with_primer(solids_ratio=71), "products[0].solids_ratio", "71 % is 0.71"),
        (
            with_primer(pot_life=(TimeAt(temperature_c=20, time_s=60),)),
            "products[0].pot_life[0].time_s",
            "past its pot life before its induction is over",
        ),
        (
            with_primer(pot_life=(TimeAt(temperature_c=70, time_s=600),)),
            "products[0].pot_life[0].temperature_c",
            "from -45 to 60 °C",
        ),
        (replace(SYSTEM, name=" "), "name", "Give the system a name."),
        (replace(SYSTEM, steps=()), "steps", "one coat or more"),
        (replace(SYSTEM, steps=(*SYSTEM.steps, Step(kind="strip"))), "steps[8].kind", "would take it off again"),
        (replace(SYSTEM, products=(*SYSTEM.products, PRIMER)), "products", "Two products are called Primer."),
    ],
)
def test_what_cannot_be_right_is_told_in_words_beside_its_place(system, path, said):
    problems = {problem.path: problem.said for problem in check(system)}

    assert path in problems
    assert said in problems[path]


def test_an_infinite_time_is_no_time():
    system = with_step(1, window=Window(by_touch=True, rows=rows((10, 1, float("inf")))))

    assert [problem.path for problem in check(system)] == ["steps[1].window.rows[0].latest_s"]


@pytest.mark.parametrize("system", shipped(), ids=lambda system: system.name)
def test_a_shipped_system_is_sound_and_says_that_its_figures_are_invented(system):
    assert check(system) == ()
    assert "invented" in system.notes
    assert from_json(to_json(system)) == system


def test_the_generic_bronze_sequence_is_that_of_the_trade():
    # The order of work for a clear coat on bronze: strip, solvent, etch, mix, coat, touch, coat, touch, clear, leave.
    kinds = [step.kind for step in shipped()[0].steps if step.kind != "stir"]

    assert kinds == [
        "strip",
        "degrease wipe",
        "etch wipe",
        "mix",
        "coat",
        "touch test",
        "coat",
        "touch test",
        "top coat",
        "leave alone",
    ]


@pytest.mark.parametrize(
    ("change", "path", "said"),
    [
        ({"version": "two"}, "version", "A whole number belongs here."),
        ({"version": True}, "version", "A whole number belongs here."),
        ({"steps": {}}, "steps", "A list belongs here."),
        ({"steps": [{"kind": "coat", "again_s": "soon"}]}, "steps[0].again_s", "A number belongs here."),
        ({"life_s": 10**400}, "life_s", "No sheet gives such a number."),
        ({"life_s": float("nan")}, "life_s", "No sheet gives such a number."),
        ({"colour": "red"}, "", "Nothing is called 'colour' here."),
        ({"products": [{"name": "Primer"}]}, "products[0]", "Something that must be said is missing here."),
        ({"foul_release": "yes"}, "foul_release", "Yes or no"),
    ],
)
def test_a_file_that_is_no_system_is_refused_with_its_place(change, path, said):
    with pytest.raises(SystemRefused) as refusal:
        from_json(to_json(SYSTEM) | change)

    assert refusal.value.problems[0].path == path
    assert said in refusal.value.problems[0].said


def test_a_file_whose_system_cannot_be_right_is_refused_with_every_reason():
    written = to_json(SYSTEM)
    written["products"][0]["parts"][0]["share"] = 0
    written["products"][1]["parts"][0]["share"] = -1

    with pytest.raises(SystemRefused) as refusal:
        from_json(written)

    assert [problem.path for problem in refusal.value.problems] == [
        "products[0].parts[0].share",
        "products[1].parts[0].share",
    ]
