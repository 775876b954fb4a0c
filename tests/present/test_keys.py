"""`test_labels` asks every measure whether its keys have words; here stands how these words read."""

import re

from revealbook.present.keys import KEYS, REASONS


def test_a_label_fits_into_a_sentence() -> None:
    odd = [
        label
        for label in (*KEYS.values(), *REASONS.values())
        if label != label.strip() or label.endswith(".")
    ]
    assert odd == []
    assert [label for label in KEYS.values() if not label] == []


def test_a_reason_names_only_the_facts_that_come_with_it() -> None:
    facts = {what: set(re.findall(r"\{(\w+)\}", reason)) for what, reason in REASONS.items()}
    assert {what: names for what, names in facts.items() if names} == {
        "climate_outside_table": {"read", "lowest", "highest"},
        "installed_beyond_extremes": {"lowest", "highest"},
        "weather_unread": {"unread_h", "waited_h", "coldest_c", "warmest_c", "fastest_h", "slowest_h"},
        "weather_unread_outside_table": {"unread_h", "waited_h", "coldest_c", "warmest_c"},
        "bead_cure_between_bounds": {"least_depth_mm", "most_depth_mm", "least_path_mm", "most_path_mm"},
    }


def test_what_a_truth_value_tells_is_asked_as_a_question() -> None:
    for key in ("clean", "dry", "sealed", "bonded", "continuous", "predrilled", "water_inside"):
        assert KEYS[key].startswith("whether ")
