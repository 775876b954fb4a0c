"""The commands of signing packs, and of what signatures prove."""

from pathlib import Path
from typing import Annotated

import typer

signing = typer.Typer(rich_markup_mode=None)


@signing.command(
    short_help="Sign a pack.",
    epilog="""\b
Examples:
  revealbook sign pack.pdf --role installer --key ada.p12 --to signed.pdf
  revealbook sign signed.pdf --role "clerk of works" --key c.p12 --to both.pdf""",
)
def sign(
    pack: Annotated[Path, typer.Argument(metavar="PACK", help="The pack; it is only read.")],
    *,
    role: Annotated[str, typer.Option("--role", metavar="ROLE", help="In which role; each signs once.")],
    key: Annotated[
        Path, typer.Option("--key", metavar="FILE", help="The key: .p12 or .pfx, or a private key in PEM.")
    ],
    to: Annotated[Path, typer.Option("--to", metavar="FILE", help="The new file to write.")],
    certificate: Annotated[
        Path | None, typer.Option("--certificate", metavar="FILE", help="The certificate to a PEM key.")
    ] = None,
    passphrase_file: Annotated[
        Path | None,
        typer.Option("--passphrase-file", metavar="FILE", help="A file whose first line is the passphrase."),
    ] = None,
    name: Annotated[
        str | None, typer.Option("--name", help="Name to state; the certificate's if left out.")
    ] = None,
    reason: Annotated[str | None, typer.Option("--reason", help="Reason to state.")] = None,
    location: Annotated[str | None, typer.Option("--location", help="Location to state.")] = None,
) -> None:
    """Sign a pack electronically, into a new file: the installer first, then the clerk of works.

    The signature is invisible; the block for signing by hand stands printed in
    the pack. A passphrase is asked for, or read from --passphrase-file or the
    variable REVEALBOOK_PASSPHRASE; it is never given on the command line.
    """
    from revealbook.cli.sign import Asked, run

    asked = Asked(key, certificate, passphrase_file, role, name, reason, location)
    raise typer.Exit(run(pack, to, asked))


@signing.command(
    short_help="Who signed a pack? Does it still hold?",
    epilog="""\b
Examples:
  revealbook signatures both.pdf
  revealbook signatures both.pdf --roots roots.pem""",
)
def signatures(
    pack: Annotated[Path, typer.Argument(metavar="PACK", help="The signed pack.")],
    roots: Annotated[
        Path | None,
        typer.Option("--roots", metavar="FILE", help="Certificates (PEM) trusted to vouch for keys."),
    ] = None,
) -> None:
    """Say who signed a pack, whether each signature holds, and what was changed since.

    Exit status 0: all hold; 1: one does not, or nobody signed; 2: no PDF.
    """
    from revealbook.cli.signatures import run

    raise typer.Exit(run(pack, roots))
