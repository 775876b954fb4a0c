import threading
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from revealbook.render.failure import RenderFailed
from revealbook.render.fetcher import BASE, Gate, Refused
from revealbook.render.pdf import Rendered, typeset

MADE = datetime(2026, 11, 20, tzinfo=UTC)
SQUARE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect id="r" width="9" height="9"/></svg>'
PAGE = '<html lang="en"><title>t</title><style>{css}</style><body>{body}</body></html>'


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "allowed"
    folder.mkdir()
    (folder / "square.svg").write_text(SQUARE)
    (tmp_path / "secret.svg").write_text(SQUARE)
    (folder / "link.svg").symlink_to(tmp_path / "secret.svg")
    return folder


def page(root: Path, body: str = "", css: str = "", head: str = "") -> Rendered:
    html = PAGE.format(body=body, css=css).replace("<body>", f"{head}<body>")
    return typeset(html, roots=(root,), attachments=(), made=MADE)


def test_a_picture_from_an_allowed_folder_is_shown(root: Path) -> None:
    absolute = (root / "square.svg").as_uri()
    assert page(root, f'<img alt="a" src="square.svg"><img alt="a" src="{absolute}?x#r">').warnings == ()


def test_a_relative_address_is_looked_for_in_each_root_in_order(root: Path, tmp_path: Path) -> None:
    second = tmp_path / "second"
    second.mkdir()
    (second / "only.svg").write_text(SQUARE)
    (second / "square.svg").write_text(SQUARE)
    gate = Gate((root, second))
    assert gate.check(BASE + "only.svg") == second / "only.svg"
    assert gate.check(BASE + "square.svg") == root / "square.svg"


def test_a_picture_that_carries_its_own_content_is_shown(root: Path) -> None:
    assert page(root, f"<img alt='a' src='data:image/svg+xml,{SQUARE.replace('#', '%23')}'>").pages == 1


ATTACKS = {
    "image": '<img alt="a" src="{bad}">',
    "object": '<object data="{bad}" type="image/svg+xml">a</object>',
    "embed": '<embed src="{bad}" type="image/svg+xml">',
    "picture in a picture": '<svg viewBox="0 0 9 9"><title>a</title><image href="{bad}" width="9"/></svg>',
    "picture in a data picture": "<img alt='a' src='data:image/svg+xml,<svg viewBox=\"0 0 9 9\" "
    'xmlns="http://www.w3.org/2000/svg"><image href="{bad}" width="9" height="9"/></svg>\'>',
    "attached file": '<a rel="attachment" href="{bad}">a</a>',
    "background": '<p style="background: url({bad})">a</p>',
    "list mark": '<ul style="list-style-image: url({bad})"><li>a</li></ul>',
    "generated content": "<style>p::before {{ content: url({bad}) }}</style><p>a</p>",
}


@pytest.mark.parametrize("body", ATTACKS.values(), ids=ATTACKS.keys())
@pytest.mark.parametrize("bad", ["http://127.0.0.1:9/x.svg", "{outside}"], ids=["network", "outside"])
def test_nothing_on_a_page_reaches_the_network_or_other_folders(root: Path, body: str, bad: str) -> None:
    address = bad.format(outside=(root.parent / "secret.svg").as_uri())
    with pytest.raises(RenderFailed) as failure:
        page(root, body.format(bad=address))
    assert any(problem.startswith(address) for problem in failure.value.problems)


@pytest.mark.parametrize(
    ("css", "head"),
    [
        ('@import "{bad}";', ""),
        ('@font-face {{ font-family: x; src: url("{bad}") }} body {{ font-family: x }}', ""),
        ('@page {{ background: url("{bad}") }}', ""),
        ("", '<link rel="stylesheet" href="{bad}">'),
        ("", '<link rel="attachment" href="{bad}">'),
    ],
    ids=["import", "font", "page", "stylesheet", "attachment"],
)
def test_no_style_or_font_reaches_the_network(root: Path, css: str, head: str) -> None:
    bad = "https://127.0.0.1:9/x.css"
    with pytest.raises(RenderFailed, match="made without a network"):
        page(root, "<p>a</p>", css=css.format(bad=bad), head=head.format(bad=bad))


