"""The door: every route is recorded with what it takes and what it gives, and nothing comes in that does not fit.

Four kinds of route: `reads` (GET), `works_out` (POST that saves nothing), `creates` (POST) and `changes` (PATCH).
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any, TypeVar

from flask import Blueprint, Response, g, request
from pydantic import BaseModel, ValidationError
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session
from werkzeug.exceptions import UnsupportedMediaType

from yardapp.api import problems
from yardapp.api.bodies.base import LARGEST_ID, Body
from yardapp.api.retry import Retry
from yardapp.db import snapshot, transaction
from yardapp.errors import NotFound
from yardapp.people import services as people
from yardapp.people.services import Who

bp = Blueprint("api", __name__, url_prefix="/api/v1")
AT_MOST_BYTES = 1024 * 1024
# Of what stands in an address, these are whole numbers.
NUMBERS = (
    *("vessel_id", "drive_id", "sheet_id", "other_id", "fault_id", "kept_id", "table_id", "job_id", "launch_id"),
    *("set_id", "piece_id", "rating_id", "person_id", "photo_id"),
)
View = Callable[..., Any]
AnyView = TypeVar("AnyView", bound=View)


@dataclass(kw_only=True)
class Act:
    """One call: the session it works in, and who calls."""

    session: Session
    who: Who


@dataclass(frozen=True, kw_only=True)
class Route:
    """One route as the document tells of it. A `creates` route also knows its new thing's address and reply."""

    method: str
    path: str
    view: View
    reply: type[BaseModel]
    body: type[Body] | None = None
    query: type[Body] | None = None
    status: int = 200
    errors: tuple[int, ...] = ()
    at: str = ""
    shows: View | None = None

    @property
    def name(self) -> str:
        """The view's own name."""
        return self.view.__name__

    @property
    def noun(self) -> str:
        """What it is about: the module it stands in."""
        return self.view.__module__.rpartition(".")[2]

    @property
    def says(self) -> str:
        """What it does, in a line."""
        return (self.view.__doc__ or "").strip().splitlines()[0]

    @property
    def every_error(self) -> tuple[int, ...]:
        """The status of each "no" that it may answer with."""
        by_body = (400, 413, 415, 422) if self.body else ()
        by_query = (422,) if self.query else ()
        by_path = (404,) if "{" in self.path else ()
        return tuple(sorted({401, *self.errors, *by_body, *by_query, *by_path}))


ROUTES: list[Route] = []
Answer = Callable[[Route, Who, dict[str, Any]], Response]


def reads(path: str, **said: Any) -> Callable[[AnyView], AnyView]:
    """A GET: what stands in the register at one moment."""
    return partial(_record, _read, method="GET", path=path, **said)


def works_out(path: str, **said: Any) -> Callable[[AnyView], AnyView]:
    """A POST that saves nothing: figures in, figures out."""
    return partial(_record, _work_out, method="POST", path=path, **said)


def changes(path: str, **said: Any) -> Callable[[AnyView], AnyView]:
    """A PATCH: what is named in the body changes, the rest stays."""
    return partial(_record, _change, method="PATCH", path=path, errors=(403, 409), **said)


def creates(path: str, **said: Any) -> Callable[[AnyView], AnyView]:
    """A POST that keeps something new: the view gives its tag or number, `shows` the reply, `at` its address.

    With an Idempotency-Key a retry gets the first answer again and saves nothing.
    """
    return partial(_record, _create, method="POST", path=path, status=201, errors=(403,), **said)


def _record(answer: Answer, view: AnyView, **said: Any) -> AnyView:
    route = Route(view=view, **said)
    ROUTES.append(route)

    def called(**values: Any) -> Response:
        who = _caller()
        if not all(_may_be_there(value) for value in values.values()):
            raise NotFound(problems.NOWHERE)
        return answer(route, who, values)

    bp.add_url_rule(_rule(route.path), route.name, called, methods=[route.method], provide_automatic_options=False)
    return view


