from revealbook.render.failure import RenderFailed


def test_every_problem_is_kept_and_told() -> None:
    failure = RenderFailed("One is missing.", "Two is refused.")
    assert failure.problems == ("One is missing.", "Two is refused.")
    assert str(failure) == "One is missing.\nTwo is refused."
