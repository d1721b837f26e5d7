"""The workshop as the servers that are measured want it: an `application` of an opened folder."""

import os
from pathlib import Path

from witnessmark.web import server

server.prepare(Path(os.environ["WITNESSMARK_HOME"]))

from django.core.wsgi import get_wsgi_application  # noqa: E402  # once Django knows its folder

application = get_wsgi_application()
