"""Pages of the yard's people: claim, sign in, change person, one's own page, everybody."""

from datetime import timedelta

from flask import Blueprint, current_app, redirect, request, session, url_for
from flask.typing import ResponseReturnValue

from yardapp import backups
from yardapp.db import now, transaction
from yardapp.errors import Refused
from yardapp.people import forms, services
from yardapp.web import current_who, filled, kept, page, refused, saving, snapshot

bp = Blueprint("people", __name__, url_prefix="/people")
OLD_COPY = timedelta(days=2)


def _device_label() -> str:
    agent = request.headers.get("User-Agent", "")
    kinds = (("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("Windows", "Windows PC"), ("Mac", "Mac"))
    return next((label for word, label in kinds if word in agent), "PC")


def _let_in(token: str) -> None:
    session.clear()  # nothing planted before sign-in is carried over
    session["device"] = token
    session.permanent = True


def _onwards(address: str | None) -> str:
    """Only to a page of this yard."""
    is_ours = address and address.startswith("/") and not address.startswith(("//", "/\\"))
    return str(address) if is_ours else url_for("front.first_page")


@bp.get("/claim")
def claim_page() -> ResponseReturnValue:
    """The first page of a new yard."""
    with snapshot() as opened:
        if services.is_claimed(opened):
            return redirect(url_for("people.sign_in_page"))
    return page("people/claim_page.html", form=filled(forms.ClaimForm))


@bp.post("/claim")
def claim_yard() -> ResponseReturnValue:
    """Make the first person, for whoever can read the terminal."""
    form = filled(forms.ClaimForm)
    if form.validate():
        try:
            with transaction() as opened:
                name, password = form.name.data or "", form.password.data or ""
                services.claim_yard(opened, code=form.code.data or "", name=name, password=password)
                entered = _enter(opened, name, password)
        except Refused as refusal:
            form.tell(refusal)
        else:
            _let_in(entered.token or "")
            return redirect(url_for("people.me"), code=303)
    return refused("people/claim_page.html", form)


def _enter(opened: services.Session, name: str, password: str) -> services.Entered:
    return services.enter(
        opened,
        name=name,
        password=password,
        address=request.remote_addr or "",
        label=_device_label(),
        device_token=session.get("device"),
    )


@bp.get("/enter")
def sign_in_page() -> ResponseReturnValue:
    """Sign in; on a shared screen, two taps and a PIN."""
    with snapshot() as opened:
        if not services.is_claimed(opened):
            return redirect(url_for("people.claim_page"))
        known = services.known_here(opened, session.get("device", ""))
    form = filled(forms.SignInForm)
    form.next.data = request.args.get("next", "")
    return page("people/sign_in_page.html", form=form, known=known)


@bp.post("/enter")
def enter() -> ResponseReturnValue:
    """Sign in with name and password, or come back with a PIN."""
    by_pin = "person_id" in request.form
    form = filled(forms.PinForm) if by_pin else filled(forms.SignInForm)
    with transaction() as opened:
        known = services.known_here(opened, session.get("device", ""))
        entered = _try(opened, form) if form.validate() else None
    if entered is not None and entered.token:
        _let_in(entered.token)
        return redirect(_onwards(request.form.get("next")), code=303)
    if entered is not None:
        form.tell(Refused(entered.said, "pin" if by_pin else "password"))
    if isinstance(form, forms.PinForm):
        return refused("people/pin_page.html", form, who=dict(known).get(int(form.person_id.data or 0), ""))
    return refused("people/sign_in_page.html", form, known=known)


def _try(opened: services.Session, form: forms.PinForm | forms.SignInForm) -> services.Entered:
    if isinstance(form, forms.SignInForm):
        return _enter(opened, form.name.data or "", form.password.data or "")
    return services.change_person(
        opened,
        device_token=session.get("device", ""),
        person_id=int(form.person_id.data or 0),
        pin=form.pin.data or "",
        address=request.remote_addr or "",
    )


@bp.get("/enter/<int:person_id>")
def pin_page(person_id: int) -> ResponseReturnValue:
    """The PIN of one person known on this screen."""
    with snapshot() as opened:
        who = dict(services.known_here(opened, session.get("device", ""))).get(person_id)
    if who is None:
        return redirect(url_for("people.sign_in_page"))
    form = filled(forms.PinForm)
    form.person_id.data = str(person_id)
    return page("people/pin_page.html", form=form, who=who)


@bp.post("/leave")
def leave() -> ResponseReturnValue:
    """Leave the screen to the next one."""
    form = filled(forms.PlainForm)
    if form.validate():
        with saving(form) as act:
            services.leave(act.session, act.who)
            act.goes_to(url_for("people.sign_in_page"), "Signed out.")
        if act.answer:
            return kept(act)
    return redirect(url_for("people.me"), code=303)


@bp.get("/me")
def me() -> ResponseReturnValue:
    """One's own page: PIN, password, units, tokens."""
    return page("people/me.html", **_my_page())


def _my_page(**shown: object) -> dict[str, object]:
    who = current_who()
    with snapshot() as opened:
        tokens = services.tokens_of(opened, who.person_id or 0)
    units = filled(forms.UnitsForm) if request.method == "GET" else forms.UnitsForm(meta={"csrf": False})
    units.units.data = who.units
    blank = {"units": units, "tokens": tokens}
    for name in ("pin", "password", "token", "plain"):
        blank[name] = shown.get(name) or _blank(name)
    return blank


def _blank(name: str) -> object:
    kinds = {
        "pin": forms.OwnPinForm,
        "password": forms.OwnPasswordForm,
        "token": forms.TokenForm,
        "plain": forms.PlainForm,
    }
    return filled(kinds[name], blank=True)


@bp.post("/me/pin")
def set_pin() -> ResponseReturnValue:
    """Set one's own PIN."""
    form = filled(forms.OwnPinForm)
    if form.validate():
        with saving(form) as act:
            services.set_pin(act.session, act.who, form.pin.data or "")
            act.goes_to(
                url_for("people.me"), "The PIN is set. It works on screens where you have given your password once."
            )
        if act.answer:
            return kept(act)
    return page("people/me.html", **_my_page(pin=form)), 422


@bp.post("/me/password")
def change_password() -> ResponseReturnValue:
    """Change one's own password."""
    form = filled(forms.OwnPasswordForm)
    if form.validate():
        with saving(form) as act:
            services.change_password(act.session, act.who, old=form.old.data or "", new=form.new.data or "")
            act.goes_to(url_for("people.me"), "The password is changed. Other screens must sign in again.")
        if act.answer:
            return kept(act)
    return page("people/me.html", **_my_page(password=form)), 422


@bp.post("/me/units")
def set_units() -> ResponseReturnValue:
    """Choose the units shown first."""
    form = filled(forms.UnitsForm)
    if form.validate():
        with saving(form) as act:
            services.set_units(act.session, act.who, form.units.data or "")
            act.goes_to(url_for("people.me"), "Saved.")
        if act.answer:
            return kept(act)
    return redirect(url_for("people.me"), code=303)


@bp.post("/me/tokens")
def make_token() -> ResponseReturnValue:
    """Make a bearer token; it is shown this once."""
    form, made = filled(forms.TokenForm), None
    if form.validate():
        with saving(form) as act:
            made = services.make_token(act.session, act.who, act.who.person_id or 0, form.label.data or "")
    shown = _my_page(token=None if made else form)
    return page("people/me.html", made=made, **shown), 200 if made else 422


@bp.post("/me/tokens/<int:token_id>/withdraw")
def withdraw_token(token_id: int) -> ResponseReturnValue:
    """End one of one's own tokens."""
    form = filled(forms.PlainForm)
    if form.validate():
        with saving(form) as act:
            services.withdraw_token(act.session, act.who, token_id)
            act.goes_to(url_for("people.me"), "That token opens nothing any more.")
        if act.answer:
            return kept(act)
    return redirect(url_for("people.me"), code=303)


@bp.get("/yard")
def yard() -> ResponseReturnValue:
    """Everybody, for the office; the way to one's own page, for all."""
    return _yard_page(filled(forms.NewPersonForm))


def _yard_page(form: forms.NewPersonForm, status: int = 200) -> ResponseReturnValue:
    with snapshot() as opened:
        everybody = services.people(opened) if current_who().may("people") else []
    copy = backups.newest_good(current_app.config["BACKUPS"]) if current_who().may("people") else None
    is_old = copy is None or now() - copy.made > OLD_COPY
    return page("people/yard.html", form=form, everybody=everybody, copy=copy, is_old=is_old), status


@bp.post("/yard")
def add_person() -> ResponseReturnValue:
    """Let somebody in."""
    form = filled(forms.NewPersonForm)
    if form.validate():
        with saving(form) as act:
            name = form.name.data or ""
            services.add_person(act.session, act.who, name=name, role=form.role.data, password=form.password.data or "")
            act.goes_to(url_for("people.yard"), f"{name} may sign in now.")
        if act.answer:
            return kept(act)
    return _yard_page(form, 422)


@bp.get("/yard/<int:person_id>")
def role_page(person_id: int) -> ResponseReturnValue:
    """One person's role."""
    form, row = _role(person_id)
    form.role.data = row.role if row.is_here else "gone"
    return page("people/role_page.html", form=form, row=row, new=filled(forms.NewPasswordForm))


def _role(person_id: int) -> tuple[forms.RoleForm, services.PersonRow]:
    current_who().must("people")
    with snapshot() as opened:
        return filled(forms.RoleForm), services.person_by_id(opened, person_id)


@bp.post("/yard/<int:person_id>")
def give_role(person_id: int) -> ResponseReturnValue:
    """Give another role, or say goodbye."""
    form, row = _role(person_id)
    if form.validate():
        with saving(form) as act:
            is_here = form.role.data != "gone"
            services.give_role(
                act.session, act.who, person_id, form.role.data if is_here else row.role, is_here=is_here
            )
            act.goes_to(url_for("people.yard"), f"{row.name}: saved.")
        if act.answer:
            return kept(act)
    return refused("people/role_page.html", form, row=row, new=filled(forms.NewPasswordForm, blank=True))


@bp.post("/yard/<int:person_id>/password")
def reset_password(person_id: int) -> ResponseReturnValue:
    """A new password for somebody who forgot theirs."""
    form, (role, row) = filled(forms.NewPasswordForm), _role(person_id)
    if form.validate():
        with saving(form) as act:
            services.reset_password(act.session, act.who, person_id, form.password.data or "")
            act.goes_to(url_for("people.yard"), f"{row.name} signs in with the new password now.")
        if act.answer:
            return kept(act)
    role.role.data = row.role
    return page("people/role_page.html", form=role, row=row, new=form), 422
