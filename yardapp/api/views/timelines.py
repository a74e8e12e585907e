"""What happened to a thing, a boat, a drive and by a person; what was on a boat on a day; whether a thing was here."""

from typing import Any

from yardapp.api.bodies import timelines as bodies
from yardapp.api.door import Act, reads
from yardapp.api.views import items
from yardapp.errors import Refused
from yardapp.gear import services
from yardapp.people import services as people
from yardapp.timeline_forms import end_of, start_of
from yardapp.timelines import Asked


def _asked(asked: Any) -> Asked:
    if asked.since and asked.until and asked.until < asked.since:
        raise Refused("The last day is before the first one: turn the two about.", "until")
    return Asked(
        group=getattr(asked, "group", ""),
        since=start_of(asked.since),
        until=end_of(asked.until),
        after=asked.after,
        limit=asked.limit,
    )


def _told(found: services.Timeline) -> bodies.Timeline:
    moments = [bodies.MomentTold.model_validate(one, from_attributes=True) for one in found.moments]
    return bodies.Timeline(moments=moments, after=found.further)


@reads("/items/{tag}/timeline", query=bodies.ItemTimelineAsked, reply=bodies.Timeline)
def item_timeline(act: Act, asked: bodies.ItemTimelineAsked, tag: str) -> bodies.Timeline:
    """All that happened to a thing, under each tag that it has had."""
    return _told(services.item_timeline(act.session, act.who, tag, _asked(asked)))


@reads("/vessels/{vessel_id}/timeline", query=bodies.BoatTimelineAsked, reply=bodies.Timeline)
def boat_timeline(act: Act, asked: bodies.BoatTimelineAsked, vessel_id: int) -> bodies.Timeline:
    """All that happened to a boat, to her drives while they stood in her, and what went on and off."""
    return _told(services.boat_timeline(act.session, act.who, vessel_id, _asked(asked)))


@reads("/drives/{drive_id}/timeline", query=bodies.DriveTimelineAsked, reply=bodies.Timeline)
def drive_timeline(act: Act, asked: bodies.DriveTimelineAsked, drive_id: int) -> bodies.Timeline:
    """All that happened to a drive; an owner sees what happened in the owner's own boat."""
    return _told(services.drive_timeline(act.session, act.who, drive_id, _asked(asked)))


@reads("/people/{person_id}/timeline", query=bodies.TimelineAsked, reply=bodies.PersonTimeline, errors=(403,))
def person_timeline(act: Act, asked: bodies.TimelineAsked, person_id: int) -> bodies.PersonTimeline:
    """What a person did: the office sees everybody's acts, all others their own."""
    name, moments, after = people.person_timeline(act.session, act.who, person_id, _asked(asked))
    acts = [
        bodies.Done(at=one.at, act=one.kind, subject=one.word, subject_id=one.place, name=one.tag, device=one.said_by)
        for one in moments
    ]
    return bodies.PersonTimeline(name=name, acts=acts, after=after)


@reads("/vessels/{vessel_id}/aboard", query=bodies.DayAsked, reply=bodies.AboardThen)
def aboard_on(act: Act, asked: bodies.DayAsked, vessel_id: int) -> bodies.AboardThen:
    """What was on each of her drives at the end of a day, however long ago."""
    at = end_of(asked.day)
    assert at is not None
    vessel, lines = services.aboard_on(act.session, act.who, vessel_id, at)
    drives = [
        bodies.DriveThen(drive_id=stay.drive_id, position=stay.position, items=[_there(one) for one in things])
        for stay, things in lines
    ]
    return bodies.AboardThen(vessel_id=vessel.id, boat=vessel.name, day=asked.day, drives=drives)


def _there(one: services.OnThatDay) -> bodies.ThereThen:
    return bodies.ThereThen(item=items.listed(one.row), since=one.since, until=one.until)


@reads("/items/{tag}/seen-before", reply=bodies.SeenBefore, errors=(403,))
def seen_before(act: Act, tag: str) -> bodies.SeenBefore:
    """A thing held beside every other of its kind: which may it be, sold, lost and stolen ones too?"""
    found = services.seen_before(act.session, act.who, tag)
    return bodies.SeenBefore(
        tag=found.item.tag, serials=list(found.serials), found=[_may_be(one) for one in found.found]
    )


def _may_be(one: services.Lookalike) -> bodies.MayBe:
    return bodies.MayBe(
        item=items.listed(one.row),
        is_gone=one.is_gone,
        is_serial=one.like.is_serial,
        agreed=list(one.like.agreed),
        changed=list(one.like.changed),
        since=one.since,
    )
