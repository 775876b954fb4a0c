"""Arguments that several commands take."""

from pathlib import Path
from typing import Annotated

import typer

SiteFolder = Annotated[Path, typer.Argument(metavar="SITE", help="The site folder, with site.yaml in it.")]
