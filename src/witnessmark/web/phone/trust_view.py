"""How a phone may come to trust this workshop's certificates, and how it forgets them again."""

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from witnessmark.web.certificates import authority_there, fingerprint_there


def page(request: HttpRequest) -> HttpResponse:
    """What the phone will ask, how to answer, and how to undo it."""
    told = {"fingerprint": fingerprint_there(settings.WITNESSMARK_HOME)}
    return render(request, "phone/trust.html", told)


def authority(request: HttpRequest) -> HttpResponse:
    """The certificate of this workshop's authority, which tells no secret."""
    found = authority_there(settings.WITNESSMARK_HOME)
    if found is None:
        raise Http404
    answer = HttpResponse(found, content_type="application/x-x509-ca-cert")
    answer["Content-Disposition"] = 'attachment; filename="witnessmark-authority.crt"'
    return answer
