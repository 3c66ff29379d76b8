"""The running app as other sites and programs may reach it: nothing foreign is answered, nothing leads out."""

import re
import socket
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.plain_builds import plain_build
from tests.user.browser import running_app

SECRET = "title: not for the screen\n"
WAYS_OUT = ("../secret.yaml", "..%2fsecret.yaml", "%2e%2e/secret.yaml", "..%5csecret.yaml", "van.yaml%00")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("outside")
    (place / "secret.yaml").write_text(SECRET, encoding="utf-8")
    shop = place / "shop"
    shop.mkdir()
    (shop / "van.yaml").write_text(plain_build(), encoding="utf-8")
    return shop


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    with running_app(folder) as found:
        yield found


def asked(address: str, path: str, headers: dict[str, str] | None = None, sent: bytes | None = None) -> tuple[int, str]:
    request = urllib.request.Request(address + path, data=sent, headers=headers or {})
    try:
        with urllib.request.urlopen(request, timeout=30.0) as answer:
            return answer.status, answer.read().decode("utf-8", "replace")
    except urllib.error.HTTPError as refused:
        return refused.code, refused.read().decode("utf-8", "replace")


@pytest.mark.parametrize("headers", [{"Origin": "http://elsewhere.example"}, {"Host": "elsewhere.example"},
                                     {"Origin": "null"}, {"Origin": "http://127.0.0.1:1"}])  # fmt: skip
@pytest.mark.parametrize("path", ["/", "/build/van.yaml", "/paper/van.yaml/quote.pdf"])
def test_a_foreign_site_is_not_answered(address: str, path: str, headers: dict[str, str]) -> None:
    assert asked(address, path, headers)[0] == 403


def upgraded(address: str, origin: str) -> str:
    """First line of the answer to who asks for the page's socket."""
    port = int(address.rpartition(":")[2])
    with socket.create_connection(("127.0.0.1", port), timeout=10.0) as line:
        line.sendall(
            f"GET /_nicegui_ws/socket.io/?EIO=4&transport=websocket HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n"
            f"Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
            f"Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\nOrigin: {origin}\r\n\r\n".encode()
        )
        return line.recv(4096).decode("latin-1").splitlines()[0]


def test_the_socket_of_a_page_is_for_its_own_site_alone(address: str) -> None:
    assert " 101 " in upgraded(address, address)
    assert " 403 " in upgraded(address, "http://elsewhere.example")


@pytest.mark.parametrize("route", ["/build/{}", "/paper/{}/quote.pdf", "/model/{}"])
@pytest.mark.parametrize("name", WAYS_OUT)
def test_no_address_leads_out_of_the_folder(address: str, route: str, name: str) -> None:
    _, said = asked(address, route.format(name))
    assert "not for the screen" not in said


def test_fifty_megabytes_sent_past_the_page_are_not_kept(address: str, folder: Path) -> None:
    _, page = asked(address, "/")
    found = re.search(r"/_nicegui/client/[\w-]+/upload/\d+", page)
    assert found is not None
    edge = "edge-of-the-parts"
    small = plain_build().encode()
    for name, sent in (("huge.yaml", b"a: " + b"x" * 50_000_000), ("../../out.yaml", small), ("sent.yaml", small)):
        head = f'--{edge}\r\nContent-Disposition: form-data; name="file"; filename="{name}"\r\n\r\n'
        body = head.encode() + sent + f"\r\n--{edge}--\r\n".encode()
        asked(address, found[0], {"Content-Type": f"multipart/form-data; boundary={edge}", "Origin": address}, body)
    assert {each.name for each in folder.iterdir()} - {"out.yaml"} == {"van.yaml", "sent.yaml"}  # the way in was taken
    assert {each.name for each in folder.parent.iterdir()} == {"shop", "secret.yaml"}
    assert asked(address, "/build/van.yaml")[0] == 200
