"""Signing in and out; whoever opens a new workshop first, on its own machine, owns it."""

from django.conf import settings
from django.contrib.auth import authenticate, login, logout
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme

from witnessmark.store import accounts, people
from witnessmark.web.sign_in.attempts import ATTEMPTS
from witnessmark.web.sign_in.forms import FirstOwnerForm, SignInForm

LOOPBACK = ("127.0.0.1", "::1")


def page(request: HttpRequest) -> HttpResponse:
    """Name and password; after several wrong ones the answer waits."""
    if not people.is_anybody_there():
        return redirect("first_owner")
    form, wanted = SignInForm(request.POST or None), _wanted(request)
    status = 200
    if request.method == "POST" and form.is_valid():
        name, address = form.cleaned_data["name"], request.META.get("REMOTE_ADDR", "")
        seconds = ATTEMPTS.seconds_to_wait(name, address)
        if seconds:
            form.add_error(None, f"Too many wrong passwords: try again in {seconds} seconds.")
            status = 429
        else:
            user = authenticate(request, username=name, password=form.cleaned_data["password"])
            if user is not None:
                ATTEMPTS.forget(name, address)
                login(request, user)
                return redirect(wanted)
            ATTEMPTS.note(name, address)
            form.add_error(None, "This name and password do not belong together.")
            status = 403
    return render(request, "sign_in/page.html", {"form": form, "next": wanted}, status=status)


def leave(request: HttpRequest) -> HttpResponse:
    """Out again, by a form alone."""
    if request.method == "POST":
        logout(request)
    return redirect("sign_in")


def first_owner(request: HttpRequest) -> HttpResponse:
    """The first account of a workshop, asked for on the machine that it runs on."""
    # Under --lan this machine comes by the address that it serves.
    own = (*LOOPBACK, *settings.ALLOWED_HOSTS)
    if people.is_anybody_there() or request.META.get("REMOTE_ADDR") not in own:
        raise Http404
    form = FirstOwnerForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        name, password = form.cleaned_data["name"], form.cleaned_data["password"]
        if accounts.first_owner(name, password) is None:
            raise Http404
        login(request, authenticate(request, username=name, password=password))
        return redirect("board")
    return render(request, "sign_in/first_owner.html", {"form": form})


def _wanted(request: HttpRequest) -> str:
    """The page that was asked for before, if it is one of this workshop."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    here = {request.get_host()}
    fits = url_has_allowed_host_and_scheme(asked, here, require_https=request.is_secure())
    return asked if fits else reverse("board")
