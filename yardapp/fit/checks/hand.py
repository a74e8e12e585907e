"""Does it turn the right way: first, and cheapest to refuse."""

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import ANOTHER, CANNOT_TELL, GOES_ON, NO, Check, Compared, Need
from yardapp.fit.checks.readings import DRIVE_HAND, HAND, STAMPED_HAND

SOURCE = "The order of refusal in the trade: hand before bore, bore before room."
LOOK = Need(
    figure=HAND,
    says="Lay the propeller flat and look at the blade nearest you: it leans / on a right hand, \\ on a left, "
    "whichever face is up.",
)
ASK = Need(
    figure=DRIVE_HAND,
    says="See from astern which way the shaft turns going ahead: clockwise is right.",
)


def check_hand(case: Case) -> Check:
    """Hand seen, hand stamped and hand wanted, put side by side."""
    seen, stamped, wanted = (case.hand(path) for path in (HAND, STAMPED_HAND, DRIVE_HAND))
    if seen and stamped and seen != stamped:
        says = f"The blades were seen as {seen} hand, but the hub is stamped {stamped}. Look again first."
        return _check(case, CANNOT_TELL, says, needs=(LOOK,))
    if seen is None or wanted is None:
        return _check(
            case, CANNOT_TELL, _unknown(seen, stamped, wanted), needs=(LOOK,) * (not seen) + (ASK,) * (not wanted)
        )
    if seen == wanted:
        return _check(case, GOES_ON, f"A {seen} hand propeller on a drive that wants {wanted} hand.")
    says = f"The propeller is {seen} hand and the drive wants {wanted}. It would drive the boat astern."
    remedy = f"Another propeller, of {wanted} hand: no work changes a fixed propeller's hand."
    return _check(case, NO, says, remedy=remedy, work=ANOTHER)


def _unknown(seen: str | None, stamped: str | None, wanted: str | None) -> str:
    if seen:
        return f"The propeller is {seen} hand, but which hand the drive wants is not known."
    if stamped:
        wants = f"the drive wants {wanted}" if wanted else "which hand the drive wants is not known"
        return f"The hub is stamped {stamped} hand, but nobody has looked at the blades; {wants}."
    if wanted:
        return f"The drive wants {wanted} hand, but the propeller's hand is not known."
    return "Neither the propeller's hand nor the one that the drive wants is known."


def _check(
    case: Case,
    verdict: str,
    says: str,
    *,
    remedy: str | None = None,
    work: str | None = None,
    needs: tuple[Need, ...] = (),
) -> Check:
    compared = (
        Compared(label="Hand of the propeller, as seen", value=case.hand(HAND)),
        Compared(label="Hand of the propeller, as stamped", value=case.hand(STAMPED_HAND)),
        Compared(label="Hand that the drive wants", value=case.hand(DRIVE_HAND)),
    )
    return Check(
        name="hand",
        verdict=verdict,
        says=says,
        source=SOURCE,
        compared=compared,
        remedy=remedy,
        work=work,
        needs=needs,
        rests_on=(HAND, STAMPED_HAND, DRIVE_HAND),
    )
