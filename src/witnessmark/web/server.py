"""The server: one process with a few threads, on this machine alone unless it is told otherwise.

`prepare` brings the store of the folder up to date, once a process; `opened` gives a server that
its caller runs. Addresses and certificate are the caller's.
"""

import os
import sys
from datetime import UTC, datetime
from pathlib import Path
from traceback import print_exc
from typing import Any, Final

from witnessmark.web.certificates import Certificate

THREADS: Final = 8
LARGEST_REQUEST: Final = 60_000_000
"""Bytes of a form with its photographs; one photograph has at most fifty million."""
SECONDS_WAITED: Final = 20


class NotOpenedError(Exception):
    """The folder or the database cannot be opened; the text says why."""


def prepare(home: Path, hosts: tuple[str, ...] = (), database: str = "", tls: bool = False) -> None:
    """Let Django know where everything is. NotOpenedError where it cannot be opened."""
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

    django.setup()


def bring_up() -> Path | None:
    """Bring the store up to date; gives the backup that was made first, if one was."""
    from django.db import Error

    from witnessmark.store import NotKeptError, migrate_home

    try:
        return migrate_home(datetime.now(UTC)).backup
    except NotKeptError as fault:
        raise NotOpenedError(str(fault)) from fault
    except Error as fault:
        raise NotOpenedError(f"its database cannot be opened: {fault}") from fault


def opened(address: str, port: int, certificate: Certificate | None = None) -> Any:
    """A server (cheroot's) of the workshop at this address, bound to its port: `serve` runs it
    until `stop`. OSError where the port is not to be had."""
    from cheroot.ssl.builtin import BuiltinSSLAdapter
    from cheroot.wsgi import Server
    from django.core.wsgi import get_wsgi_application

    server: Any = Server(
        (address, port),
        get_wsgi_application(),
        numthreads=THREADS,
        server_name="witnessmark",
        request_queue_size=64,
        timeout=SECONDS_WAITED,
        shutdown_timeout=5,
    )
    server.max_request_body_size = LARGEST_REQUEST
    server.error_log = _log
    if certificate is not None:
        files = str(certificate.certificate), str(certificate.key)
        server.ssl_adapter = BuiltinSSLAdapter(*files)
    server.prepare()
    return server


def _log(message: str = "", level: int = 20, traceback: bool = False) -> None:
    """What the server says of a connection that broke off: nobody's fault, and told to those alone
    who look for one of ours."""
    if os.environ.get("WITNESSMARK_DEBUG") == "1":
        print(message, file=sys.stderr)
        if traceback:
            print_exc()
