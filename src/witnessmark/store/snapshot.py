"""All rows of a store as they were at one moment, while others write; and put into an empty one.

Both databases give a transaction that sees one state and holds nobody up. The rows are those of the
migrations that were applied, so that a store of an older version can be read and put back too.
"""

import json
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from typing import IO, Any

from django.core.management.color import no_style
from django.db import connections, models, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.state import StateApps

HERE = "default"
_KEPT = ("auth", "store")
"""The apps whose migrations say what the rows are."""
_ACCOUNTS = "auth.user"
_BATCH = 200

type Applied = Mapping[str, str]
"""Of each app the last migration that was applied."""


@contextmanager
def one_moment() -> Iterator[str]:
    """A further connection, of this thread, in a transaction that sees one state of the database;
    its name."""
    name = f"moment-{os.urandom(6).hex()}"
    now = connections[HERE]
    options = dict(now.settings_dict["OPTIONS"])
    if now.vendor == "sqlite":
        options["transaction_mode"] = "DEFERRED"
    else:
        from django.db.backends.postgresql.psycopg_any import IsolationLevel

        options["isolation_level"] = IsolationLevel.REPEATABLE_READ
    connections[name] = type(now)({**now.settings_dict, "OPTIONS": options}, name)
    try:
        with transaction.atomic(using=name):
            yield name
    finally:
        connections[name].close()
        del connections[name]


def applied(using: str = HERE) -> dict[str, str]:
    """The last migration of each app that was applied; of none where there are no tables."""
    loader = MigrationExecutor(connections[using]).loader
    done = [key for key in loader.applied_migrations or () if key[0] in _KEPT]
    return {app: max(name for each, name in done if each == app) for app in {a for a, _ in done}}


def unknown(found: Applied) -> list[str]:
    """The migrations that this version does not have."""
    known = MigrationExecutor(connections[HERE]).loader.disk_migrations or {}
    return [f"{app} {name}" for app, name in found.items() if (app, name) not in known]


def tables(found: Applied, using: str = HERE) -> tuple[type[models.Model], ...]:
    """The tables that are kept, as they were after these migrations."""
    loader = MigrationExecutor(connections[using]).loader
    apps = loader.project_state(list(found.items())).apps
    assert isinstance(apps, StateApps), "a state of the past has apps of its own"
    return tuple(
        each
        for each in apps.get_models()
        if each._meta.app_label == "store" or each._meta.label_lower == _ACCOUNTS
    )


def write_rows(table: type[models.Model], using: str, out: IO[bytes]) -> int:
    """Every row of a table as a line of JSON; gives how many."""
    names = [field.attname for field in table._meta.concrete_fields]
    count = 0
    for row in table._base_manager.using(using).order_by("pk").values(*names).iterator(_BATCH):
        line = json.dumps(row, ensure_ascii=False, default=_as_text)
        out.write(line.encode("utf-8") + b"\n")
        count += 1
    return count


def put_rows(table: type[models.Model], lines: Iterator[bytes]) -> None:
    """Put the rows that were written so into an empty table."""
    fields = {field.attname: field for field in table._meta.concrete_fields}
    batch: list[models.Model] = []
    for line in lines:
        row = json.loads(line)
        batch.append(table(**{name: fields[name].to_python(row[name]) for name in fields}))
        if len(batch) == _BATCH:
            table._base_manager.bulk_create(batch)
            batch = []
    table._base_manager.bulk_create(batch)


def count_on(found: tuple[type[models.Model], ...]) -> None:
    """Let the next row of each table get a number that none has."""
    connection = connections[HERE]
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), list(found)):
            cursor.execute(statement)


def _as_text(value: Any) -> str:
    if isinstance(value, datetime):
        return value.isoformat()
    raise TypeError(f"a row holds a {type(value).__name__}")
