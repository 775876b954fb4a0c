"""Small sites set out, for the pages of what is done before the work."""

from typing import Any

from tests.setting_out.followed import SITE, before_work
from tests.setting_out.rules import PRACTICE

from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet, SiteFile
from revealbook.records.site import Site
from revealbook.rules.rule_set import RuleSet
from revealbook.setting_out.materials import Allowances
from revealbook.setting_out.plan import OpeningPlan
from revealbook.setting_out.site import SetOutSite, set_out_site
from revealbook.source.read import Document, read_bytes

_EMPTY = read_bytes(b"{}", "site.yaml")
assert isinstance(_EMPTY, Document)
SHEET = Sheet.of(_EMPTY)


def site_of(*records: dict[str, Any], rules: RuleSet = PRACTICE, tape: bool = False) -> SetOutSite:
    """A site of these openings, marked W-1, W-2 and so on."""
    site = Site.model_validate({**SITE, **({} if tape else {"instruments": []})})
    made = tuple(
        Record(Opening.model_validate({**record, "opening": {**record["opening"], "mark": f"W-{n}"}}), SHEET)
        for n, record in enumerate(records or (before_work(1230, 1480),), start=1)
    )
    return set_out_site(SiteFile(site, SHEET), rules, made, Allowances())


def plan_of(site: SetOutSite, number: int = 0) -> OpeningPlan:
    """The plan of one of its openings."""
    plan = site.openings[number].plan
    assert isinstance(plan, OpeningPlan), plan
    return plan
