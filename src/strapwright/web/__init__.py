"""The pages in a browser: thin, on the use cases of the service layer, loopback only."""

from strapwright.web.app import create_app

__all__ = ["create_app"]
