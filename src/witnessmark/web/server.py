"""The server: one process with a few threads, on this machine alone unless it is told otherwise.

`opened` brings the store of the folder up to date and gives a server that `serve` runs; the
addresses and the certificate are the caller's.
"""

import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server

THREADS: Final = 8
LARGEST_REQUEST: Final = 60_000_000
"""Bytes of a form with its photographs; one photograph has at most fifty million."""
SECONDS_WAITED: Final = 20


@dataclass(frozen=True, slots=True)
class Certificate:
    """Files of a certificate and its key, in PEM."""

    certificate: Path
    key: Path


class NotOpenedError(Exception):
    """The folder or the database cannot be opened; the text says why."""


def prepare(home: Path, hosts: tuple[str, ...] = (), database: str = "", tls: bool = False) -> None:
    """Let Django know where everything is, and bring the store up to date. Once a process."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "witnessmark.web.settings"
    os.environ["WITNESSMARK_HOME"] = str(home)
    os.environ["WITNESSMARK_HOSTS"] = ",".join(hosts)
    os.environ["WITNESSMARK_DATABASE"] = database
    os.environ["WITNESSMARK_TLS"] = "1" if tls else ""
    try:
        home.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise NotOpenedError(fault.strerror or "the system refuses") from fault
    import django
    from django.db import Error

    django.setup()
    from witnessmark.store import migrate_home

    try:
        migrate_home()
    except Error as fault:
        raise NotOpenedError(f"its database cannot be opened: {fault}") from fault


def opened(address: str, port: int, certificate: Certificate | None = None) -> Server:
    """A server of the workshop at this address, which `server.start()` runs until it is stopped."""
    from django.core.wsgi import get_wsgi_application

    server = Server(
        (address, port),
        get_wsgi_application(),
        numthreads=THREADS,
        server_name="witnessmark",
        request_queue_size=64,
        timeout=SECONDS_WAITED,
        shutdown_timeout=5,
    )
    server.max_request_body_size = LARGEST_REQUEST
    if certificate is not None:
        server.ssl_adapter = BuiltinSSLAdapter(str(certificate.certificate), str(certificate.key))
    return server
