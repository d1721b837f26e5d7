"""The console script: sees to it that every run ends calmly.

Exit codes: 0 fine; 1 a fault of our own; 2 something was wrong with what was
given, and the problems are on the error stream; 130 stopped by the user. The
commands are imported inside, so that Ctrl-C is quiet from the first moment.
"""

import errno
import io
import os
import signal
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from typer import TyperException


NO_ROOM = (errno.ENOSPC, errno.EDQUOT)


def run() -> None:
    """The console script."""
    if hasattr(signal, "SIGPIPE"):  # a reader that stops reading ends us without a word
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    for name in ("SIGTERM", "SIGHUP"):  # end as after an answer, so that nothing is left behind
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, _stop)
    sys.exit(answer(sys.argv[1:]))


def _stop(number: int, _: object) -> NoReturn:
    raise SystemExit(128 + number)


def answer(arguments: Sequence[str]) -> int:
    """Run one command line and give its exit code; nothing is ever raised."""
    try:
        from typer import Abort, TyperException
        from typer.main import get_command

        from witnessmark.cli.commands import app_of
        from witnessmark.cli.terminal import NotPrintedError, prepare_streams

        prepare_streams()
        try:
            command = get_command(app_of(arguments))
            code = command.main(list(arguments), "witnessmark", standalone_mode=False)
        except TyperException as fault:
            return _misused(fault)
        except Abort:
            return 1
        except NotPrintedError as fault:
            return _not_printed(fault)
        return code if isinstance(code, int) else 0
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 0
    except KeyboardInterrupt:
        return 130
    except OSError as fault:
        if not {"-h", "--help"}.isdisjoint(arguments):  # printed by the command library itself
            return _not_printed(fault)
        is_full = fault.errno in NO_ROOM or not _has_temporary_folder()
        return _no_room(fault) if is_full else _own_fault(fault)
    except BaseException as fault:
        return _own_fault(fault)


def _has_temporary_folder() -> bool:
    """Is there a folder for temporary files that takes any?"""
    import tempfile

    try:
        tempfile.gettempdir()
    except OSError:
        return False
    return True


def _no_room(fault: OSError) -> int:
    """The disk is full, most likely that of the temporary files, or nowhere can any be put."""
    import tempfile

    from witnessmark.cli.terminal import print_line

    if _has_temporary_folder():
        told = (
            f"There is no room to write ({fault.strerror}); temporary files go to "
            f"{tempfile.gettempdir()}."
        )
    else:
        told = "No folder takes temporary files: each is missing, full or closed to this user."
    print_line(
        f"{told} No half-written file was left.\n"
        "expected room there, or another folder named in TMPDIR",
        sys.stderr,
    )
    return 2


def _not_printed(fault: OSError) -> int:
    """What was written stands; only the answer could not be printed."""
    from witnessmark.cli.terminal import print_line

    with suppress(OSError):  # the error stream may lead to the same place
        print_line(
            f"The answer could not be printed ({fault.strerror}).\n"
            "expected room where it is printed to",
            sys.stderr,
        )
    with suppress(OSError):  # what still waits to be printed is not tried again at the end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 2


def _misused(fault: "TyperException") -> int:
    """How the command is used and what is wrong, with every sign that was typed shown."""
    from witnessmark.cli.terminal import print_line

    said = io.StringIO()
    fault.show(said)  # type: ignore[attr-defined]  # every one that is raised has it
    print_line(said.getvalue().rstrip("\n"), sys.stderr)
    return fault.exit_code


def _own_fault(fault: BaseException) -> int:
    """One calm sentence; the place of the fault only where it was asked for."""
    if os.environ.get("WITNESSMARK_DEBUG") == "1":
        import traceback

        traceback.print_exception(fault)
    else:
        from witnessmark.cli.terminal import print_line

        said = " ".join(str(fault).split())[:200]
        print_line(
            f"Witnessmark met a fault of its own and stopped ({type(fault).__name__}"
            f"{': ' + said if said else ''}). No half-written file was left. "
            "WITNESSMARK_DEBUG=1 shows the place.",
            sys.stderr,
        )
    return 1