def _rule(path: str) -> str:
    """The path as Flask writes it."""
    for name in NUMBERS:
        path = path.replace(f"{{{name}}}", f"<int:{name}>")
    return path.replace("{", "<").replace("}", ">")


def _may_be_there(value: str | int) -> bool:
    """Whether a database could hold it at all."""
    return value <= LARGEST_ID if isinstance(value, int) else value.isprintable()


def _read(route: Route, who: Who, values: dict[str, Any]) -> Response:
    asked = {} if route.query is None else {"asked": _query(route.query)}
    with snapshot() as session:
        return _reply(route.view(Act(session=session, who=who), **asked, **values))


def _work_out(route: Route, who: Who, values: dict[str, Any]) -> Response:
    said = _body(route)
    with snapshot() as session:
        return _reply(route.view(Act(session=session, who=who), said, **values))


def _change(route: Route, who: Who, values: dict[str, Any]) -> Response:
    said = _body(route)
    g.version = said.version
    with transaction() as session:
        return _reply(route.view(Act(session=session, who=who), said, **values))


def _create(route: Route, who: Who, values: dict[str, Any]) -> Response:
    said, retry = _body(route), Retry(who)
    try:
        with transaction() as session:
            key = retry.first_answer(session)
            if key is None:
                key = str(route.view(Act(session=session, who=who), said, **values))
                retry.keep(session, key)
            return _created(route, session, who, key, values)
    except IntegrityError:
        # Two tries arrived at once: the later one lost the race for the key, and gets the earlier one's answer.
        with snapshot() as session:
            key = retry.first_answer(session)
            if key is None:
                raise
            return _created(route, session, who, key, values)


def _created(route: Route, session: Session, who: Who, key: str, values: dict[str, Any]) -> Response:
    assert route.shows is not None
    response = _reply(route.shows(Act(session=session, who=who), key, **values), 201)
    response.headers["Location"] = f"{bp.url_prefix}{route.at}".format(key=key, **values)
    return response


def _reply(said: BaseModel, status: int = 200) -> Response:
    return Response(said.model_dump_json(), status, mimetype="application/json")


class NoToken(Exception):
    """No token came, or one that opens nothing."""

    def __init__(self, *, is_wrong: bool) -> None:
        super().__init__()
        self.is_wrong = is_wrong


def _caller() -> Who:
    """Who calls, by the bearer token."""
    sent = request.authorization
    token = sent.token if sent is not None and sent.type == "bearer" else None
    if not token:
        raise NoToken(is_wrong=False)
    with snapshot() as session:
        who = people.token_owner(session, token)
    if who is None:
        raise NoToken(is_wrong=True)
    return who


def _from_no_token(refusal: NoToken) -> Response:
    said = "This token opens nothing here." if refusal.is_wrong else "Send Authorization: Bearer and a token of yours."
    wrong = ', error="invalid_token"' if refusal.is_wrong else ""
    return problems.no(401, said, headers={"WWW-Authenticate": f'Bearer realm="yardapp"{wrong}'})


def _body(route: Route) -> Any:
    assert route.body is not None
    request.max_content_length = AT_MOST_BYTES
    if request.mimetype != "application/json":
        raise UnsupportedMediaType
    try:
        return route.body.model_validate_json(request.get_data())
    except ValidationError as refusal:
        raise problems.unfit(refusal) from None


def _query(kind: type[Body]) -> Any:
    sent = {name: values[0] if len(values) == 1 else values for name, values in request.args.lists()}
    try:
        return kind.model_validate(sent)
    except ValidationError as refusal:
        raise problems.unfit(refusal) from None


def _no_such_address() -> Response | None:
    """An address that is none is answered as the API answers, not with a page."""
    failed = request.routing_exception
    if failed is None or not request.path.startswith("/api/"):
        return None
    return problems.from_http(failed) if failed.code == 405 else problems.no(404, problems.NOWHERE)


bp.before_app_request(_no_such_address)
bp.register_error_handler(NoToken, _from_no_token)
for refusal, made in problems.MADE_FROM.items():
    bp.register_error_handler(refusal, made)
