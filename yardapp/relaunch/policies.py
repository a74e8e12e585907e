"""Where the rules of the trade differ, a yard goes by one; the rivals stay in sight. No database here."""

from dataclasses import dataclass

from yardapp.formulas.tables import table


@dataclass(frozen=True, kw_only=True)
class Rival:
    """One rule among others, and who says so."""

    name: str
    words: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Question:
    """What the yard has to settle for itself."""

    name: str
    title: str
    why: str
    rivals: tuple[Rival, ...]

    def has(self, choice: str) -> bool:
        """Whether it is one of the rivals."""
        return any(rival.name == choice for rival in self.rivals)


NUT_ORDER = Question(
    name="nut order",
    title="Which nut goes on first",
    why="Both orders run for decades. Whichever it is, the lock is always asked, and looked at by two people.",
    rivals=(
        Rival(
            name="thin nut first",
            words="The thin nut against the hub, the thick one on it.",
            source="four trade articles",
        ),
        Rival(name="thick nut first", words="The thick nut against the hub, the thin one on it.", source="one article"),
        Rival(name="one nut", words="A single castle nut with its split pin.", source="common on small shafts"),
        Rival(name="as found", words="As it came off, written down when it did.", source="common practice"),
    ),
)


def _bearing_rivals() -> tuple[Rival, ...]:
    words = "Play beyond it is too much: {} of the shaft's diameter."
    flat = "Play beyond it is too much, whatever the shaft: {} mm."
    return tuple(
        Rival(
            name=row["policy"],
            words=words.format(f"{100 * float(row['share_ratio']):g} %")
            if float(row["share_ratio"])
            else flat.format(f"{1000 * float(row['flat_m']):.2f}"),
            source=f"{row['source']}; {row['status']}",
        )
        for row in table("bearing_wear")
    )


BEARING_WEAR = Question(
    name="bearing wear",
    title="How much play a bearing may have",
    why="Sources disagree strongly. No play at all can mean a shaft that is bound by misalignment.",
    rivals=_bearing_rivals(),
)
QUESTIONS = {one.name: one for one in (NUT_ORDER, BEARING_WEAR)}
