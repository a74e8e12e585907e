"""Whatever is tapped, in whatever order, with whatever weather: the job stands, and says the same to everybody."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.coating.clock import Beside
from tests.coating.systems import MINUTE
from yardapp.coating.acts import ACTS, Act
from yardapp.coating.faults import FAULTS, UNKNOWNS
from yardapp.coating.running import run
from yardapp.coating.shipped import shipped
from yardapp.coating.standing import PHASES, standing
from yardapp.coating.weather import Reading

READINGS = st.builds(
    Reading,
    at_s=st.just(0.0),
    air_c=st.none() | st.floats(-5, 40),
    metal_c=st.none() | st.floats(-5, 40),
    relative_humidity=st.none() | st.floats(0.05, 1.0),
    wet_bulb_c=st.none() | st.floats(0, 40),
)


@st.composite
def taps(draw, system, most=40):
    steps = st.sampled_from([*system.chain, *range(len(system.steps))])
    products = st.sampled_from([product.name for product in system.products])
    acts, at_min = [], 0.0
    for number in range(1, draw(st.integers(0, most)) + 1):
        at_min += draw(st.sampled_from([0, 1, 5, 12, 30]))
        kind = draw(st.sampled_from(ACTS))
        acts.append(
            Act(
                number=number,
                kind=kind,
                at_s=at_min * MINUTE,
                unit=draw(st.sampled_from(["p.1", "p.2", "p.3", ""])),
                step=draw(steps) if kind != "remedied" else draw(st.none() | steps),
                product=draw(products),
                reading=draw(READINGS) if kind == "weather" else None,
                people=draw(st.integers(1, 4)) if kind == "people" else None,
                undoes=draw(st.integers(1, max(1, number - 1))) if kind == "undo" else None,
            )
        )
    return acts


SYSTEMS = [Beside().job.system, *shipped()]
JOBS = st.sampled_from(SYSTEMS).flatmap(lambda system: st.tuples(st.just(system), taps(system)))


@settings(max_examples=150, deadline=None)
@given(JOBS, st.floats(0, 3000))
def test_any_taps_leave_a_job_that_stands(told, at_min):
    system, acts = told
    beside = Beside(system, people=2, launch_s=5000 * MINUTE)
    told = run(beside.job, acts)
    now = standing(told, at_min * MINUTE)

    assert {unit.phase for unit in now.units} <= set(PHASES)
    assert sorted(unit.order for unit in now.units) == [0, 1, 2]
    assert now.changes_at_s is None or now.changes_at_s > now.now_s
    assert {fault.kind for fault in now.faults} <= {*FAULTS, *UNKNOWNS}
    assert all(fault.remedy for fault in now.faults)
    assert {one.number for one in told.ignored} <= {act.number for act in acts}
    for unit in told.units:
        assert [done.step for done in unit.done] == sorted({done.step for done in unit.done})


@settings(max_examples=80, deadline=None)
@given(JOBS, st.randoms())
def test_every_phone_that_has_the_same_acts_sees_the_same_job(told, random):
    system, acts = told
    job = Beside(system).job
    shuffled = list(acts)
    random.shuffle(shuffled)

    assert run(job, shuffled) == run(job, acts)


@settings(max_examples=80, deadline=None)
@given(JOBS)
def test_what_is_tapped_twice_in_a_row_leaves_blades_as_if_tapped_once(told):
    system, acts = told
    job = Beside(system).job
    steps = [act for act in acts if act.kind in ("started", "done")]
    once = [replace(act, number=2 * place + 1) for place, act in enumerate(steps)]
    twice = [replace(act, number=act.number + again) for act in once for again in (0, 1)]

    assert [unit.done for unit in run(job, twice).units] == [unit.done for unit in run(job, once).units]


@settings(max_examples=80, deadline=None)
@given(JOBS)
def test_undoing_the_last_tap_gives_back_what_stood_before(told):
    system, acts = told
    acts = [act for act in acts if act.kind != "undo"]
    if acts:
        job = Beside(system).job
        undo = Act(number=len(acts) + 100, kind="undo", at_s=acts[-1].at_s, undoes=acts[-1].number)

        assert run(job, [*acts, undo]).units == run(job, acts[:-1]).units
