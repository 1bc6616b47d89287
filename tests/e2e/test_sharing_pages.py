"""Sharing as it is used: another device joins by the printed code, over a real network address."""

from __future__ import annotations

import contextlib
import http.client
import re
import socket
import ssl
import sys
from pathlib import Path

import httpx
import pytest

sys.path.append(str(Path(__file__).parent))  # a folder of scripts, as pytest imports by file

from network_serving import NETWORK, OWN, memory, shared


def test_a_second_device_joins_by_the_printed_code_and_is_shut_out(tmp_path: Path) -> None:
    with shared(tmp_path / "store") as (_, own, link), httpx.Client(trust_env=False) as desk:
        origin = link.partition("/join")[0]
        with httpx.Client(trust_env=False, base_url=origin, timeout=60) as phone:
            assert phone.get("/").status_code == 401
            desk.headers["origin"] = own.rstrip("/")
            assert desk.post(f"{own}demo", timeout=120).status_code == 303
            answer = phone.get(link, follow_redirects=True)
            assert answer.status_code == 200
            assert answer.url.path == "/"
            assert not answer.url.query
            assert "fender hanger" in answer.text
            job = re.findall(r"/jobs/([0-9a-f]{32})/part", answer.text)[0]
            # What the phone changes, the desk has.
            phone.headers["origin"] = origin
            assert phone.post(f"/jobs/{job}/copy").status_code == 303
            assert desk.get(own).text.count("fender hanger") > answer.text.count("fender hanger")
            # A phone that leaves is told so, over the wire, and is out.
            with httpx.Client(trust_env=False, base_url=origin, timeout=60) as other:
                other.get(link)
                left = other.post("/leave", headers={"origin": origin})
                assert left.status_code == 200
                assert "This device is out" in left.text
                assert other.get("/").status_code == 401
                # The code that let it in ended with it.
                assert other.get(link).status_code == 403
            page = desk.get(f"{own}sharing").text
            number = re.findall(r'name="id" value="([0-9a-f]{16})"', page)[0]
            desk.post(f"{own}sharing/revoke", data={"id": number})
            assert phone.get("/").status_code == 401
            desk.post(f"{own}sharing/stop")
            with pytest.raises(httpx.TransportError):
                phone.get("/")
        assert desk.get(own).status_code == 200


def test_what_is_shared_can_be_encrypted(tmp_path: Path) -> None:
    with shared(tmp_path / "store", "--tls") as (_, own, link):
        assert link.startswith("https://")
        certificate = tmp_path / "store" / "sharing" / "certificate.pem"
        trusted = ssl.create_default_context(cafile=str(certificate))
        with httpx.Client(verify=trusted, trust_env=False, timeout=60) as phone:
            answer = phone.get(link)
            assert answer.status_code == 303
            assert "secure" in answer.headers["set-cookie"].lower()
        with httpx.Client(trust_env=False) as stranger, pytest.raises(httpx.ConnectError):
            stranger.get(link)
        key = certificate.with_name("key.pem")
        assert key.stat().st_mode & 0o077 == 0
        page = httpx.get(f"{own}sharing", trust_env=False, timeout=60).text
        assert re.search(r"<code>([0-9A-F]{2}:){31}[0-9A-F]{2}</code>", page)


@pytest.mark.long
def test_a_thousand_half_sent_requests_hold_nothing_up(tmp_path: Path) -> None:
    with shared(tmp_path / "store") as (process, own, link):
        host, port = NETWORK, int(re.findall(r":(\d+)/", link)[0])
        # What planning loads is there before the memory is looked at.
        with httpx.Client(
            base_url=own, trust_env=False, timeout=120, headers={"origin": own.rstrip("/")}
        ) as desk:
            job = desk.post("/demo").headers["location"].removesuffix("/part")
            assert desk.get(f"{job}/bends").status_code == 200
        before = memory(process)
        other = ("127.0.0.3", 0)
        held = [socket.create_connection((host, port), 60, other) for _ in range(1000)]
        for one in held:
            with contextlib.suppress(OSError):
                one.sendall(b"GET / HTTP/1.1\r\nhost: x\r\nx-slow: ")
        # Others are served meanwhile, and what does not go on is cut off.
        assert httpx.get(own, trust_env=False, timeout=60).status_code == 200
        assert memory(process) - before < 60
        for one in held:
            assert ended(one)
            one.close()
        assert memory(process) - before < 60


def ended(one: socket.socket) -> bool:
    """Wait until the other side has hung up."""
    try:
        return one.recv(1) == b""
    except ConnectionError:
        return True


@pytest.mark.long
def test_headers_that_do_not_come_are_not_waited_for(tmp_path: Path) -> None:
    with shared(tmp_path / "store") as (_, own, _link):
        port = int(re.findall(r":(\d+)/", own)[0])
        with socket.create_connection((OWN, port), timeout=60) as slow:
            slow.sendall(b"GET / HTTP/1.1\r\nhost: ")
            assert ended(slow)
        # One after the other on one connection is as good as ever.
        kept = http.client.HTTPConnection(OWN, port, timeout=60)
        for _ in range(3):
            kept.request("GET", "/new")
            assert kept.getresponse().read()
        kept.close()
