"""Folders by the custom of each system, and one port for one store."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path

import platformdirs
import pytest
from platformdirs.macos import MacOS
from platformdirs.unix import Unix

from strapwright.cli.main import main
from strapwright.service.user_folders import default_store, user_cache_folder, user_data_folder
from strapwright.shared_serving import listen


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in [one for one in os.environ if one.startswith("XDG_")]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


def on_a_mac(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setattr(platformdirs, "user_data_path", lambda: MacOS().user_data_path)
    monkeypatch.setattr(platformdirs, "user_cache_path", lambda: MacOS().user_cache_path)


def test_linux_keeps_to_the_xdg_base_directories(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(platformdirs, "user_data_path", lambda: Unix().user_data_path)
    assert default_store() == home / ".local" / "share" / "strapwright"
    monkeypatch.setenv("XDG_DATA_HOME", str(home / "elsewhere"))
    assert default_store() == home / "elsewhere" / "strapwright"
    # XDG base directory specification: relative paths are invalid and ignored.
    monkeypatch.setenv("XDG_DATA_HOME", "here")
    assert user_data_folder() == home / ".local" / "share"


def test_a_mac_keeps_them_in_its_library(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    on_a_mac(monkeypatch)
    assert default_store() == home / "Library" / "Application Support" / "strapwright"
    assert user_cache_folder() == home / "Library" / "Caches"


def test_a_store_that_an_earlier_version_made_on_a_mac_is_found(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    on_a_mac(monkeypatch)
    earlier = home / ".local" / "share" / "strapwright"
    earlier.mkdir(parents=True)
    assert default_store() == earlier
    (home / "Library" / "Application Support" / "strapwright").mkdir(parents=True)
    assert default_store() != earlier


def test_a_port_that_one_store_is_served_on_is_refused_to_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with listen("127.0.0.1", 0, "--port") as first:
        port = first.getsockname()[1]
        code = main(["serve", "--port", str(port), "--store", str(tmp_path / "second")])
        assert code == 2
        said = capsys.readouterr()
        assert said.out == ""
        assert f"port {port} of 127.0.0.1 cannot be used" in said.err
        assert "name another one" in said.err
        # The first is there as before.
        with socket.create_connection(("127.0.0.1", port), 10):
            pass
