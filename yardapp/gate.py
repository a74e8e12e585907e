"""The gate: who comes in, what may be posted from where, which headers go out, and a page for every "no"."""

from urllib.parse import urlsplit

from flask import Flask, abort, current_app, flash, g, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from yardapp.db import now
from yardapp.errors import NotAllowed, NotFound
from yardapp.people import services as people
from yardapp.web import AlreadyAnswered

FILES = frozenset({"static", "stylesheet", "front.alive"})
OPEN_TO_ALL = FILES | {"people.sign_in_page", "people.enter", "people.claim_page", "people.claim_yard"}
# Drawings carry their figures as attributes; a page carries neither script nor style of its own.
POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; "
    "form-action 'self'; frame-ancestors 'none'"
)
# Each place of the yard, and what somebody must be let do to find it in the navigation.
PLACES = (
    ("Rack", "gear.rack", "propeller", "propose"),
    ("Boats", "vessels.boats", "sailboat", "propose"),
    ("Bench", "bench.bench", "ruler-measure", "propose"),
    ("Marks", "marks.mark_page", "rubber-stamp", "propose"),
    ("Coating", "coating.coating", "brush", "see"),
    ("Relaunch", "relaunch.board", "checkup-list", "propose"),
    ("Yard", "people.yard", "building-warehouse", "propose"),
)


def guard(app: Flask) -> None:
    """Put the gate in front of every page of `app`."""
    app.before_request(_no_nul)
    app.before_request(_same_origin)
    app.before_request(_somebody)
    app.after_request(_headers)
    app.context_processor(_around_every_page)
    app.register_error_handler(AlreadyAnswered, _answer_again)
    app.register_error_handler(NotFound, _not_found)
    app.register_error_handler(NotAllowed, _not_allowed)
    app.register_error_handler(HTTPException, _plain_no)
    app.register_error_handler(Exception, _our_fault)


def _is_api() -> bool:
    return request.path.startswith("/api/")


def _no_nul() -> None:
    """Postgres can keep no NUL, so nothing here bears one in its name."""
    asked = () if _is_api() else request.args.values()  # the API names the field that bears it
    if "\0" in request.path or any("\0" in text for text in asked):
        abort(404)


def _same_origin() -> None:
    """Refuse a write that another site's page sends with this browser's cookie.

    On a yard's network without https a browser sends `Origin`, not `Sec-Fetch-Site`; either one is enough.
    """
    if request.method in ("GET", "HEAD", "OPTIONS") or _is_api():
        return
    fetched = request.headers.get("Sec-Fetch-Site")
    origin = request.headers.get("Origin")
    if fetched is not None:
        if fetched not in ("same-origin", "none"):
            abort(403)
    elif origin is not None and urlsplit(origin).netloc != request.host:
        abort(403)


def _somebody() -> ResponseReturnValue | None:
    """Know who is at the screen, or ask."""
    g.who = None
    if request.endpoint in FILES or _is_api():
        return None
    token = session.get("device")
    if token:
        g.who = people.who_is_at(token)
    if g.who is not None:
        _stay_signed_in()
    elif request.endpoint not in OPEN_TO_ALL:
        return redirect(url_for("people.sign_in_page", next=_back_here()), code=303)
    return None


def _stay_signed_in() -> None:
    """The cookie lasts a year from the last day it was used; it is written once a day, not with every answer."""
    today = now().date().isoformat()
    if session.get("day") != today:
        session["day"] = today


def _back_here() -> str | None:
    return request.full_path.rstrip("?") if request.method == "GET" and request.path != "/" else None


def _headers(response: Response) -> Response:
    response.headers.setdefault("Content-Security-Policy", POLICY)
    response.headers.setdefault("X-Content-Type-Options", "nosniff")
    response.headers.setdefault("Referrer-Policy", "same-origin")
    if request.endpoint == "static":
        response.headers["Cache-Control"] = "public, max-age=31536000, immutable"
    elif "Cache-Control" not in response.headers:
        response.headers["Cache-Control"] = "no-store"
    return response


def _around_every_page() -> dict[str, object]:
    who = g.get("who")
    here = (request.endpoint or "").split(".")[0]
    places = (
        []
        if who is None
        else [
            (label, url_for(endpoint), icon, endpoint.split(".")[0] == here)
            for label, endpoint, icon, needed in PLACES
            if who.may(needed)
        ]
    )
    return {
        "person": who,
        "person_href": url_for("people.me") if who else url_for("people.sign_in_page"),
        "system": who.units if who else "mm",
        "places": places,
        "theme": request.cookies.get("theme", "") if request.cookies.get("theme") in ("light", "dark", "sun") else "",
    }


def _answer_again(first: AlreadyAnswered) -> ResponseReturnValue:
    flash(request.form.get("once", ""), "once")  # the phone may let its draft go: the first try was saved
    return redirect(first.answer, code=303)


def _say_no(status: int, heading: str, said: str) -> ResponseReturnValue:
    return render_template("yard/no.html", heading=heading, said=said, status=status), status


def _not_found(refusal: NotFound) -> ResponseReturnValue:
    return _say_no(404, "Not found", str(refusal))


def _not_allowed(refusal: NotAllowed) -> ResponseReturnValue:
    return _say_no(403, "Not for this role", str(refusal))


def _plain_no(refusal: HTTPException) -> ResponseReturnValue:
    """An answer of the server itself: no such page, too large, wrong method."""
    said = {
        403: "This was sent from another site's page. Open the page here and try again.",
        404: "There is no page at this address.",
        405: "This address takes no such act. Go back and use the page's own button.",
        413: "That is more than 50 MB. Nothing was saved; take a smaller photo.",
    }.get(refusal.code or 500, refusal.description or "The server can't answer that.")
    headings = {404: "Not found", 413: "Too large"}
    answer = _say_no(refusal.code or 500, headings.get(refusal.code or 500, "That did not work"), said)
    return answer if refusal.response is None else refusal.response


def _our_fault(fault: Exception) -> ResponseReturnValue:
    """A bug: logged with its trace, told plainly; what was typed is still on the phone."""

    current_app.logger.exception("A page failed: %s %s", request.method, request.path, exc_info=fault)
    if current_app.testing:
        raise fault
    return _say_no(500, "Our fault", "Something broke here. Nothing was half-saved; go back and your text is kept.")
