"""The templates: the site's own folder first, then the shipped one; escaping on, nothing undefined passes."""

from collections.abc import Mapping
from pathlib import Path

from jinja2 import BytecodeCache, FileSystemLoader, StrictUndefined, TemplateError
from jinja2.bccache import Bucket
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from revealbook.render.failure import RenderFailed
from revealbook.render.look import Look

_HERE = Path(__file__).resolve()
_NO_BREAK_SPACE = "\u00a0"


class _Compiled(BytecodeCache):
    """Templates compiled once in a process: volumes are filled one after the other from the same ones."""

    def __init__(self) -> None:
        self.kept: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        if bucket.key in self.kept:
            bucket.bytecode_from_string(self.kept[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        self.kept[bucket.key] = bucket.bytecode_to_string()


_COMPILED = _Compiled()


def shipped_folder() -> Path:
    """The templates that come with the package: inside it once installed, at the root of a source tree.

    Raises:
        RenderFailed: they are in neither place; the installation is not whole.
    """
    for folder in (_HERE.parents[1] / "report_templates", _HERE.parents[3] / "report_templates"):
        if (folder / "base.html").is_file():
            return folder
    raise RenderFailed("The report templates are missing from this installation; install the package again.")


def folders(look: Look) -> tuple[Path, ...]:
    """Where templates and their pictures are looked for, in this order.

    Raises:
        RenderFailed: the site's own folder is named but is not there.
    """
    if look.override is None:
        return (shipped_folder(),)
    if not look.override.is_dir():
        raise RenderFailed(f"The folder of own templates, {look.override}, is not there.")
    return (look.override, shipped_folder())


def environment(look: Look, shared: Mapping[str, object]) -> ImmutableSandboxedEnvironment:
    """Jinja2, set up for reports. Own templates run in the sandbox: a folder from elsewhere stays data.

    Args:
        look: paper, language, folders.
        shared: names that every template and macro sees, such as a function that translates.
    """
    made = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader([str(folder) for folder in folders(look)]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=_COMPILED,
    )
    made.filters |= {"bound": bound, "breakable": breakable}
    made.globals |= {"look": look, **shared}
    return made


def fill(template: str, context: Mapping[str, object], look: Look, shared: Mapping[str, object]) -> str:
    """The template with the context filled in, as HTML.

    Raises:
        RenderFailed: the template is missing or wrong, or asks for something that the context lacks.
    """
    try:
        return environment(look, shared).get_template(template).render(context)
    except TemplateError as error:
        raise RenderFailed(f"Template {_place(error) or template}: {error.message}.") from error


def bound(text: object) -> str:
    """The text kept on one line: `12 mm` never parts number from unit."""
    return str(text).replace(" ", _NO_BREAK_SPACE)


def breakable(text: object) -> Markup:
    """The text, allowed to break after `/ . _ - :` - for paths and batch numbers in narrow columns."""
    broken = str(escape(text))
    for mark in "/._-:":
        broken = broken.replace(mark, f"{mark}<wbr>")
    return Markup(broken)  # noqa: S704 - escaped above, only <wbr> was added


def _place(error: TemplateError) -> str:
    """Template and line that the error comes from, as far as the traceback tells."""
    named = getattr(error, "name", None)
    if line := getattr(error, "lineno", None):
        return f"{named}, line {line}"
    place, trace = "", error.__traceback__
    while trace is not None:
        code = trace.tb_frame.f_code
        if code.co_filename.endswith((".html", ".css", ".svg")):
            place = f"{Path(code.co_filename).name}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return place
