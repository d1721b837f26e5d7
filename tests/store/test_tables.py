"""The tables, their migrations, and what is loaded for them."""

import subprocess
import sys

import pytest
from django.core.management import call_command


@pytest.mark.usefixtures("home")
def test_every_table_is_as_its_migrations_make_it():
    call_command("makemigrations", "store", check=True, dry_run=True, verbosity=0)


def test_what_needs_no_database_loads_none():
    """The face, and two changes put together; each name of the face is found when it is asked."""
    done = subprocess.run(
        [sys.executable, "-c",
         "import sys, witnessmark.cli.main\n"
         "from witnessmark import store\n"
         "assert store.merge({}, {}, {}).value == {}\n"
         "print([each for each in sys.modules if each.partition('.')[0] == 'django'])"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.stdout, done.stderr) == ("[]\n", "")


def test_every_name_of_the_face_is_there():
    from witnessmark import store

    assert [name for name in store.__all__ if getattr(store, name, None) is None] == []
    assert sorted(store.__all__) == sorted(store._HOMES)
