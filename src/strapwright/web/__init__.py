"""The pages in a browser: thin, over what the pages say; loopback only."""

from strapwright.web.app import create_app

__all__ = ["create_app"]
