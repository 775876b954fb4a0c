from revealbook.inspection.question import Question, Spot


def test_a_question_states_no_chance_unless_a_model_gives_one() -> None:
    asked = Question("pace", "short_bonding", ("W-1",), (Spot("W-1", ("frame",)),))
    assert (asked.chance, asked.comparisons, dict(asked.facts)) == (None, None, {})
