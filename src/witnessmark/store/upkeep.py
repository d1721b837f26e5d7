"""A store brought up to the version of the program that opens it, after a backup of its own."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.core.management import call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

from witnessmark.source import Source
from witnessmark.store.backing_up import backup
from witnessmark.store.digest_files import home
from witnessmark.store.problems import FromANewerVersion, NotKeptError
from witnessmark.store.snapshot import applied, unknown

BACKUPS = "backups"
"""The folder of the backups that are made before a store is changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroughtUp:
    """What was done: the steps, and the backup that was made first; none of an empty store."""

    steps: tuple[str, ...]
    backup: Path | None


def migrate_home(at: datetime) -> BroughtUp:
    """Bring the store up to date. Nothing is done where it is; one that a newer version has
    written is refused."""
    home().mkdir(mode=0o700, parents=True, exist_ok=True)
    found = applied()
    newer = unknown(found)
    if newer:
        raise NotKeptError((FromANewerVersion(Source(str(home())), ", ".join(newer)),))
    steps = steps_ahead()
    kept = None
    if steps and "store" in found:
        kept = home() / BACKUPS / f"{at:%Y%m%d-%H%M%S}-before-{steps[-1].replace(' ', '-')}.zip"
        kept.parent.mkdir(exist_ok=True)
        backup(kept, at)
    if steps:
        call_command("migrate", verbosity=0, interactive=False)
    return BroughtUp(steps=steps, backup=kept)


def steps_ahead() -> tuple[str, ...]:
    """The migrations that are not applied yet."""
    executor = MigrationExecutor(connection)
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return tuple(f"{step.app_label} {step.name}" for step, _is_back in plan)
