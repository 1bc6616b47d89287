"""A certificate that this machine made itself, for the pages on the shop's network.

It keeps others from reading along.  That the right machine answers it does not prove: for that its
fingerprint is compared by eye.
"""

from __future__ import annotations

import ipaddress
import os
from datetime import UTC, datetime, timedelta
from pathlib import Path

from attrs import frozen
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from strapwright.errors import InputError

_DAYS = 397  # browsers take none that holds longer (common practice, no source)
_RENEW = timedelta(days=30)


@frozen(kw_only=True)
class OwnCertificate:
    """Where it is kept, and the SHA-256 of it in pairs of hexadecimal digits."""

    certificate: Path
    key: Path
    fingerprint: str


def own_certificate(folder: Path, address: str) -> OwnCertificate:
    """Return the certificate of an address, made where there is none that holds for a month.

    Parameters
    ----------
    folder
        Of the store.
    address
        Of this machine on the network.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    kept = folder / "sharing"
    certificate, key = kept / "certificate.pem", kept / "key.pem"
    found = _read(certificate, key, address)
    if found is None:
        try:
            kept.mkdir(mode=0o700, exist_ok=True)
            found = _make(certificate, key, address)
        except OSError as error:
            raise InputError(
                "--tls", f"the certificate cannot be kept ({error.strerror})",
                "free some room, or share without it", value=str(kept),
            ) from error  # fmt: skip
    print_of = found.fingerprint(hashes.SHA256()).hex(":").upper()
    return OwnCertificate(certificate=certificate, key=key, fingerprint=print_of)


def _read(certificate: Path, key: Path, address: str) -> x509.Certificate | None:
    try:
        found = x509.load_pem_x509_certificate(certificate.read_bytes())
        private = serialization.load_pem_private_key(key.read_bytes(), None)
        names = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (OSError, ValueError, TypeError, x509.ExtensionNotFound):
        return None
    now = datetime.now(UTC)
    # One from before the clock was set back would be from the future to every browser.
    holds = found.not_valid_before_utc <= now < found.not_valid_after_utc - _RENEW
    ours = ipaddress.ip_address(address) in names.get_values_for_type(x509.IPAddress)
    fits = found.public_key() == private.public_key()
    return found if holds and ours and fits else None


def _make(certificate: Path, key: Path, address: str) -> x509.Certificate:
    private = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Strapwright at {address}")])
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(private.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1))
        .not_valid_after(now + timedelta(days=_DAYS))
        .add_extension(
            x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address(address))]),
            critical=False,
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .sign(private, hashes.SHA256())
    )
    raw = private.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    handle = os.open(key, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "wb") as stream:
        stream.write(raw)
    certificate.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    return made
