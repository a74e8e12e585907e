"""Every "no" of the API: a problem document (RFC 9457), with a sentence for each field that can't stand."""

from collections.abc import Iterable, Mapping
from http import HTTPStatus
from typing import Any

from flask import Response, current_app, g, request
from pydantic import BaseModel, Field, ValidationError
from werkzeug.exceptions import HTTPException

from yardapp.errors import NotAllowed, NotFound, OutsideRange, Refused, Superseded

MEDIA_TYPE = "application/problem+json"
NOWHERE = "There is nothing at this address."
WRONG_FIELDS = "Some fields can't stand as they are. Nothing was saved."
# What pydantic calls each of several bodies that one may be; none is a name within which another was sent.
SHEETS = ("pitch", "diameter", "bore", "survey", "alike", "area", "wear", "run_out", "shaft_end", "bearing")
ALTERNATIVES = frozenset({*SHEETS, "by tag", "by figures", "by number"})
# What pydantic finds, in our words; the rest it says itself.
SENTENCES = {
    "missing": "is missing.",
    "extra_forbidden": "is no name that is known here.",
    "string_type": "must be text.",
    "string_too_long": "has more than {max_length} characters.",
    "string_too_short": "is empty.",
    "string_pattern_mismatch": "holds a character that can't be kept.",
    "int_type": "must be a whole number.",
    "float_type": "must be a number.",
    "finite_number": "must be a number.",
    "bool_type": "must be true or false.",
    "literal_error": "must be one of {expected}.",
    "greater_than": "must be above {gt:g}.",
    "greater_than_equal": "must be at least {ge:g}.",
    "less_than": "must be below {lt:g}.",
    "less_than_equal": "must be at most {le:g}.",
    "model_type": "must be an object of names and values.",
    "model_attributes_type": "must be an object of names and values.",
    "list_type": "must be a list.",
    "value_error": "{error}",
    "union_tag_invalid": "must be one of {expected_tags}.",
    "union_tag_not_found": "is missing.",
}


class Wrong(BaseModel):
    """One field that can't stand."""

    field: str = Field(description="The name as it was sent, with dots between names; empty for the whole.")
    said: str = Field(description="A sentence: what was read, what is wrong, what would do.")


class Problem(BaseModel):
    """A "no" in the form of RFC 9457."""

    type: str = "about:blank"
    title: str
    status: int
    detail: str
    errors: list[Wrong] = []


class Conflict(Problem):
    """Somebody saved the same record first: what stands there now, and the version to send next."""

    version: int = Field(description="The version that stands there now.")
    sent_version: int | None = Field(description="The version that your change was made on.")
    theirs: dict[str, str] = Field(description="What stands there now, as it was typed.")
    by: str = Field(description="Who saved it.")


class Unfit(Exception):
    """What was sent can't stand: one sentence for each field."""

    def __init__(self, wrong: Iterable[tuple[str, str]], detail: str = WRONG_FIELDS, status: int = 422) -> None:
        super().__init__(detail)
        self.wrong = tuple(wrong)
        self.detail = detail
        self.status = status


def unfit(refusal: ValidationError) -> Unfit:
    """What pydantic found: 400 for what is no JSON at all, 422 for what does not fit the document."""
    found = refusal.errors(include_url=False, include_input=False)
    if found[0]["type"] == "json_invalid":
        return Unfit((), "The body is no JSON text in UTF-8.", 400)
    return Unfit([(_field(one), _sentence(one)) for one in found])


def _field(one: Any) -> str:
    """The name as it was sent; which of several bodies it was held against is no part of it."""
    *within, last = [str(step) for step in one["loc"]] or [""]
    steps = [step for step in within if step not in ALTERNATIVES]
    if last and not last.startswith("by "):
        steps.append(last)
    if one["type"].startswith("union_tag"):
        steps.append(one["ctx"]["discriminator"].strip("'"))
    return ".".join(steps)


def _sentence(one: Any) -> str:
    known = SENTENCES.get(one["type"])
    said = known.format(**one.get("ctx", {})) if known else f"{one['msg']}."
    return said[:1].upper() + said[1:]


def answer(problem: Problem, headers: Mapping[str, str] | None = None) -> Response:
    """The problem as a response."""
    return Response(problem.model_dump_json(), problem.status, headers, mimetype=MEDIA_TYPE)


def no(
    status: int, detail: str, wrong: Iterable[tuple[str, str]] = (), headers: Mapping[str, str] | None = None
) -> Response:
    """A plain "no"."""
    errors = [Wrong(field=field, said=said) for field, said in wrong]
    problem = Problem(title=HTTPStatus(status).phrase, status=status, detail=detail, errors=errors)
    return answer(problem, headers)


def from_unfit(refusal: Unfit) -> Response:
    """Fields that can't stand."""
    return no(refusal.status, refusal.detail, refusal.wrong)


def from_refused(refusal: Refused | OutsideRange) -> Response:
    """A service or a formula refuses a figure; it is told under the name that was sent."""
    field = sent_as(refusal.argument)
    said = str(refusal) if isinstance(refusal, OutsideRange) else refusal.said
    return no(422, WRONG_FIELDS if field else said, [(field, said)])


def sent_as(argument: str) -> str:
    """The name under which a parameter came in: `rise` where text was sent for `rise_m`."""
    names: Mapping[str, str] = g.get("sent_as") or {}
    return names.get(argument, argument)


def from_not_found(refusal: NotFound) -> Response:
    """Nothing of that name, or not for this person."""
    return no(404, str(refusal))


def from_not_allowed(refusal: NotAllowed) -> Response:
    """Not for this role."""
    return no(403, str(refusal))


def from_superseded(refusal: Superseded) -> Response:
    """Both versions, so that the next change can be made on theirs."""
    return answer(
        Conflict(
            title=HTTPStatus.CONFLICT.phrase,
            status=409,
            detail=str(refusal),
            version=refusal.version,
            sent_version=g.get("version"),
            theirs=dict(refusal.theirs),
            by=refusal.by,
        )
    )


def from_http(refusal: HTTPException) -> Response:
    """An answer of the server itself."""
    said = {
        404: NOWHERE,
        405: "This address does not take that method.",
        413: "That is more than 1 MB. Nothing was saved.",
        415: "Send JSON, with the header Content-Type: application/json.",
    }
    status = refusal.code or 500
    valid = getattr(refusal, "valid_methods", None)
    headers = {"Allow": ", ".join(sorted(valid))} if valid else None
    return no(status, said.get(status, refusal.description or "The server can't answer that."), headers=headers)


def from_fault(fault: Exception) -> Response:
    """A bug: logged with its trace, told plainly."""
    current_app.logger.exception("The API failed: %s %s", request.method, request.path, exc_info=fault)
    if current_app.testing:
        raise fault
    return no(500, "Something broke here. Nothing was half-saved.")


MADE_FROM: dict[type[Exception], Any] = {
    Unfit: from_unfit,
    Refused: from_refused,
    OutsideRange: from_refused,
    NotFound: from_not_found,
    NotAllowed: from_not_allowed,
    Superseded: from_superseded,
    HTTPException: from_http,
    Exception: from_fault,
}
