"""What a pack costs: beside the bare typesetter, by page, in two processes, as a re-issue, and in Typst.

Run: python tests/benchmarks/render_speed.py [openings]. Prints figures; never fails a build. Every
measurement is a process of its own. Typst is the yardstick if it is there (pip install typst): it sets the
same text, tables, drawings and photographs, taken from the same HTML, without looking alike.

Our own share may come out below nothing: a pack spares the typesetter rounds of the garbage collector, the
listing of all pages for every tag and the second compression of every stream (render/pdf.py,
render/pdf_writing.py), which the bare one does.

Taken on two quiet cores, 20 openings in 175 pages: own cost -3.8 %, 0.21 s of CPU a page (aim 0.10: missed,
about half of it is layout and half drawing and tags), two processes 27 % quicker than one. Re-issue after
one changed record: 25.9 % of 20 openings, of which starting the program takes 6; of 100 openings 16.4 %
(aim 15: missed; a volume is 10, the index 4). Ten volumes of 20 openings take 175 MB. All of these figures
are worthless while other work loads the machine.
"""

import json
import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from hashlib import sha256
from html.parser import HTMLParser
from importlib.util import find_spec
from pathlib import Path
from typing import Any

CONFORMING = Path(__file__).parents[1] / "conforming"
MADE = datetime(2026, 12, 1, 9, tzinfo=UTC)
STOREYS = 10


# --- one measurement, in a process of its own ------------------------------------------------------------


def html_of(site: Path, cache: Path) -> tuple[str, dict[str, Any]]:
    """Give the page that a pack is typeset from, and the names of its photographs."""
    from revealbook import api
    from revealbook.making.pack import pack_of, photographs
    from revealbook.present.words import words_in
    from revealbook.render.codes import qr
    from revealbook.render.look import Look
    from revealbook.render.render import render_html

    judged = api.check(site).judged
    assert judged is not None
    photos = photographs(judged, site, cache)
    assert isinstance(photos, dict)
    words = words_in("en")
    context = {"pack": pack_of(judged), "photos": photos, "made": MADE}
    shared = {"words": words, "say": words.say, "qr": qr}
    look = Look("A4", "en", None, (cache,))
    return render_html("pack.html", context, look=look, made=MADE, shared=shared), photos


def html(site: Path, cache: Path) -> dict[str, Any]:
    """Write the page beside the site, so that the bare typesetter starts from it."""
    html_of(CONFORMING, cache)  # what is loaded once is not counted
    start = time.process_time()
    page, _ = html_of(site, cache)
    own = time.process_time() - start
    (site / "page.html").write_text(page, encoding="utf-8")
    return {"own": own}


def bare(site: Path, cache: Path) -> dict[str, Any]:
    """Typeset the page with nothing but the typesetter."""
    from revealbook.render.fetcher import BASE, Gate, url_fetcher
    from revealbook.render.fonts import use_own_fonts_only
    from revealbook.render.templates import shipped_folder

    use_own_fonts_only()
    import weasyprint

    page = (site / "page.html").read_text(encoding="utf-8")
    gate = Gate((shipped_folder().resolve(), cache.resolve()))
    document = weasyprint.HTML(string=page, base_url=BASE, url_fetcher=url_fetcher(gate)).render(
        pdf_variant="pdf/a-3a"
    )
    return {"pages": len(document.pages), "bytes": len(document.write_pdf(pdf_variant="pdf/a-3a"))}


def whole(site: Path, cache: Path) -> dict[str, Any]:
    """Check, present and render a site as one pack."""
    from revealbook import api
    from revealbook.making.pack import Packed

    judged = api.check(site).judged
    assert judged is not None
    packed = api.pack(judged, site, cache, MADE)
    assert isinstance(packed, Packed)
    return {"pages": packed.pages, "bytes": len(packed.pdf)}


def volumes(site: Path, cache: Path, jobs: int = 1) -> dict[str, Any]:
    """Check, present and render a site in volumes by storey."""
    from revealbook import api
    from revealbook.making.volumes import MadeSite, make_volumes

    judged = api.check(site).judged
    assert judged is not None
    made = make_volumes(judged, site, cache, by="storey", made=MADE, jobs=jobs, seen=lambda *_: None)
    assert isinstance(made, MadeSite)
    digests = [sha256(volume.file.read_bytes()).hexdigest() for volume in made.volumes]
    return {
        "digests": [*digests, sha256(made.index.pdf).hexdigest()],
        "pages": made.index.pages + sum(volume.pages for volume in made.volumes),
        "fresh": sum(volume.fresh for volume in made.volumes),
    }


def volumes_2(site: Path, cache: Path) -> dict[str, Any]:
    """The same in two processes."""
    return volumes(site, cache, 2)


