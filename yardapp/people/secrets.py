"""Passwords, PINs, tokens and the claim code: made, kept as hashes, checked."""

import hashlib
import secrets

from werkzeug.security import check_password_hash, generate_password_hash

# No 0, O, 1, I or L: the code is read off a terminal and typed on a phone.
CODE_LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"


def new_token() -> str:
    """A token that nobody can guess."""
    return secrets.token_urlsafe(32)


def new_code() -> str:
    """A claim code of eight letters and figures in two groups."""
    letters = [secrets.choice(CODE_LETTERS) for _ in range(8)]
    return f"{''.join(letters[:4])}-{''.join(letters[4:])}"


def token_hash(token: str) -> str:
    """What is kept of a token: it is long and random, so one round is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def code_hash(code: str) -> str:
    """What is kept of a claim code, however it was typed."""
    return token_hash("".join(letter for letter in code.upper() if letter.isalnum()))


def password_hash(password: str) -> str:
    """What is kept of a password or PIN: scrypt, slow on purpose."""
    return generate_password_hash(password)


def is_password(password: str, kept: str | None) -> bool:
    """Whether `password` is the one kept; as slow when there is none, so that names can't be tried out."""
    return check_password_hash(kept or _NOBODY, password) and kept is not None


_NOBODY = generate_password_hash(secrets.token_hex(16))
