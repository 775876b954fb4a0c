"""One rule, as YAML states it; refused if it cannot mean anything."""

from functools import cached_property
from typing import Annotated, Literal, Self, get_args

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from revealbook.measures.units import Unit
from revealbook.records.quantities import Many, Text
from revealbook.rules.basis import Basis
from revealbook.rules.limit import Limit

Stage = Literal[
    "survey", "frame", "supports", "plinth", "window", "seals", "materials", "tests", "acceptance"
]
STAGES: tuple[str, ...] = get_args(Stage)
Grade = Literal["critical", "major", "minor"]
GRADES: tuple[str, ...] = get_args(Grade)
RuleId = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$")]
MeasureName = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$")]
Number = Annotated[float, Field(allow_inf_nan=False)]
LIMIT_KINDS = ("at_least", "at_most", "between", "equal_to", "one_of", "at_most_by", "at_least_by")


class Stated(BaseModel):
    """Base of what rule files state: frozen, strict, refusing unknown keys."""

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid")


class SizeStep(Stated):
    """A line of a limit by size."""

    up_to: Number = Field(description="Up to this size, itself included.")
    limit: Number = Field(description="The limit there.")


class LimitKeys(Stated):
    """The keys of which a rule states exactly one kind."""

    at_least: Number | None = None
    at_most: Number | None = None
    between: Annotated[tuple[Number, Number], Field(strict=False)] | None = None
    equal_to: bool | Number | None = None
    one_of: Many[Text] | None = None
    at_most_by: MeasureName | None = None
    at_least_by: MeasureName | None = None
    steps: Many[SizeStep] | None = None

    def kinds_stated(self) -> list[str]:
        """Give the limit kinds that are present."""
        return [kind for kind in LIMIT_KINDS if getattr(self, kind) is not None]

    def stated_limit(self) -> Limit:
        """Give the limit, once it is known that exactly one kind is present."""
        return Limit.stated({kind: getattr(self, kind) for kind in (*LIMIT_KINDS, "steps")})

    def check_limit(self) -> None:
        """Refuse a limit that is missing, doubled or can never be met."""
        kinds = self.kinds_stated()
        if len(kinds) != 1:
            raise PydanticCustomError(
                "limit_kinds", "{stated}", {"stated": ", ".join(kinds), "known": LIMIT_KINDS}
            )
        by_size = kinds[0] in {"at_most_by", "at_least_by"}
        if by_size != (self.steps is not None):
            raise PydanticCustomError(
                "limit_steps", "steps go with at_most_by or at_least_by, and only with them"
            )
        if self.between is not None and self.between[0] > self.between[1]:
            raise PydanticCustomError("limit_never_met", "the lower limit lies above the upper one")
        if self.one_of is not None and not self.one_of:
            raise PydanticCustomError("limit_never_met", "no word is allowed")
        sizes = [step.up_to for step in self.steps or ()]
        if by_size and (not sizes or sizes != sorted(set(sizes))):
            raise PydanticCustomError("limit_steps", "steps are in rising order of up_to, at least one")


class Rule(LimitKeys):
    """A rule of practice."""

    id: RuleId = Field(description="A slug in trade words.")
    stage: Stage = Field(description="Stage of the work.")
    requirement: Text = Field(description="What is required, in one sentence.")
    measure: MeasureName = Field(description="The measure it looks at.")
    unit: Unit = Field(description="Unit of its limit; must be the measure's.")
    grade: Grade = Field(description="Grade of a nonconformity (ISO 2859-1).")
    basis: Basis = Field(description="What the limit rests on.")
    why: Text = Field(description="Why it matters.")
    remedy: Text = Field(description="What to do about it.")
    may_still_come: bool = Field(
        default=False,
        description="What it counts can still come: until its stage is closed it is open, not wrong.",
    )
    applies_when: Many[MeasureName] = Field(default=(), description="Conditions that must hold.")
    applies_unless: Many[MeasureName] = Field(default=(), description="Conditions that must not hold.")

    @model_validator(mode="after")
    def _limit_can_be_met(self) -> Self:
        self.check_limit()
        return self

    @cached_property
    def limit(self) -> Limit:
        """The limit this rule states."""
        return self.stated_limit()

    @property
    def conditions(self) -> tuple[tuple[str, bool], ...]:
        """The measures that decide whether it applies, with the truth value each must have."""
        return tuple((name, True) for name in self.applies_when) + tuple(
            (name, False) for name in self.applies_unless
        )

    @property
    def measures(self) -> tuple[str, ...]:
        """Every measure this rule needs."""
        sizes = (self.limit.by,) if self.limit.by else ()
        return (self.measure, *sizes, *(name for name, _ in self.conditions))
