"""The addresses of the phone, and of where the owner lets one in and lets it go."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("phones", "phones", "phone.letting_in_view:page", Who.OWNER, Who.OWNER),
    Route("phone_gone", "phones/<int:number>/gone", "phone.letting_in_view:gone", None, Who.OWNER),
    Route("trust", "trust", "phone.trust_view:page", Who.ANYBODY),
    Route("authority", "trust/authority.crt", "phone.trust_view:authority", Who.ANYBODY),
    Route("join", "join/<str:code>", "phone.join_view:page", Who.ANYBODY, Who.ANYBODY),
    Route("phone", "phone", "phone.phone_view:page", Who.PASS),
    Route("phone_hello", "phone/hello", "phone.phone_view:hello", Who.PASS),
    Route("phone_visit", "phone/visits/<case:case>", "phone.phone_view:visit", Who.PASS),
    Route("phone_end", "phone/visits/<case:case>/end", "phone.phone_view:end", Who.PASS),
    Route("phone_jottings", "phone/jottings", "phone.taking_view:jottings", None, Who.PASS),
    Route("phone_picture", "phone/pictures/<str:sha256>", "phone.taking_view:picture",
          None, Who.PASS),
)  # fmt: skip
"""The addresses of these pages."""
