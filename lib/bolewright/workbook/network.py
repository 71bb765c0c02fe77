"""Where a phone or tablet at the tree finds the page: this machine's address, and the square code of a link."""

from __future__ import annotations

import io
import ipaddress
import socket

import segno

_ELSEWHERE = ("192.0.2.1", 9)  # RFC 5737: an address for documents, where nobody is
CAUTION = (
    "Whoever has this address can change the project file and run programs on this computer, and the way there is "
    "not encrypted: use it only in a network you trust (your own, or the phone's hotspot), pass the address on to "
    "nobody, and stop with Ctrl+C when you are done."
)


class NetworkError(ValueError):
    """No address to be found at; one sentence."""


def local_address() -> str:
    """This machine's address in the network it is in; nothing is sent. Raises NetworkError in none."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way:
            way.connect(_ELSEWHERE)
            address = str(way.getsockname()[0])
    except OSError:
        address = "0.0.0.0"
    if ipaddress.ip_address(address).is_unspecified or ipaddress.ip_address(address).is_loopback:
        raise NetworkError(
            "This computer is in no network that a phone could share: join one, or the phone's hotspot, and try again."
        )
    return address


def own_address(text: str) -> str:
    """An address given by the user, which must be one of this machine's. Raises NetworkError."""
    try:
        address = ipaddress.ip_address(text)
    except ValueError:
        raise NetworkError(
            f"--address {text} is no address: give it as numbers, such as 192.168.1.20."
        ) from None
    if address.is_unspecified:
        raise NetworkError(
            f"--address {text} would open the workbook to every network this computer is in: give one address."
        )
    family = socket.AF_INET6 if address.version == 6 else socket.AF_INET
    try:
        with socket.socket(family) as tried:
            tried.bind((text, 0))
    except OSError:
        raise NetworkError(f"--address {text} is not an address of this computer.") from None
    return text


def free_port(address: str, wanted: int) -> int:
    """The wanted port, or the next one that is free. Raises NetworkError where none of fifty is."""
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    for port in range(wanted, min(wanted + 50, 65_536)):
        with socket.socket(family) as tried:
            tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                tried.bind((address, port))
            except OSError:
                continue
            return port
    raise NetworkError(f"No port from {wanted} on is free: give another with --port.")


def square_code(link: str) -> str:
    """A link as a square code for a camera, in text of half blocks, light on dark."""
    out = io.StringIO()
    segno.make(link, error="l").terminal(out=out, compact=True)
    return out.getvalue()
