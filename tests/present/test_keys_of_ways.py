from revealbook.present.keys import KEYS
from revealbook.present.keys_of_ways import WAY_KEYS


def test_they_stand_among_all_keys_and_each_has_one_name_only() -> None:
    assert WAY_KEYS.items() <= KEYS.items()
    assert len(set(WAY_KEYS.values())) == len(WAY_KEYS)
