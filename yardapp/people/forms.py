"""What may be typed about people."""

from wtforms import HiddenField, PasswordField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.forms import YardForm, options

ROLES = [
    ("hand", "Hand: records work"),
    ("office", "Office: everything"),
    ("owner", "Owner: sees own boats and what is on them"),
]


class ClaimForm(YardForm):
    """The first page of a new yard."""

    code = StringField(
        "Code in the terminal",
        [InputRequired("The code stands in the terminal where yardapp was started.")],
        render_kw={"autocomplete": "one-time-code", "autocapitalize": "characters"},
    )
    name = StringField(
        "Your name", [InputRequired("What are you called?"), Length(max=80)], render_kw={"autocomplete": "name"}
    )
    password = PasswordField(
        "Password", [InputRequired("Think of a password.")], render_kw={"autocomplete": "new-password"}
    )


class SignInForm(YardForm):
    """Name and password."""

    name = StringField("Name", [InputRequired("Who are you?"), Length(max=80)], render_kw={"autocomplete": "username"})
    password = PasswordField(
        "Password", [InputRequired("The password is missing.")], render_kw={"autocomplete": "current-password"}
    )
    next = HiddenField()


class PinForm(YardForm):
    """Somebody comes back to a shared screen."""

    person_id = HiddenField()
    pin = PasswordField(
        "PIN", [InputRequired("Four to eight figures.")], render_kw={"inputmode": "numeric", "autocomplete": "off"}
    )


class NewPersonForm(YardForm):
    """Somebody new in the yard."""

    name = StringField(
        "Name", [InputRequired("What are they called?"), Length(max=80)], render_kw={"autocomplete": "off"}
    )
    role = RadioField("Role", [InputRequired("What may they do?")], choices=options(ROLES), default="hand")
    password = PasswordField(
        "First password", [InputRequired("They change it later.")], render_kw={"autocomplete": "new-password"}
    )


class RoleForm(YardForm):
    """Another role, or goodbye."""

    role = SelectField("Role", choices=options([*ROLES, ("gone", "Has left the yard")]))


class NewPasswordForm(YardForm):
    """A new password for somebody who forgot theirs."""

    password = PasswordField(
        "New password", [InputRequired("Think of one, and tell them.")], render_kw={"autocomplete": "new-password"}
    )


class OwnPinForm(YardForm):
    """One's own PIN."""

    pin = PasswordField(
        "New PIN", [InputRequired("Four to eight figures.")], render_kw={"inputmode": "numeric", "autocomplete": "off"}
    )


class OwnPasswordForm(YardForm):
    """One's own password."""

    old = PasswordField(
        "Present password", [InputRequired("The present one first.")], render_kw={"autocomplete": "current-password"}
    )
    new = PasswordField("New password", [InputRequired("And the new one.")], render_kw={"autocomplete": "new-password"})


class UnitsForm(YardForm):
    """Millimetres or inches."""

    units = RadioField("Sizes in", choices=options([("mm", "Millimetres first"), ("in", "Inches first")]))


class TokenForm(YardForm):
    """A bearer token for a program."""

    label = StringField("What is it for?", [InputRequired("A word or two, to know it by."), Length(max=80)])


class PlainForm(YardForm):
    """A button and nothing else."""