def in_typst(site: Path, cache: Path) -> dict[str, Any]:
    """Typeset the same content with Typst, tagged and as PDF/A-3a."""
    import pypdfium2
    import typst

    source = site / "page.typ"
    pdf = typst.compile(str(source), root="/", font_paths=[str(site / "fonts")], pdf_standards=["a-3a"])
    with pypdfium2.PdfDocument(pdf) as document:
        return {"pages": len(document), "bytes": len(pdf)}


STEPS: dict[str, Callable[[Path, Path], dict[str, Any]]] = {
    one.__name__: one for one in (html, bare, whole, volumes, volumes_2, in_typst)
}


def measured(step: str, site: Path, cache: Path) -> dict[str, Any]:
    """Run a step in a process of its own: what it gives, CPU and wall seconds, peak memory in MB."""
    command = [sys.executable, __file__, "--step", step, str(site), str(cache)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def step(name: str, site: Path, cache: Path) -> None:
    """Run a step here and tell what it took, with the processes that it started."""
    start = time.perf_counter()
    told = STEPS[name](site, cache)
    told["wall"] = time.perf_counter() - start
    used = os.times()
    told["cpu"] = used.user + used.system + used.children_user + used.children_system
    peaks = [resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    told["mb"], told["child_mb"] = (peak / 1024 for peak in peaks)
    print(json.dumps(told))


# --- the same content in Typst ---------------------------------------------------------------------------


class Typst(HTMLParser):
    """Turns the page into Typst: headings, paragraphs, tables, drawings and photographs, in their order."""

    def __init__(self, folder: Path, cache: Path) -> None:
        super().__init__()
        self.folder, self.cache = folder, cache
        self.out: list[str] = []
        self.text: list[str] = []
        self.rows: list[list[str]] = []
        self.inside: list[str] = []
        self.drawings = 0

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag == "table":
            self.flush()
            self.rows = []
        elif tag == "tr":
            self.rows.append([])
        elif tag in {"td", "th", "p", "h1", "h2", "h3", "li", "dt", "dd", "figcaption", "div"}:
            self.flush()
            self.inside.append(tag)
        elif tag == "img":
            self.picture(dict(attributes))

    def handle_endtag(self, tag: str) -> None:
        if tag in {"td", "th"} and self.rows:
            self.rows[-1].append(self.taken())
        elif tag == "table":
            self.table()
        elif tag in {"h1", "h2", "h3"}:
            self.out.append(f"#heading(level: {tag[1]})[{self.taken()}]")
        elif tag in {"p", "li", "dt", "dd", "figcaption", "div"}:
            self.flush()

    def handle_data(self, data: str) -> None:
        if drawing := re.fullmatch(r"\s*@drawing-(\d+)@\s*", data):
            file = self.folder / f"drawing-{drawing[1]}.svg"
            self.out.append(f'#image("{file}", alt: "drawing")')
        elif data.strip():
            self.text.append(" ".join(data.split()))

    def picture(self, attributes: dict[str, str | None]) -> None:
        source, alt = attributes.get("src") or "", attributes.get("alt") or "picture"
        if source.endswith(".jpg"):
            self.out.append(f'#image("{self.cache / source}", width: 80mm, alt: {json.dumps(alt)})')
        else:
            self.text.append(alt)

    def taken(self) -> str:
        text, self.text = " ".join(self.text), []
        return re.sub(r"([\\#$*_`<>@\[\]~=/+-])", r"\\\1", text)

    def flush(self) -> None:
        if self.text:
            self.out.append(self.taken())

    def table(self) -> None:
        rows, self.rows = [row for row in self.rows if row], []
        if rows:
            columns = max(map(len, rows))
            cells = [row + [""] * (columns - len(row)) for row in rows]
            head = "table.header(" + ", ".join(f"[{cell}]" for cell in cells[0]) + "),"
            body = "".join(f"[{cell}], " for row in cells[1:] for cell in row)
            self.out.append(f"#table(columns: {columns}, {head} {body})")


def typst_source(site: Path, cache: Path) -> None:
    """Write the page as Typst beside the site, with its drawings as files and the same typeface."""
    import fontpkg_fira_sans

    page = (site / "page.html").read_text(encoding="utf-8")
    page = re.sub(r"<(style|title)\b.*?</\1>", "", page, count=2, flags=re.DOTALL)
    drawings: list[str] = []

    def kept(found: re.Match[str]) -> str:
        drawings.append(found[0])
        (site / f"drawing-{len(drawings)}.svg").write_text(found[0], encoding="utf-8")
        return f"<p>@drawing-{len(drawings)}@</p>"

    page = re.sub(r"<svg\b.*?</svg>", kept, page, flags=re.DOTALL)
    (site / "fonts").mkdir()
    for font in Path(fontpkg_fira_sans.__file__).parent.rglob("*.[ot]tf"):
        shutil.copy(font, site / "fonts")
    reader = Typst(site, cache)
    reader.feed(page)
    head = (
        '#set document(title: "Pack", date: datetime(year: 2026, month: 12, day: 1))\n'
        '#set page(paper: "a4", margin: 20mm)\n#set text(font: "Fira Sans", size: 9pt, lang: "en")\n'
        "#set table(stroke: 0.4pt)\n"
    )
    (site / "page.typ").write_text(head + "\n\n".join(reader.out), encoding="utf-8")


# --- all of them -----------------------------------------------------------------------------------------


def many(openings: int, site: Path) -> None:
    """Copy the conforming site with many openings on some storeys, each with its own photographs."""
    shutil.copytree(CONFORMING, site)
    (template,) = (site / "openings").glob("*.yaml")
    text = template.read_text(encoding="utf-8")
    template.unlink()
    for number in range(openings):
        mark = f"N-{number:04}"
        changed = text.replace("mark: W-1.01", f"mark: {mark}").replace(
            'floor: "1"', f'floor: "{number * STOREYS // openings}"'
        )
        (site / "openings" / f"{mark}.yaml").write_text(changed, encoding="utf-8")


def as_one_pack(openings: int, site: Path, cache: Path) -> dict[str, Any]:
    """Hold a pack against the bare typesetter on the same page, and against the aims."""
    before = measured("html", site, cache)["own"]
    bare_, whole_ = measured("bare", site, cache), measured("whole", site, cache)
    print(f"{openings} openings as one pack: {whole_['pages']} pages, {whole_['bytes'] / 1e6:.1f} MB")
    own = whole_["cpu"] / bare_["cpu"] - 1
    print(f"CPU {whole_['cpu']:.1f} s, the bare typesetter on the same page {bare_['cpu']:.1f} s")
    print(f"own cost {own:+.1%} (aim: at most 5 %; this is a difference of two large numbers)")
    print(f"of it checking, presenting and filling: {before:.1f} s, {before / bare_['cpu']:.1%}")
    print(f"CPU {whole_['cpu'] / whole_['pages']:.3f} s a page (aim: at most 0.10)")
    print(f"CPU {whole_['cpu'] / openings:.2f} s an opening; peak memory {whole_['mb']:.0f} MB", flush=True)
    return whole_


def side_by_side(site: Path) -> None:
    """Hold two processes against one."""
    one = measured("volumes", site, site.parent / "one")
    two = measured("volumes_2", site, site.parent / "two")
    equal = "the same bytes" if one["digests"] == two["digests"] else "OTHER BYTES"
    print(f"{len(one['digests']) - 1} volumes and index: {one['pages']} pages")
    print(f"one process: {one['wall']:.1f} s, peak memory {one['mb']:.0f} MB")
    most = max(two["mb"], two["child_mb"])
    print(f"two processes: {two['wall']:.1f} s, at most {most:.0f} MB each, {equal}", flush=True)


def issued_again(site: Path) -> None:
    """Change one record; what lies in the cache of before is not rendered again."""
    records = sorted((site / "openings").glob("*.yaml"))
    record = records[len(records) // 2]
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace("overlap_left_mm: 82", "overlap_left_mm: 62", 1), encoding="utf-8")
    again = measured("volumes", site, site.parent / "one")
    full = measured("volumes", site, site.parent / "three")
    equal = "the same bytes as" if again["digests"] == full["digests"] else "OTHER BYTES THAN"
    print(f"re-issue after one changed record: {again['fresh']} volume and the index, {equal} a full run")
    share = again["cpu"] / full["cpu"]
    print(f"CPU {again['cpu']:.1f} s of {full['cpu']:.1f} s: {share:.1%} (aim: under 15 %)", flush=True)


def yardstick(site: Path, cache: Path, whole_: dict[str, Any]) -> None:
    """Hold a pack against Typst."""
    if find_spec("typst") is None:
        print("Typst is not installed: pip install typst")
        return
    typst_source(site, cache)
    found = measured("in_typst", site, cache)
    print(f"the same content in Typst: {found['pages']} pages, {found['bytes'] / 1e6:.1f} MB")
    ratio = whole_["cpu"] / found["cpu"]
    print(
        f"CPU {found['cpu']:.1f} s, peak memory {found['mb']:.0f} MB; a pack takes {ratio:.1f} times its CPU"
    )


def main() -> None:
    """Print the figures."""
    if sys.argv[1:2] == ["--step"]:
        step(sys.argv[2], Path(sys.argv[3]), Path(sys.argv[4]))
        return
    openings = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as name:
        site = Path(name).resolve() / "site"
        many(openings, site)
        whole_ = as_one_pack(openings, site, site.parent / "cache")
        yardstick(site, site.parent / "cache", whole_)  # before the records are changed
        side_by_side(site)
        issued_again(site)


if __name__ == "__main__":
    main()