@pytest.mark.parametrize("bad", ["http://127.0.0.1:9/x.svg", "../secret.svg"])
def test_a_drawing_imports_no_style(root: Path, bad: str) -> None:
    with pytest.raises(RenderFailed):
        page(root, f'<svg viewBox="0 0 9 9"><title>a</title><style>@import "{bad}";</style></svg>')


def test_a_drawing_takes_no_part_of_another_file(root: Path) -> None:
    secret = root.parent / "secret.svg"
    empty = '<svg viewBox="0 0 9 9"><title>a</title>{}</svg>'
    assert page(root, empty.format(f'<use href="{secret.as_uri()}#r"/>')) == page(
        root, empty.format("<g></g>")
    )


def test_a_base_address_does_not_open_the_network(root: Path) -> None:
    with pytest.raises(RenderFailed, match="made without a network"):
        page(root, '<img alt="a" src="square.svg">', head='<base href="http://127.0.0.1:9/">')


def test_a_listening_server_hears_nothing(root: Path) -> None:
    heard: list[str] = []

    class Ear(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            heard.append(self.path)

    with HTTPServer(("127.0.0.1", 0), Ear) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        with pytest.raises(RenderFailed):
            page(root, f'<img alt="a" src="http://127.0.0.1:{server.server_port}/x.svg">')
        server.shutdown()
    assert heard == []


@pytest.mark.parametrize(
    ("address", "why"),
    [
        (BASE + "link.svg", "outside"),
        (BASE + "%2e%2e/secret.svg", "outside"),
        (BASE + "..%2fsecret.svg", "outside"),
        (BASE + "missing.svg", "cannot be found"),
        (BASE + "square.svg%00.png", "cannot be found"),
        (BASE, "not a file"),
        ("file://elsewhere/square.svg", "without a network"),
        ("file:///dev/zero", "outside"),
        ("ftp://127.0.0.1/x", "without a network"),
        ("jar:file:///x", "without a network"),
        ("http://[::1/x", "no address"),
    ],
)
def test_the_gate_says_why_it_turns_an_address_away(root: Path, address: str, why: str) -> None:
    gate = Gate((root,))
    with pytest.raises(Refused, match=why):
        gate.check(address)
    assert len(gate.refused) == 1


def test_a_file_or_data_larger_than_the_cap_is_turned_away(root: Path) -> None:
    gate = Gate((root,), max_bytes=50)
    with pytest.raises(Refused, match="larger than 50 bytes"):
        gate.check(BASE + "square.svg")
    with pytest.raises(Refused, match="larger than 50 bytes"):
        gate.check("data:text/plain," + "a" * 50)


def test_a_folder_whose_name_only_begins_alike_is_outside(root: Path) -> None:
    twin = root.with_name("allowed-too")
    twin.mkdir()
    (twin / "a.svg").write_text(SQUARE)
    with pytest.raises(Refused, match="outside"):
        Gate((root,)).check((twin / "a.svg").as_uri())


def test_a_page_attaches_no_file_by_itself(root: Path) -> None:
    with pytest.raises(RenderFailed, match=r"itself attaches square\.svg"):
        page(root, '<a rel="attachment" href="square.svg">a</a>')


def test_every_refusal_is_named_at_once(root: Path) -> None:
    with pytest.raises(RenderFailed) as failure:
        page(
            root,
            "".join(
                f'<img alt="a" src="{bad}">' for bad in ("one.svg", "http://127.0.0.1/two.svg", "one.svg")
            ),
        )
    assert failure.value.problems == (
        "one.svg cannot be found.",
        "http://127.0.0.1/two.svg is not a file on this machine; pages are made without a network.",
    )
