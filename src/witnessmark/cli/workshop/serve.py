"""`witnessmark serve`: the workshop, in a browser on this machine."""

import os
import signal
import sys
import threading
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer

from witnessmark.catalogue import said
from witnessmark.cli.arguments import option
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.workshop.homes import DatabaseOption, HomeOption, home_opened
from witnessmark.entry import NotAllowed

HELP = """Opens the workshop: the whole job in a browser, at an address of this machine alone. It
keeps its cases and photographs in one folder, and needs no network. Stop it with Ctrl-C.
--lan lets other machines of your own network in, encrypted by a certificate of this
machine, whose fingerprint is printed: compare it with what the other's browser shows.

\b
Example:
  witnessmark serve
"""

PORT = 8357
HERE = "127.0.0.1"


def serve(
    home: HomeOption = None,
    port: Annotated[int, option("N", "The port of the address.", min=1, max=65535)] = PORT,
    lan: Annotated[
        str, option("ADDRESS", "Also let in the network of this address of your machine.")
    ] = "",
    database: DatabaseOption = "",
    new_password: Annotated[
        str, option("NAME", "Set a new password for this account, and end.")
    ] = "",
    quiet: Annotated[bool, typer.Option("--quiet", help="Open no browser.")] = False,
) -> None:
    """Serve until somebody stops it."""
    folder = home_opened(home, database, (lan,) if lan else (), tls=bool(lan))
    if new_password:
        _password(new_password)
        return
    server = _bound(folder, port, lan)
    scheme, host = ("https", lan) if lan else ("http", HERE)
    address = f"{scheme}://{host}:{port}/"
    open_at = said("The workshop is open at {address}", address=address)
    print_line(f"{open_at}\n" + said("It keeps everything in {folder}", folder=str(folder)))
    print_line(said("Ctrl-C closes it."))
    if not quiet and _has_screen():
        threading.Thread(target=_show, args=(address,), daemon=True).start()
    signal.signal(signal.SIGTERM, _stopped)
    if hasattr(signal, "SIGPIPE"):  # a browser that goes away ends its answer, not the workshop
        signal.signal(signal.SIGPIPE, signal.SIG_IGN)
    sys.unraisablehook = _unraised
    try:
        server.serve()
    except (KeyboardInterrupt, SystemExit):
        pass
    finally:
        server.stop()
    print_line(said("The workshop is closed."))


def _bound(folder: Path, port: int, lan: str) -> Any:
    """The server with its port; with its certificate where other machines may come in."""
    from witnessmark.web import certificates, server

    certificate = None
    if lan:
        hosts = (lan, "localhost", HERE)
        certificate = certificates.certificate_for(
            folder / certificates.TLS_NAME, hosts, datetime.now(UTC)
        )
        told = said("Its certificate has the SHA-256 {digits}", digits=certificate.fingerprint)
        print_line(told)
    try:
        return server.opened(lan or HERE, port, certificate)
    except OSError as fault:
        reason = f"is not to be had: {fault.strerror or fault}"
        named, value = ("--lan", lan) if lan else ("--port", str(port))
        refuse((NotAllowed(typed(named, value), value, reason),))


def _stopped(number: int, _: object) -> NoReturn:
    raise SystemExit(0)


def _unraised(fault: Any) -> None:
    """What is left of a connection that its browser gave up is told to nobody."""
    if not isinstance(fault.exc_value, OSError):
        sys.__unraisablehook__(fault)


def _has_screen() -> bool:
    """Is there somebody in front of a screen with windows?"""
    named = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return sys.stdout.isatty() and (sys.platform in ("darwin", "win32") or bool(named))


def _show(address: str) -> None:
    import webbrowser

    with suppress(webbrowser.Error):
        webbrowser.open(address)


def _password(name: str) -> None:
    """Ask for a new password, as the door itself would take it."""
    from witnessmark.store import accounts

    password = typer.prompt(said("The new password"), hide_input=True, confirmation_prompt=True)
    faults = accounts.password_faults(password)
    if faults:
        source = typed("--new-password", name)
        refuse((NotAllowed(source, name, f"gets no such password: {' '.join(faults)}"),))
    if not accounts.set_password(name, password):
        refuse((NotAllowed(typed("--new-password", name), name, "is no account here"),))
    print_line(said("{name} signs in with the new password.", name=name))
