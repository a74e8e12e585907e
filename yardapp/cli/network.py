"""Where this machine can be reached: its addresses, found without the internet, and which ports are free."""

import errno
import socket

# Sending nothing: a UDP socket only asks the machine which of its cards would carry a packet to that private range.
PRIVATE = ("192.168.255.254", "10.255.255.254", "172.31.255.254")
EVERYWHERE = ("0.0.0.0", "::", "")
LOOK_AHEAD = 20


def lan_addresses() -> list[str]:
    """This machine's addresses on its networks, likeliest first; empty when it has none. Never fails."""
    found = [_towards(there) for there in PRIVATE] + _by_name()
    return list(dict.fromkeys(one for one in found if one and not one.startswith(("127.", "0."))))


def _towards(there: str) -> str | None:
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
            asking.connect((there, 9))
            return str(asking.getsockname()[0])
    except OSError:
        return None


def _by_name() -> list[str]:
    try:
        return socket.gethostbyname_ex(socket.gethostname())[2]
    except (OSError, UnicodeError):
        return []


def why_not(host: str, port: int) -> str | None:
    """Why nothing can listen there, in a sentence; None when it can."""
    fault = _listening_fails(host, port)
    if fault is None:
        return None
    if fault == errno.EADDRINUSE:
        free = next((one for one in range(port + 1, port + LOOK_AHEAD) if _is_free(host, one)), port + 1)
        return f"Port {port} is in use. Try --port {free}."
    if fault == errno.EACCES:
        return f"This account may not listen on port {port}. Try --port 8480."
    return f"This machine has no address {host}. Try --host 0.0.0.0."


def _is_free(host: str, port: int) -> bool:
    return port <= 65535 and _listening_fails(host, port) is None


def _listening_fails(host: str, port: int) -> int | None:
    """The system's number of the fault, or None."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        with socket.socket(family, socket.SOCK_STREAM) as trying:
            trying.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            trying.bind((host, port))
    except socket.gaierror:
        return errno.EADDRNOTAVAIL
    except OSError as fault:
        return fault.errno
    return None
