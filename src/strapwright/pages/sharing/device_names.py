"""Call a device by what its browser says of itself, so that a list of devices can be read."""

from __future__ import annotations

# In this order: a tablet and a phone say more than one of these.
_KINDS = (
    ("ipad", "tablet (iPad)"),
    ("iphone", "phone (iPhone)"),
    ("android", "phone (Android)"),
    ("windows", "computer (Windows)"),
    ("mac os", "computer (Mac)"),
    ("cros", "computer (ChromeOS)"),
    ("linux", "computer (Linux)"),
)


def device_name(user_agent: str) -> str:
    """Return what kind of device it seems to be; a person can call it something else."""
    said = user_agent[:400].casefold()
    if "android" in said and "mobile" not in said:
        return "tablet (Android)"
    return next((name for word, name in _KINDS if word in said), "device")
