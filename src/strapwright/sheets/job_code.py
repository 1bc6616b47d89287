"""What ties a sheet to its job: a short digest, and the square code that carries it."""

from __future__ import annotations

import io
from hashlib import sha256

import segno

from strapwright.shop.job import Job
from strapwright.shop_files.writing import write_job


def job_digest(job: Job) -> str:
    """Return eight characters that change when anything in the job changes.

    Parameters
    ----------
    job
        Its file text is digested by SHA-256 (FIPS 180-4); the first 32 bits are shown.
    """
    digest = sha256(write_job(job).encode()).hexdigest().upper()
    return f"{digest[:4]}-{digest[4:8]}"


def code_text(job: Job) -> str:
    """Return what the square code says: no address, only the name and the digest."""
    return f"strapwright {job_digest(job)} {job.part.name}"


def code_svg(job: Job) -> str:
    """Draw the square code (ISO/IEC 18004, error correction M) as SVG."""
    out = io.BytesIO()
    code = segno.make(code_text(job), error="m", micro=False)
    code.save(out, kind="svg", xmldecl=False, border=2, dark="#000000", light="#ffffff", nl=False)
    return out.getvalue().decode()
