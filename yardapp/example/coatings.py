"""Coating in the invented yard: jobs of years past and how they looked since, one that is planned, one that runs."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

from yardapp.coating import services as coating
from yardapp.coating.hours import Hours
from yardapp.db import now
from yardapp.example.coaters import coat, the_clock_at
from yardapp.example.yard import Yard, ago, size

CLEAR, GREY = "Clear foul release on bronze", "Grey two-pack with a one-part finish"
HOURS = Hours(begins=time(8), ends=time(17), breaks=((time(12), time(12, 30)),))
# Product, part, batch, what is in it, days until it expires, where it stands.
OLD_TINS = (
    ("Bronze primer", "Primer base", "PB-71", "500 ml", -200, "Paint locker, shelf 4"),
    ("Bronze primer", "Primer hardener", "PH-40", "125 ml", -200, "Paint locker, shelf 4"),
    ("Clear coat", "", "CC-3", "500 ml", -200, "Paint locker, shelf 4"),
)
TINS = (
    ("Bronze primer", "Primer base", "PB-114", "1 l", 240, "Paint locker, shelf 1"),
    ("Bronze primer", "Primer hardener", "PH-62", "250 ml", 240, "Paint locker, shelf 1"),
    ("Clear coat", "", "CC-8", "750 ml", 90, "Paint locker, shelf 2"),
    ("Grey two-pack", "Grey base", "GB-31", "1.5 l", 400, "Paint locker, shelf 3"),
    ("Grey two-pack", "Grey hardener", "GH-30", "400 ml", 400, "Paint locker, shelf 3"),
    ("Etch wipe", "", "EW-5", "100 ml", 60, "Acid cupboard"),
)


def systems_and_stock(yard: Yard) -> None:
    """Both systems that come along, and two lockers of tins: what is left of the old ones is past its date."""
    with the_clock_at(ago(660)):
        for name in (CLEAR, GREY):
            yard.systems[name] = coating.take_shipped(yard.session, yard.who("Ada"), name)
        _into_stock(yard, OLD_TINS)
    with the_clock_at(ago(25)):
        _into_stock(yard, TINS)


def _into_stock(yard: Yard, tins: Sequence[tuple[str, str, str, str, int, str]]) -> None:
    today = datetime.now().astimezone().date()
    for product, part, batch, typed, days, place in tins:
        said: dict[str, Any] = {"product": product, "part": part, "batch": batch, "place": place}
        said |= {"volume_m3": size(typed, "volume"), "volume_m3_typed": typed}
        coating.add_tin(yard.session, yard.who("Finn"), said | {"expires_on": today + timedelta(days=days)})


def coats_of_past_years(yard: Yard) -> None:
    """Five propellers went back in with a coat, and most have been out again since."""
    _whole_life(yard, "Grumbling Fern, centre", 640, "brush", {300: "slime slime weed", 250: "coating gone"})
    _whole_life(yard, "Treacle Moon, centre", 590, "brush", {210: "slime weed weed", 190: "coating gone"})
    _whole_life(yard, "Old Biscuit, centre", 560, "brush", {290: "weed weed"}, late="1.2")
    _whole_life(yard, "Quiet Trombone, centre", 410, "brush", {30: "clean slime slime"})
    _whole_life(yard, "Feather Locomotive, centre", 300, "roller", {60: "slime slime shell few"})
    _put_right(yard, "Old Biscuit, centre")


def _put_right(yard: Yard, drive: str) -> None:
    """Ivy had looked at the boat beside her; what was really left of it was written down the week after."""
    row = coating.history_of(yard.session, yard.who("Ada"), yard.aboard(drive)).rows[0]
    for rating in row.ratings:
        why = "Ivy had looked at the Grumbling Fern beside her."
        coating.correct_rating(yard.session, yard.who("Finn"), rating.id, word="coating gone", why=why)


def _whole_life(yard: Yard, drive: str, days: int, way: str, looks: dict[int, str], *, late: str = "") -> None:
    """Coated so many days ago, launched two days later, and looked at since."""
    job_id = _plan(yard, drive, way, ago(days), title=f"{drive.split(',')[0]}, propeller")
    done = coat(yard, "Finn", job_id, ago(days), late=late)
    with the_clock_at(done + timedelta(minutes=20)):
        rest = {"product": "Bronze primer", "volume_m3": 15e-6, "volume_m3_typed": "15 ml", "fate": "thrown out"}
        coating.act(yard.session, yard.who("Finn"), job_id, coating.Tap(kind="left over", figures=rest))
    with the_clock_at(done + timedelta(days=2)):
        coating.act(yard.session, yard.who("Finn"), job_id, coating.Tap(kind="launched"))
        coating.close_job(yard.session, yard.who("Ada"), job_id)
    piece = coating.story_of(yard.session, yard.who("Ada"), job_id).pieces[0]
    for since, said in looks.items():
        words = _by_blade(said, piece.blades)
        coating.rate(yard.session, yard.who("Ivy"), piece.id, words, at=ago(since), note="Before washing.")


def _by_blade(said: str, blades: int) -> dict[int | None, str]:
    """A word for each blade; where fewer are given, the last one stands for the rest."""
    words = said.replace("shell few", "shell_few").replace("coating gone", "coating_gone").split()
    told = [words[min(number, len(words) - 1)].replace("_", " ") for number in range(max(blades, 1))]
    return {number + 1 if blades else None: word for number, word in enumerate(told)}


def _plan(yard: Yard, drive: str, way: str, at: datetime, *, title: str, launches: datetime | None = None) -> int:
    with the_clock_at(at):
        asked = coating.Asked(
            system_id=yard.systems[CLEAR],
            pieces=(_propeller(yard.aboard(drive)),),
            title=title,
            drive_id=yard.drives[drive],
            people=2,
            way=way,
            blade_s=300.0 if way == "roller" else 420.0,
            metal_c=18.0,
            starts=at,
            launches=launches,
        )
        return coating.plan_job(yard.session, yard.who("Ada"), asked).id


def _propeller(tag: str) -> coating.AskedPiece:
    return coating.AskedPiece(kind="propeller", name=tag, area_m2=0.32, area_m2_typed="0.32 m²")


def one_is_planned(yard: Yard) -> None:
    """A propeller and the small things around it, for a launch next week; the transducer waited for a letter."""
    drive = "Blue Umbrella, centre"
    tomorrow = datetime.combine(now().astimezone().date() + timedelta(days=1), time(8)).astimezone()
    pieces = (
        _propeller(yard.aboard(drive)),
        coating.AskedPiece(kind="bracket", name="Bracket", area_m2=0.14, area_m2_typed="0.14 m²", row=1),
        coating.AskedPiece(kind="shaft", name="Shaft", length_m=1.2, diameter_m=0.04, row=2),
        coating.AskedPiece(
            kind="transducer",
            name="Depth transducer",
            area_m2=0.01,
            area_m2_typed="100 cm²",
            allowed_by="Ada Brook, by the maker's letter",
            allowed_on=_days_before(9),
            row=3,
        ),
    )
    asked = coating.Asked(
        system_id=yard.systems[CLEAR],
        pieces=pieces,
        title="Blue Umbrella, propeller and shaft line",
        drive_id=yard.drives[drive],
        people=2,
        blade_s=420.0,
        metal_c=17.0,
        hours=HOURS,
        starts=tomorrow,
        launches=tomorrow + timedelta(days=6, hours=2),
        note="Owner wants it clear, not grey.",
    )
    coating.plan_job(yard.session, yard.who("Ada"), asked)


def _days_before(days: int) -> date:
    return ago(days).astimezone().date()


def one_is_running(yard: Yard) -> None:
    """Begun two hours ago, whenever that is: stripped, wiped, and the first coats on."""
    begun, drive = now() - timedelta(hours=1, minutes=58), "Eleven Oars, centre"
    launches = now() + timedelta(days=3)
    job_id = _plan(yard, drive, "brush", begun, title="Eleven Oars, propeller", launches=launches)
    coat(yard, "Finn", job_id, begun, until=now())
