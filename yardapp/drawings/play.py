"""A shaft in its bearing, end on: where the play is read."""

from markupsafe import Markup

from yardapp.drawings.sheet import circle, dimension, known, line, notes, sheet, words

MIDDLE_X, MIDDLE_Y, BORE = 150.0, 112.0, 78.0
PLAY_AT_LEAST = 16.0  # on the sheet: true play would not be seen


def play_in_bearing(
    play_m: float | None, *, play_label: str = "", bore_label: str = "", shaft_label: str = "", key: str = "play"
) -> Markup:
    """The shaft lying in the bottom of its bearing, the play above it drawn larger than it is."""
    is_read = known(play_m)
    shaft = BORE - PLAY_AT_LEAST / 2
    top = MIDDLE_Y + BORE - 2 * shaft
    said, below = notes(["The play is drawn larger than it is."] if is_read else ["Play not read."], 226)
    marks = [
        circle(MIDDLE_X, MIDDLE_Y, BORE + 18, "line hatch", name="shell"),
        circle(MIDDLE_X, MIDDLE_Y, BORE, "line fillpaper", name="bore"),
        circle(MIDDLE_X, MIDDLE_Y + BORE - shaft, shaft, "line fillshaft", name="shaft"),
        line([(MIDDLE_X - 20, top), (MIDDLE_X + 106, top)], "thin"),
        line([(MIDDLE_X - 20, MIDDLE_Y - BORE), (MIDDLE_X + 106, MIDDLE_Y - BORE)], "thin"),
        dimension(key, (MIDDLE_X + 100, MIDDLE_Y - BORE), (MIDDLE_X + 100, top), name="play"),
        words(MIDDLE_X + 112, (MIDDLE_Y - BORE + top) / 2 + 5, play_label),
        words(MIDDLE_X, MIDDLE_Y + 10, shaft_label, anchor="middle", drawn="dim halo"),
        words(MIDDLE_X + 112, MIDDLE_Y + 70, bore_label),
    ]
    title = f"Shaft in its bearing, play {play_label or 'as drawn'}"
    desc = "The shaft lies in the bottom of the bearing; the play is what is free above it, on diameter."
    return sheet(key, 340, below - 8, title=title, desc=desc, marks=[*marks, *said])
