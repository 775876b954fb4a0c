"""What a limit rests on."""

import re
from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator
from pydantic_core import PydanticCustomError

from revealbook.records.quantities import Text

_CLAUSE = re.compile(r"(\S+ )?([A-Z]?\.?\d|[A-Z]\b)")
"""How a clause with a number begins: `table 3`, `clause 7.2`, `annex C`, `4.3.7`."""


class Basis(BaseModel):
    """The ground a limit stands on.

    A published basis names standard, edition and clause; a supplier's names its document.
    """

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")

    kind: Literal["published", "supplier", "common practice", "from memory"] = Field(
        description="`from memory` is a published figure that nobody has checked against the standard yet."
    )
    standard: Text | None = Field(default=None, description="Standard, e.g. DIN 18202.")
    edition: Text | None = Field(default=None, description="Its edition, e.g. 2019-07.")
    clause: Text | None = Field(
        default=None, description="Clause, table, figure, equation or annex, with its number; then its words."
    )
    document: Text | None = Field(default=None, description="The supplier's instruction or data sheet.")
    note: Text | None = Field(default=None, description="Anything that qualifies it.")

    @model_validator(mode="after")
    def _names_its_source(self) -> Self:
        if self.kind == "published" and not (self.standard and self.edition and self.clause):
            raise PydanticCustomError(
                "basis_incomplete", "a published basis names its standard, edition and clause"
            )
        if self.kind == "supplier" and not self.document:
            raise PydanticCustomError("basis_incomplete", "a supplier's basis names its document")
        return self

    @property
    def names_clause(self) -> bool:
        """Whether a published basis names its clause by number; whoever cannot has not seen it."""
        return self.kind != "published" or _CLAUSE.match(self.clause or "") is not None
