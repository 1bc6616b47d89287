"""Serve the pages a second time, at this machine's address on the shop's network."""

from __future__ import annotations

import ipaddress
import socket
import threading
from pathlib import Path
from typing import TYPE_CHECKING

from strapwright.errors import InputError
from strapwright.pages.sharing.sharing_now import Door, SharingNow
from strapwright.pages.workshop import Workshop

if TYPE_CHECKING:
    from uvicorn import Server

_NOWHERE = "192.0.2.1"  # an address of documentation, RFC 5737: nothing is sent to it
_STOP_WITHIN = 5.0  # s


class SharedServer:
    """Opens and shuts the door to the network.

    Parameters
    ----------
    workshop, sharing
        What is served, and to whom.
    port
        The same one as at the loopback address.
    address
        Of this machine on the network; found where not given.
    folder
        Where a certificate is kept.
    """

    def __init__(
        self, workshop: Workshop, sharing: SharingNow, *, port: int, address: str, folder: Path
    ) -> None:
        self._workshop = workshop
        self._sharing = sharing
        self._port = port
        self._address = address
        self._folder = folder
        self._server: Server | None = None
        self._thread: threading.Thread | None = None

    def open(self, secure: bool) -> Door:
        """Begin to serve.

        Raises
        ------
        InputError
            If this machine is on no network, or the port is taken there.
        """
        import uvicorn  # noqa: PLC0415  other commands need no server

        from strapwright.patient_protocol import (  # noqa: PLC0415
            PatientProtocol,
            QuickHandshakes,
        )
        from strapwright.web.app import create_app  # noqa: PLC0415

        address = self._address or network_address()
        files: dict[str, str] = {}
        fingerprint = ""
        if secure:  # before anything listens: where it cannot be made, nothing is left open
            from strapwright.service.network.own_certificate import own_certificate  # noqa: PLC0415

            made = own_certificate(self._folder, address)
            files = {"ssl_certfile": str(made.certificate), "ssl_keyfile": str(made.key)}
            fingerprint = made.fingerprint
        listening = listen(address, self._port, "--address")
        settings = uvicorn.Config(
            create_app(self._workshop, self._port, self._sharing),
            http=PatientProtocol,
            ws="none",
            loop="asyncio",
            log_level="warning",
            access_log=False,
            server_header=False,
            date_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=1,
            **files,  # type: ignore[arg-type]
        )
        self._server = QuickHandshakes(settings) if secure else uvicorn.Server(settings)
        self._thread = threading.Thread(
            target=self._server.run, kwargs={"sockets": [listening]}, daemon=True
        )
        self._thread.start()
        return Door(
            address=address,
            port=listening.getsockname()[1],
            secure=secure,
            fingerprint=fingerprint,
        )

    def shut(self) -> None:
        """Serve no more; what is open there is closed."""
        if self._server is not None and self._thread is not None:
            self._server.should_exit = True
            self._thread.join(_STOP_WITHIN)
        self._server = self._thread = None


def network_address() -> str:
    """Return this machine's address on its network.

    Raises
    ------
    InputError
        If it has none.
    """
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            asked.connect((_NOWHERE, 9))
            found = str(asked.getsockname()[0])
    except OSError:
        found = ""
    if not found or ipaddress.ip_address(found).is_loopback:
        raise InputError(
            "--share", "this machine is on no network",
            "connect it to the shop's network, or name its address with --address",
        )  # fmt: skip
    return found


def read_address(text: str) -> str:
    """Read an address of this machine on the network.

    Raises
    ------
    InputError
        If it is none, or that of every network or of this machine alone.
    """
    try:
        found = ipaddress.IPv4Address(text)
    except ValueError:
        found = None
    if found is None or found.is_unspecified or str(found) == "127.0.0.1":
        raise InputError(
            "--address", "this is no address of this machine on the network",
            "write it in figures, for example 192.168.1.20", value=text,
        )  # fmt: skip
    return str(found)


def listen(address: str, port: int, where: str) -> socket.socket:
    """Listen at an address of this machine; requests wait from here on.

    Raises
    ------
    InputError
        If the port is taken, or the address is not this machine's.
    """
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    # Windows lets a second server take the port of the first unless told not to; elsewhere the
    # option only lets a port be used again at once.
    alone = getattr(socket, "SO_EXCLUSIVEADDRUSE", socket.SO_REUSEADDR)
    listening.setsockopt(socket.SOL_SOCKET, alone, 1)
    try:
        listening.bind((address, port))
    except OSError as error:
        listening.close()
        raise InputError(
            where,
            f"port {port} of {address} cannot be used ({error.strerror})",
            "name another one, for example --port 8118",
            value=str(port),
        ) from error
    listening.listen(64)
    return listening
