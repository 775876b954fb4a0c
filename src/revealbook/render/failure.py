"""What stands in the way of a page, in plain words."""


class RenderFailed(Exception):  # noqa: N818 - it reads as the sentence it is
    """The page could not be made as asked.

    Attributes:
        problems: one plain sentence for each thing that stands in the way; never empty.
    """

    def __init__(self, *problems: str) -> None:
        """Keep every problem, so that all can be put right at once."""
        super().__init__("\n".join(problems))
        self.problems = problems
