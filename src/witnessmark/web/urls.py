"""The addresses of the workshop, made of the table of routes."""

from importlib import import_module

from django.http import HttpRequest, HttpResponse
from django.urls import path, register_converter

from witnessmark.web.guard import View, guarded
from witnessmark.web.route import Route
from witnessmark.web.routes import ROUTES


class CaseConverter:
    """The id of a case in an address."""

    regex = r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}"

    def to_python(self, value: str) -> str:
        """As it stands."""
        return value

    def to_url(self, value: str) -> str:
        """As it is."""
        return value


def _view(route: Route) -> View:
    """The view, whose module is imported when somebody first asks for it."""
    module, _, function = route.view.partition(":")

    def view(request: HttpRequest, **parts: object) -> HttpResponse:
        found: View = getattr(import_module(f"witnessmark.web.{module}"), function)
        return found(request, **parts)

    return view


register_converter(CaseConverter, "case")
urlpatterns = [path(e.path, guarded(e, _view(e)), name=e.name) for e in ROUTES]

handler400 = "witnessmark.web.shared.page.not_understood"
handler403 = "witnessmark.web.shared.page.not_allowed"
handler404 = "witnessmark.web.shared.page.not_here"
handler500 = "witnessmark.web.shared.page.our_fault"
