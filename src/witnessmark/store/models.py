"""The rows of the store. What is frozen refuses to be written again or thrown away.

Values of a case stand here as JSON text: no database gets to put their keys in another order.
"""

from typing import Any, NoReturn

from django.conf import settings
from django.db import models

_DIGEST = 64
_NAME = 80


class FrozenRowError(TypeError):
    """A program tried to change or remove what is never changed: our own mistake."""


class FrozenRows[M: models.Model](models.QuerySet[M]):
    """Rows that are added and read, and nothing else."""

    def _refuse(self, *_given: Any, **_named: Any) -> NoReturn:
        raise FrozenRowError(f"{self.model.__name__} is never changed or removed")

    update = bulk_update = delete = _refuse


class FrozenRow(models.Model):
    """A row that is written once."""

    objects = models.Manager.from_queryset(FrozenRows)()

    class Meta:
        abstract = True

    def save(self, **named: Any) -> None:
        """Add the row; a second time is refused."""
        if not self._state.adding:
            raise FrozenRowError(f"{type(self).__name__} is never changed")
        super().save(**{**named, "force_insert": True})

    def delete(self, *_given: Any, **_named: Any) -> NoReturn:
        """Refused."""
        raise FrozenRowError(f"{type(self).__name__} is never removed")


class HeldCase(models.Model):
    """A case; all that is known of it stands in its revisions."""

    id = models.CharField(primary_key=True, max_length=_NAME)
    made_at = models.DateTimeField()
    put_away = models.BooleanField(default=False)


class HeldRevision(FrozenRow):
    """One state of a case document. `offset_minutes` is None where the moment bore none; `filed`
    is the file it was taken over from, where another would have been written for it."""

    case = models.ForeignKey(HeldCase, on_delete=models.PROTECT, related_name="revisions")
    number = models.PositiveIntegerField()
    parent_sha256 = models.CharField(max_length=_DIGEST, blank=True)
    sha256 = models.CharField(max_length=_DIGEST)
    at = models.DateTimeField(null=True)
    offset_minutes = models.SmallIntegerField(null=True)
    who = models.TextField(blank=True)
    did = models.TextField(blank=True)
    undoes = models.PositiveIntegerField(null=True)
    text = models.TextField()
    filed = models.TextField(blank=True)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("case", "number"), name="one_revision_a_number"),
        )


class WrittenBeside(models.Model):
    """What two people wrote differently at one place; an empty text stands for no value."""

    case = models.ForeignKey(HeldCase, on_delete=models.PROTECT, related_name="beside")
    revision = models.PositiveIntegerField()
    path = models.TextField()
    base = models.TextField(blank=True)
    theirs = models.TextField(blank=True)
    mine = models.TextField(blank=True)
    who = models.TextField(blank=True)
    at = models.DateTimeField()
    offset_minutes = models.SmallIntegerField(null=True)
    settled_at = models.DateTimeField(null=True)
    settled_by = models.TextField(blank=True)
    kept = models.CharField(max_length=8, blank=True)

    class Meta:
        indexes = (models.Index(fields=("case", "settled_at"), name="beside_to_settle"),)


class HeldExhibit(FrozenRow):
    """A file below `exhibits/`, by its digest."""

    sha256 = models.CharField(primary_key=True, max_length=_DIGEST)
    size = models.PositiveBigIntegerField()
    media_type = models.CharField(max_length=40)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    at = models.DateTimeField()
    offset_minutes = models.SmallIntegerField(null=True)


class Person(models.Model):
    """An account's role, the name shown, and the examiner's own particulars."""

    class Role(models.TextChoices):
        """What somebody may do."""

        OWNER = "owner"
        ASSISTANT = "assistant"
        READER = "reader"

    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="person"
    )
    role = models.CharField(max_length=12, choices=Role)
    name = models.CharField(max_length=200)
    profile = models.TextField(blank=True)


class LetIn(models.Model):
    """A case that an assistant or reader may see; an owner sees all."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="let_in")
    case = models.ForeignKey(HeldCase, on_delete=models.CASCADE, related_name="let_in")

    class Meta:
        constraints = (models.UniqueConstraint(fields=("person", "case"), name="let_in_once"),)


class CasePass(models.Model):
    """A link to one case for somebody without an account; of its token only the digest is kept."""

    class PassKind(models.TextChoices):
        """What the link shows."""

        SECOND = "second"
        EXECUTOR = "executor"

    token_sha256 = models.CharField(max_length=_DIGEST, unique=True)
    case = models.ForeignKey(HeldCase, on_delete=models.CASCADE, related_name="passes")
    kind = models.CharField(max_length=12, choices=PassKind)
    for_whom = models.CharField(max_length=200, blank=True)
    made_by = models.TextField(blank=True)
    at = models.DateTimeField()
    until = models.DateTimeField()
    ended_at = models.DateTimeField(null=True)


class Phone(models.Model):
    """A phone that was let in: of its code and its token only the digests are kept. `ahead` is how
    many seconds its clock was before this machine's when it joined."""

    code_sha256 = models.CharField(max_length=_DIGEST, unique=True)
    token_sha256 = models.CharField(max_length=_DIGEST, blank=True, db_index=True)
    name = models.CharField(max_length=_NAME, blank=True)
    by = models.CharField(max_length=200)
    made_at = models.DateTimeField()
    until = models.DateTimeField()
    joined_at = models.DateTimeField(null=True)
    seen_at = models.DateTimeField(null=True)
    ended_at = models.DateTimeField(null=True)
    ahead = models.IntegerField(default=0)


class PhoneLetIn(models.Model):
    """A case to which a phone may add."""

    phone = models.ForeignKey(Phone, on_delete=models.CASCADE, related_name="let_in")
    case = models.ForeignKey(HeldCase, on_delete=models.CASCADE, related_name="phones")

    class Meta:
        constraints = (models.UniqueConstraint(fields=("phone", "case"), name="phone_let_in_once"),)


class JottingTaken(FrozenRow):
    """A jotting that a case has, by the id that its phone gave it, so that none is taken twice."""

    id = models.CharField(primary_key=True, max_length=40)
    phone = models.ForeignKey(Phone, on_delete=models.PROTECT, null=True, related_name="taken")
    case = models.ForeignKey(HeldCase, on_delete=models.PROTECT, related_name="jottings")
    revision = models.PositiveIntegerField()
    at = models.DateTimeField()


class IssuedReport(FrozenRow):
    """A report as it was issued; `files` is JSON, name to digest."""

    case = models.ForeignKey(HeldCase, on_delete=models.PROTECT, related_name="issued")
    number = models.CharField(max_length=_NAME)
    issue = models.PositiveIntegerField()
    revision = models.PositiveIntegerField()
    at = models.DateTimeField()
    offset_minutes = models.SmallIntegerField(null=True)
    by = models.TextField(blank=True)
    kind = models.CharField(max_length=40)
    files = models.TextField()

    class Meta:
        constraints = (
            models.UniqueConstraint(
                fields=("case", "number", "issue", "kind"), name="one_report_an_issue"
            ),
        )


class Setting(models.Model):
    """Something that the owner has set for the whole workshop, as JSON."""

    key = models.CharField(primary_key=True, max_length=_NAME)
    value = models.TextField()
