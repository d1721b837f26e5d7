"""The store of a folder brought up to date, after a backup of its own."""

from django.core.management import call_command


def migrate_home() -> None:
    """Bring the store of this workshop to the present form."""
    call_command("migrate", verbosity=0, interactive=False)
