"""A statement of heads as a PDF, which carries the proof itself for programs."""

import json
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from revealbook import __version__
from revealbook.archive.file import FACTS
from revealbook.archive.proof import Proof, SiteProof
from revealbook.archive.proof_data import PROOF_FILE, proof_json
from revealbook.archive.refusal import Refused
from revealbook.archive.store import Archive
from revealbook.archive.unchanged import unchanged
from revealbook.making.sheets import Sheets, render_sheets
from revealbook.present.statement import ProvedArchive, ProvedFault, ProvedSite, statement
from revealbook.present.words import N_, words_in
from revealbook.render.embed import Attachment
from revealbook.render.look import Look


def make_statement(
    archive: Archive,
    proof: Proof,
    made: datetime,
    *,
    copies: Mapping[str, Path],
    file: str,
    language: str = "en",
) -> Sheets:
    """Render the statement of a proof.

    Args:
        archive: what was proved.
        proof: what was found.
        made: when the proof was finished, with zone.
        copies: where else the content of damaged files was found, by SHA-512.
        file: what the statement's file is to be called.
        language: the reader's language, `en` or `de`.

    Raises:
        RenderFailed: a template is missing or wrong.
    """
    words = words_in(language)
    shown: dict[str, object] = {"statement": statement(_proved(archive, proof, made), file, words)}
    carried = Attachment(
        PROOF_FILE,
        proof_json(proof, copies),
        words.say(N_("the proof, for programs")),
        "application/json",
        "Data",
        made,
    )
    return render_sheets("statement.html", shown, Look(language=language), made, carried=(carried,))


def _proved(archive: Archive, proof: Proof, made: datetime) -> ProvedArchive:
    path = archive.path.resolve()
    return ProvedArchive(
        name=path.name,
        path=str(path),
        there=len(archive.sites()),
        begun=proof.since,
        finished=made,
        program=f"revealbook {__version__}",
        sites=tuple(_site(archive, site) for site in proof.sites),
        faults=tuple(
            ProvedFault(one.path, one.held, one.text, dict(one.facts)) for one in proof.all_faults()
        ),
    )


def _site(archive: Archive, proved: SiteProof) -> ProvedSite:
    last = proved.versions[-1] if proved.versions else None
    return ProvedSite(
        site=proved.site,
        name=_name(archive, proved),
        versions=len(proved.versions),
        head=last.head if last else "",
        filed=last.created if last else None,
        by=last.user if last else "",
        files=proved.files,
        packs=proved.packs,
        signed=proved.signed,
        unchecked=proved.unchecked,
        noted=proved.noted,
        faults=len(proved.faults),
    )


def _name(archive: Archive, proved: SiteProof) -> str:
    """Give a site's name as it was filed last; its id where that cannot be read or is not what was filed."""
    for version in proved.versions[-1:]:
        try:
            facts = unchanged(archive, proved.site, version, FACTS)
            return str(json.loads(facts.read_bytes())["site_name"])
        except (Refused, OSError, ValueError, KeyError, TypeError):
            break
    return proved.site
