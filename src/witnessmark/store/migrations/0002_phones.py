"""The phones that were let in, and the jottings a case has of them."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    """Two tables of phones, one of jottings."""

    dependencies = [
        ("store", "0001_begins"),
    ]

    operations = [
        migrations.CreateModel(
            name="Phone",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code_sha256", models.CharField(max_length=64, unique=True)),
                ("token_sha256", models.CharField(blank=True, db_index=True, max_length=64)),
                ("name", models.CharField(blank=True, max_length=80)),
                ("by", models.CharField(max_length=200)),
                ("made_at", models.DateTimeField()),
                ("until", models.DateTimeField()),
                ("joined_at", models.DateTimeField(null=True)),
                ("seen_at", models.DateTimeField(null=True)),
                ("ended_at", models.DateTimeField(null=True)),
                ("ahead", models.IntegerField(default=0)),
            ],
        ),
        migrations.CreateModel(
            name="JottingTaken",
            fields=[
                ("id", models.CharField(max_length=40, primary_key=True, serialize=False)),
                ("revision", models.PositiveIntegerField()),
                ("at", models.DateTimeField()),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="jottings",
                        to="store.heldcase",
                    ),
                ),
                (
                    "phone",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="taken",
                        to="store.phone",
                    ),
                ),
            ],
            options={
                "abstract": False,
            },
        ),
        migrations.CreateModel(
            name="PhoneLetIn",
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
                        related_name="phones",
                        to="store.heldcase",
                    ),
                ),
                (
                    "phone",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="let_in",
                        to="store.phone",
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(fields=("phone", "case"), name="phone_let_in_once")
                ],
            },
        ),
    ]
