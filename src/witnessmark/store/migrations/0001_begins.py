"""The tables of a store, as it begins."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    """Every table of the first version."""

    initial = True

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="HeldCase",
            fields=[
                ("id", models.CharField(max_length=80, primary_key=True, serialize=False)),
                ("made_at", models.DateTimeField()),
                ("put_away", models.BooleanField(default=False)),
            ],
        ),
        migrations.CreateModel(
            name="HeldExhibit",
            fields=[
                ("sha256", models.CharField(max_length=64, primary_key=True, serialize=False)),
                ("size", models.PositiveBigIntegerField()),
                ("media_type", models.CharField(max_length=40)),
                ("width", models.PositiveIntegerField()),
                ("height", models.PositiveIntegerField()),
                ("at", models.DateTimeField()),
                ("offset_minutes", models.SmallIntegerField(null=True)),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="Setting",
            fields=[
                ("key", models.CharField(max_length=80, primary_key=True, serialize=False)),
                ("value", models.TextField()),
            ],
        ),
        migrations.CreateModel(
            name="CasePass",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("token_sha256", models.CharField(max_length=64, unique=True)),
                (
                    "kind",
                    models.CharField(
                        choices=[("second", "Second"), ("executor", "Executor")], max_length=12
                    ),
                ),
                ("for_whom", models.CharField(blank=True, max_length=200)),
                ("made_by", models.TextField(blank=True)),
                ("at", models.DateTimeField()),
                ("until", models.DateTimeField()),
                ("ended_at", models.DateTimeField(null=True)),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="passes",
                        to="store.heldcase",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Person",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[
                            ("owner", "Owner"),
                            ("assistant", "Assistant"),
                            ("reader", "Reader"),
                        ],
                        max_length=12,
                    ),
                ),
                ("name", models.CharField(max_length=200)),
                ("profile", models.TextField(blank=True)),
                (
                    "user",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="person",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="HeldRevision",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                ("parent_sha256", models.CharField(blank=True, max_length=64)),
                ("sha256", models.CharField(max_length=64)),
                ("at", models.DateTimeField(null=True)),
                ("offset_minutes", models.SmallIntegerField(null=True)),
                ("who", models.TextField(blank=True)),
                ("did", models.TextField(blank=True)),
                ("undoes", models.PositiveIntegerField(null=True)),
                ("text", models.TextField()),
                ("filed", models.TextField(blank=True)),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="revisions",
                        to="store.heldcase",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("case", "number"), name="one_revision_a_number")
                ],
            },
        ),
        migrations.CreateModel(
            name="IssuedReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=80)),
                ("issue", models.PositiveIntegerField()),
                ("revision", models.PositiveIntegerField()),
                ("at", models.DateTimeField()),
                ("offset_minutes", models.SmallIntegerField(null=True)),
                ("by", models.TextField(blank=True)),
                ("kind", models.CharField(max_length=40)),
                ("files", models.TextField()),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="issued",
                        to="store.heldcase",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(
                        fields=("case", "number", "issue", "kind"), name="one_report_an_issue"
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="LetIn",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="let_in",
                        to="store.heldcase",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="let_in",
                        to="store.person",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("person", "case"), name="let_in_once")
                ],
            },
        ),
        migrations.CreateModel(
            name="WrittenBeside",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("revision", models.PositiveIntegerField()),
                ("path", models.TextField()),
                ("base", models.TextField(blank=True)),
                ("theirs", models.TextField(blank=True)),
                ("mine", models.TextField(blank=True)),
                ("who", models.TextField(blank=True)),
                ("at", models.DateTimeField()),
                ("offset_minutes", models.SmallIntegerField(null=True)),
                ("settled_at", models.DateTimeField(null=True)),
                ("settled_by", models.TextField(blank=True)),
                ("kept", models.CharField(blank=True, max_length=8)),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="beside",
                        to="store.heldcase",
                    ),
                ),
            ],
            options={
                "indexes": [models.Index(fields=["case", "settled_at"], name="beside_to_settle")],
            },
        ),
    ]
