"""What every address of the pages takes and answers, as an OpenAPI description."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

Described = dict[str, Any]
_PAGE, _DATA, _FORM = "text/html", "application/json", "application/x-www-form-urlencoded"
_ANY = "*/*"
_PDF, _TOML, _CSV = "application/pdf", "application/toml", "text/csv"
_TEXT, _ZIP, _DXF = "text/plain", "application/zip", "image/vnd.dxf"
# Addresses that give a file, and of what kind it is.
_FILES = {
    "/assets/{mark}/{name}": (_ANY,),
    "/backup.db": ("application/vnd.sqlite3",),
    "/bench/gauges.pdf": (_PDF,),
    "/crib.toml": (_TOML,),
    "/cut.csv": (_CSV,),
    "/everything.zip": (_ZIP,),
    "/jobs/{job}/bends/search/events": ("text/event-stream",),
    "/jobs/{job}/files/{name}": (_TOML, _PDF, _DATA, _ZIP),
    "/jobs/{job}/log.csv": (_CSV,),
    "/jobs/{job}/making/change.pdf": (_PDF,),
    "/jobs/{job}/making/{name}": (_PDF, _TEXT, _DATA, _DXF),
    "/jobs/{job}/money/quote.pdf": (_PDF,),
    "/jobs/{job}/propose/{search}/events": ("text/event-stream",),
    "/jobs/{job}/strength/strength.{kind}": (_TEXT, _DATA, _PDF),
    "/rack.toml": (_TOML,),
    "/rates.toml": (_TOML,),
    "/shop.webmanifest": ("application/manifest+json",),
}
_FRAMES = {
    "type": "object",
    "required": ["view", "thickness", "edge_thickness", "acts"],
    "additionalProperties": False,
    "properties": {
        "view": {},
        "thickness": {"type": "number", "exclusiveMinimum": 0},
        "edge_thickness": {"type": "number", "exclusiveMinimum": 0},
        "acts": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["bend", "stop", "free", "count", "bar", "turn", "travel", "load"],
                "properties": {
                    "bend": {"type": "integer", "minimum": 1},
                    "count": {"type": "integer", "minimum": 1},
                    "travel": {"type": "array", "items": {"type": "string"}},
                },
            },
        },
    },
}
# Addresses that answer with data, and its schema.
_ANSWERS: dict[str, Described] = {
    "/jobs/{job}/bends/whole/frames.json": _FRAMES,
    "/jobs/{job}/bends/{bend}/frames.json": _FRAMES,
    "/jobs/{job}/bends/{bend}/more.json": {
        "type": "object",
        "required": ["further", "wrong"],
        "additionalProperties": False,
        "properties": {"further": {"type": "string"}, "wrong": {"type": "string"}},
    },
    "/live/{job}/now": {
        "type": "object",
        "required": ["version", "readings", "searched", "others"],
        "additionalProperties": False,
        "properties": {
            "version": {"type": "integer", "minimum": 1},
            "readings": {"type": "integer", "minimum": 0},
            "searched": {"type": "integer", "minimum": 0},
            "others": {"type": "string"},
        },
    },
    "/live/{job}/{name}/{stage}": {
        "type": "object",
        "minProperties": 1,
        "additionalProperties": False,
        "properties": {
            "fields": {
                "type": "object",
                "additionalProperties": {
                    "type": "array",
                    "minItems": 2,
                    "maxItems": 2,
                    "items": {"type": "string"},
                },
            },
            "state": {"enum": ["fresh", "wrong"]},
            "drawing": {
                "type": "object",
                "required": ["svg", "width", "scale", "handles"],
                "additionalProperties": False,
                "properties": {
                    "svg": {"type": "string"},
                    "width": {"type": "number", "exclusiveMinimum": 0},
                    "scale": {"type": "string", "pattern": "^[0-9]{1,4}\\.[0-9]{1,9}$"},
                    "handles": {"type": "array", "items": {"type": "object"}},
                },
            },
            "follows": {"type": "object", "required": ["version"]},
            "pieces": {"type": "object", "additionalProperties": {"type": "string"}},
            "sound": {"type": "boolean"},
            "saved": {"type": "integer", "minimum": 0},
        },
    },
}
# Addresses that answer a GET with more than a page, or a POST with more than where to go on.
_MORE: dict[str, tuple[int, ...]] = {
    "GET /bench": (422,),
    "GET /cut": (422,),
    "GET /jobs/{job}": (303,),
    "GET /jobs/{job}/bends/whole": (303,),
    "GET /jobs/{job}/bends/{bend}": (303,),
    "GET /jobs/{job}/log": (303,),
    "GET /jobs/{job}/log/bar": (303, 422),
    "GET /jobs/{job}/log/chart": (303, 422),
    "GET /jobs/{job}/log/learned": (303, 422),
    "GET /jobs/{job}/log/trial": (303, 422),
    "GET /jobs/{job}/making/change": (422,),
    "GET /join": (303, 403, 429),
    "POST /bring": (422,),
    "POST /crib": (422,),
    "POST /crib/bring": (422,),
    "POST /cut/sawn": (200, 422),
    "POST /cut/undo": (200, 422),
    "POST /jobs/{job}/log": (200,),
    "POST /jobs/{job}/log/lines": (200, 422),
    "POST /jobs/{job}/propose": (200, 422),
    "POST /jobs/{job}/strength": (200, 422),
    "POST /leave": (200,),
    "POST /lots": (422,),
    "POST /new": (422,),
    "POST /rack": (422,),
    "POST /rack/bring": (422,),
    "POST /rates": (422,),
    "POST /rates/bring": (422,),
    "POST /settings/restore": (422,),
    "POST /sharing/invite": (422,),
    "POST /sharing/start": (422,),
}
_ELSEWHERE = ("GET /jobs/{job}", "GET /join")  # never a page of their own
_WORDS = {
    303: "Go on at the address in Location.",
    400: "The request or what it is about cannot be used; a sentence says why.",
    403: "Not from here, or not with this device's rights.",
    404: "There is nothing at this address.",
    413: "More was sent than a job file or a backup can be.",
    421: "The request names another machine.",
    422: "What was typed cannot be used; the page says why.",
    429: "Too many wrong codes; Retry-After says how long to wait.",
}
_GIVEN, _GOES_ON = 200, 303
_AT = "#/components/responses/"
_GUARD = (400, 403, 413, 421)  # what the guard of every address may answer


def description(app: FastAPI, version: str) -> Described:
    """Describe an application.

    Parameters
    ----------
    app
        As :func:`strapwright.web.app.create_app` makes it.
    version
        Of the program.

    Returns
    -------
    dict
        An OpenAPI description, version 3.1.
    """
    made = get_openapi(
        title="Strapwright",
        version=version,
        summary="The pages on this machine, and what they ask while somebody types.",
        routes=app.routes,
    )
    for path, method, operation in _operations(made):
        asked = f"{method.upper()} {path}"
        operation["responses"] = {
            str(status): _answer(path) if status == _GIVEN else {"$ref": f"{_AT}{status}"}
            for status in _statuses(asked, path)
        }
        if method == "post" and "requestBody" not in operation:
            typed = {"type": "object", "additionalProperties": {"type": "string"}}
            operation["requestBody"] = {"content": {_FORM: {"schema": typed}}}
    parts = made.setdefault("components", {})
    for name in ("HTTPValidationError", "ValidationError"):
        parts.get("schemas", {}).pop(name, None)  # the framework's own, which is never answered
    parts["responses"] = {str(status): _usual(status) for status in _WORDS}
    return made


def _operations(made: Described) -> Iterator[tuple[str, str, Described]]:
    for path, operations in made["paths"].items():
        for method, operation in operations.items():
            yield path, method, operation


def _statuses(asked: str, path: str) -> tuple[int, ...]:
    own = _GOES_ON if asked.startswith("POST ") and path not in _ANSWERS else _GIVEN
    usual = () if asked in _ELSEWHERE else (own,)
    return tuple(sorted({*usual, 404, *_GUARD, *_MORE.get(asked, ())}))


def _answer(path: str) -> Described:
    if path in _ANSWERS:
        content: Described = {_DATA: {"schema": _ANSWERS[path]}}
    elif path in _FILES:
        content = {kind: {} for kind in _FILES[path]}
    else:
        content = {_PAGE: {"schema": {"type": "string"}}}
    return {"description": "As asked for.", "content": content}


def _usual(status: int) -> Described:
    if status == _GOES_ON:
        return {"description": _WORDS[status]}
    content: Described = {_PAGE: {"schema": {"type": "string"}}}
    if status in _GUARD:  # in the words that the asking program reads
        said = {"type": "object", "required": ["said"], "properties": {"said": {"type": "string"}}}
        content[_DATA] = {"schema": said}
    return {"description": _WORDS[status], "content": content}
