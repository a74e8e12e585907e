"""What the yard goes by where the rules of the trade differ."""

from typing import Any

from flask import url_for
from flask.typing import ResponseReturnValue

from yardapp.errors import NotFound
from yardapp.filters import day
from yardapp.forms import options
from yardapp.relaunch import services
from yardapp.relaunch.forms import PolicyForm
from yardapp.relaunch.views.door import bp
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot


@bp.get("/policies")
def policies() -> ResponseReturnValue:
    """Each question with the rival rules, and what the yard goes by."""
    current_who().must("see")
    with snapshot() as opened:
        chosen = services.policies(opened)
    return page("relaunch/policies.html", rows=[_row(one, chosen) for one in services.QUESTIONS.values()])


def _row(question: services.Question, chosen: dict[str, services.Chosen]) -> dict[str, Any]:
    settled = chosen.get(question.name)
    return {
        "question": question,
        "href": url_for("relaunch.policy_page", name=question.name),
        "settled": settled,
        "said": f"{settled.choice}, {settled.said_by}, {day(settled.at)}" if settled else "not settled yet",
    }


def _offer(form: PolicyForm, name: str) -> services.Question:
    question = services.QUESTIONS.get(name)
    if question is None:
        raise NotFound("There is no such question.")
    form.choice.choices = options((rival.name, f"{rival.name}. {rival.words}") for rival in question.rivals)
    return question


@bp.get("/policies/<name>")
def policy_page(name: str) -> ResponseReturnValue:
    """One question."""
    who = current_who()
    who.must("see")
    with snapshot() as opened:
        settled = services.policies(opened).get(name)
    form = filled(PolicyForm, choice=settled.choice if settled else None)
    return page("relaunch/policy_page.html", form=form, question=_offer(form, name), is_office=who.may("people"))


@bp.post("/policies/<name>")
def set_policy(name: str) -> ResponseReturnValue:
    """Settle it from here on."""
    form = filled(PolicyForm)
    question = _offer(form, name)
    if form.validate():
        with saving(form) as act:
            services.set_policy(act.session, act.who, name, form.choice.data or "", form.why.data or "")
            act.goes_to(url_for("relaunch.policies"), "Settled. Sheets say so from now on.")
        if act.answer:
            return kept(act)
    is_office = current_who().may("people")
    return refused("relaunch/policy_page.html", form, question=question, is_office=is_office)
