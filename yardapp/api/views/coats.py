"""Coating before and after a job: tins in stock, how a coat looked at haul-out."""

from yardapp.api.bodies import coats as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.coating import services
from yardapp.errors import Refused


@reads("/coating/stock", reply=bodies.Tins, errors=(403,))
def tins(act: Act) -> bodies.Tins:
    """Product in stock, opened and unopened."""
    rows = services.tins(act.session, act.who)
    return bodies.Tins(tins=[bodies.TinKept.model_validate(row, from_attributes=True) for row in rows])


def _put_in(act: Act, key: str) -> bodies.TinKept:
    return bodies.TinKept.model_validate(services.tin_by_id(act.session, act.who, int(key)), from_attributes=True)


@creates("/coating/stock", body=bodies.NewTin, reply=bodies.TinKept, at="/coating/stock", shows=_put_in)
def add_tin(act: Act, said: bodies.NewTin) -> str:
    """Put a tin into stock; mixing takes from it."""
    return str(services.add_tin(act.session, act.who, said.model_dump()).id)


@reads("/coating/pieces/{piece_id}/ratings", reply=bodies.RatingsOfPiece, errors=(403,))
def ratings(act: Act, piece_id: int) -> bodies.RatingsOfPiece:
    """How one coat looked each time it came out of the water; what was put right is left out."""
    row = services.history_of_piece(act.session, act.who, piece_id).rows[0]
    found = [bodies.RatingStanding.model_validate(one, from_attributes=True) for one in row.ratings]
    return bodies.RatingsOfPiece(piece_id=piece_id, ratings=found)


def _rated(act: Act, key: str, piece_id: int) -> bodies.RatingsOfPiece:
    return ratings(act, piece_id)


@creates(
    "/coating/pieces/{piece_id}/ratings",
    body=bodies.NewRatings,
    reply=bodies.RatingsOfPiece,
    at="/coating/pieces/{piece_id}/ratings",
    shows=_rated,
)
def rate(act: Act, said: bodies.NewRatings, piece_id: int) -> str:
    """Write down how a coat looked at haul-out."""
    blades = services.history_of_piece(act.session, act.who, piece_id).blades
    words = {one.blade: one.word for one in said.ratings}
    wrong = next((one for one in words if (one is None) != (blades == 0) or (one or 0) > blades), None)
    if wrong is not None or (None in words and blades):
        raise Refused(f"It has blades 1 to {blades}." if blades else "It has no blades: leave `blade` null.", "ratings")
    services.rate(act.session, act.who, piece_id, words, at=said.at, note=said.note)
    return str(piece_id)


def _corrected(act: Act, key: str, rating_id: int) -> bodies.RatingsOfPiece:
    return ratings(act, int(key))


@creates(
    "/coating/ratings/{rating_id}/corrections",
    body=bodies.NewWord,
    reply=bodies.RatingsOfPiece,
    at="/coating/pieces/{key}/ratings",
    shows=_corrected,
)
def correct_rating(act: Act, said: bodies.NewWord, rating_id: int) -> str:
    """Put a rating right by a new row; it is put right once."""
    row = services.correct_rating(
        act.session, act.who, rating_id, word=said.word, why=said.why, at=said.at, note=said.note
    )
    return str(row.piece_id)
