"""What `yardapp serve` prints before it serves: the claim code, the addresses, and one of them as a QR code."""

import io
import sys
from collections.abc import Sequence

from yardapp.cli import network


def say(*lines: str) -> None:
    """Print at once: what waits in a buffer helps nobody who reads a log."""
    print(*lines, sep="\n", flush=True)


def claim(code: str) -> None:
    """The code with which the first person claims the yard."""
    rule = "=" * (len(code) + 8)
    say("", "Nobody runs this yard yet. Open the address below and give this code:", "")
    say(f"    {rule}", f"        {code}", f"    {rule}")


def example_people() -> None:
    """Who may sign in to the invented yard. Its passwords are no secret: nothing in it is real."""
    from yardapp.example.people import EXAMPLE_PEOPLE

    say("", "An invented yard: nothing in it is real. Sign in as")
    for person in EXAMPLE_PEOPLE:
        say(f"    {person.name:12} {person.role:7} password: {person.password:24} PIN afterwards: {person.pin}")


def addresses(host: str, port: int, given: str = "") -> None:
    """Where to open it, from this machine and from a phone."""
    here, lan = here_and_lan(host, port, network.lan_addresses(), given)
    say("")
    if here:
        say(f"On this machine:        {here}")
    for address in lan:
        say(f"On the yard's network:  {address}")
    if not lan and host in network.EVERYWHERE:
        say("On the yard's network:  no network was found. Join one and start again to see the address.")
    if lan:
        qr(lan[0])


def here_and_lan(host: str, port: int, found: Sequence[str], given: str = "") -> tuple[str, list[str]]:
    """The address for this machine, and those for the network, given first."""
    named = [given.rstrip("/") + "/"] if given else []
    if host in network.EVERYWHERE:
        return f"http://127.0.0.1:{port}/", named or [f"http://{one}:{port}/" for one in found]
    if host.startswith("127.") or host in ("localhost", "::1"):
        return _url(host, port), named
    return "", named or [_url(host, port)]


def _url(host: str, port: int) -> str:
    return f"http://[{host}]:{port}/" if ":" in host else f"http://{host}:{port}/"


def qr(address: str) -> None:
    """The address for a phone's camera, where the terminal has the blocks to draw it with."""
    import segno

    drawn = io.StringIO()
    segno.make(address, micro=False).terminal(drawn, compact=True)
    try:
        drawn.getvalue().encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return
    say("", drawn.getvalue().rstrip("\n"))
