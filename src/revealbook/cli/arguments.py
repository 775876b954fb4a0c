"""Arguments that several commands take."""

from pathlib import Path
from typing import Annotated

import typer

SiteFolder = Annotated[Path, typer.Argument(metavar="SITE", help="The site folder, with site.yaml in it.")]
ArchiveFolder = Annotated[Path, typer.Option("--archive", metavar="DIR", help="The archive's folder.")]
IndexPlace = Annotated[
    str | None,
    typer.Option("--index", metavar="WHERE", help="A file or postgresql:// address; if not the usual."),
]
