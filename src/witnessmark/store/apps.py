"""The store as an app of Django's."""

from django.apps import AppConfig


class StoreApp(AppConfig):
    """Its name, its label, and the kind of number a row has."""

    name = "witnessmark.store"
    label = "store"
    default_auto_field = "django.db.models.BigAutoField"
