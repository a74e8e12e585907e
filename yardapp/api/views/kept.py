"""Keep a verdict, and read it again with what has changed since."""

from typing import Any

from yardapp.api.bodies import kept as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.api.views.fit import told_check
from yardapp.errors import NotFound, Refused
from yardapp.fit import services
from yardapp.fit.kept import checks_of
from yardapp.fit.showing import say_in


@reads("/fit/kept/{kept_id}", reply=bodies.Kept)
def kept_verdict(act: Act, kept_id: int) -> bodies.Kept:
    """A kept verdict, each premise then and now."""
    found = services.kept_verdict(act.session, act.who, kept_id)
    kept: Any = found.kept
    return bodies.Kept(
        id=kept.id,
        at=kept.at,
        said_by=kept.said_by,
        app_version=kept.app_version,
        tag=kept.tag,
        drive_id=kept.drive_id,
        drive=kept.drive,
        rule=kept.rule,
        note=kept.note,
        verdict=kept.verdict,
        lede=kept.lede,
        checks=[told_check(check) for check in checks_of(kept.checks)],
        premises=[
            bodies.Premise(
                figure=one.path,
                label=one.label,
                then=one.then,
                now=one.now,
                is_changed=one.is_changed,
                is_weighed=one.is_rested_on,
            )
            for one in found.premises
        ],
        perhaps_of=found.perhaps_of,
        holds=found.holds,
    )


def _made(act: Act, key: str) -> bodies.Kept:
    return kept_verdict(act, int(key))


@creates("/fit/keep", body=bodies.NewKept, reply=bodies.Kept, at="/fit/kept/{key}", shows=_made)
def keep_verdict(act: Act, said: bodies.NewKept) -> str:
    """Keep the verdict on a pair of the register as it stands now."""
    say = say_in(act.who.units)
    try:
        made = services.keep_verdict(
            act.session, act.who, said.tag, said.drive_id, rule=said.rule, note=said.note, say=say
        )
    except NotFound as refusal:
        raise Refused(str(refusal), "drive_id" if "drive" in str(refusal) else "tag") from None
    return str(made.id)
