"""`witnessmark serve`: the workshop, in a browser on this machine."""

import os
import signal
import sys
import threading
from contextlib import suppress
from typing import Annotated

import typer

from witnessmark.catalogue import said
from witnessmark.cli.arguments import option
from witnessmark.cli.problems import typed
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.workshop.homes import HomeOption, home_of
from witnessmark.entry import NotAllowed

HELP = """Opens the workshop: the whole job in a browser, at an address of this machine alone. It
keeps its cases and photographs in one folder, and needs no network. Stop it with Ctrl-C.

\b
Example:
  witnessmark serve
"""

PORT = 8357


def serve(
    home: HomeOption = None,
    port: Annotated[int, option("N", "The port of the address.", min=1, max=65535)] = PORT,
    database: Annotated[
        str, option("ADDRESS", "A PostgreSQL database in place of the file in the folder.")
    ] = "",
    new_password: Annotated[
        str, option("NAME", "Set a new password for this account, and end.")
    ] = "",
    quiet: Annotated[bool, typer.Option("--quiet", help="Open no browser.")] = False,
) -> None:
    """Serve until somebody stops it."""
    from witnessmark.web import server  # late: no other command needs what is behind it

    folder = home_of(home)
    address = f"http://127.0.0.1:{port}/"
    try:
        server.prepare(folder, database=database)
    except server.NotOpenedError as fault:
        refuse((NotAllowed(typed("--home", str(folder)), str(folder), str(fault)),))
    if new_password:
        _password(new_password)
        return
    serving = server.opened("127.0.0.1", port)
    try:
        serving.prepare()
    except OSError as fault:
        reason = f"is in use or not to be had ({fault.strerror or fault})"
        refuse((NotAllowed(typed("--port", str(port)), str(port), reason, "another port"),))
    print_line(said("The workshop is open at {address} and keeps everything in {folder}.",
                    address=address, folder=str(folder)))  # fmt: skip
    print_line(said("Ctrl-C closes it."))
    if not quiet and _has_screen():
        threading.Thread(target=_show, args=(address,), daemon=True).start()
    signal.signal(signal.SIGTERM, _stopped)
    if hasattr(signal, "SIGPIPE"):  # a browser that goes away ends its answer, not the workshop
        signal.signal(signal.SIGPIPE, signal.SIG_IGN)
    try:
        serving.serve()
    except (KeyboardInterrupt, SystemExit):
        pass
    finally:
        serving.stop()
        print_line(said("The workshop is closed."))


def _stopped(number: int, _: object) -> None:
    raise SystemExit(0)


def _has_screen() -> bool:
    """Is there somebody in front of a screen with windows?"""
    named = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return sys.stdout.isatty() and (sys.platform in ("darwin", "win32") or bool(named))


def _show(address: str) -> None:
    import webbrowser

    with suppress(webbrowser.Error):
        webbrowser.open(address)


def _password(name: str) -> None:
    from witnessmark.store import accounts

    password = typer.prompt(said("The new password"), hide_input=True, confirmation_prompt=True)
    if not accounts.set_password(name, password):
        refuse((NotAllowed(typed("--new-password", name), name, "is no account here"),))
    print_line(said("{name} signs in with the new password.", name=name))
