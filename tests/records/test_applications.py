"""The one walk over the applications of adhesive."""

from tests.builders import bonded, build

from revealbook.records.applications import applications

CORRECTED = [
    {"id": "NC-0", "what": "scratch"},
    {
        "id": "NC-1",
        "what": "left piece out of plumb",
        "correction": {"by": "ben", "bonding": [{"of": ["left"]}, {"of": ["joints"], "by": "cleo"}]},
    },
]


def test_applications_of_corrections_follow_those_of_the_frame_with_place_and_hand() -> None:
    frame = {"by": "ada", "bonding": [{"of": ["bottom"]}, {"of": ["top"], "by": "emil"}]}
    found = applications(build({"frame": frame, "nonconformities": CORRECTED}).opening)
    path = ("nonconformities", 1, "correction", "bonding")
    assert [(one.path, one.by, one.nonconformity) for one in found] == [
        (("frame", "bonding", 0), "ada", None),
        (("frame", "bonding", 1), "emil", None),
        ((*path, 0), "ben", "NC-1"),
        ((*path, 1), "cleo", "NC-1"),
    ]


def test_an_application_is_called_after_its_parts_unless_it_is_of_all_four_pieces() -> None:
    frame = {
        "bonding": [*bonded(), {"of": ["top", "left"]}, {"of": ["top", "left", "bottom", "right", "joints"]}]
    }
    found = applications(build({"frame": frame, "nonconformities": CORRECTED}).opening)
    assert [one.subject for one in found] == [
        ("bonding",),
        ("bonding", "left", "top"),
        ("bonding",),
        ("bonding", "NC-1", "left"),
        ("bonding", "NC-1", "joints"),
    ]


def test_batches_are_told_by_their_numbers() -> None:
    batches = [{"number": "0412"}, {"expires": "2027-03-31"}, {"number": "0419"}]
    (two,) = applications(build({"frame": {"bonding": bonded(batches=batches)}}).opening)
    assert two.batch == "0412, 0419"
    (none,) = applications(build({"frame": {"bonding": bonded()}}).opening)
    assert none.batch is None


def test_a_record_without_a_word_of_the_frame_has_none() -> None:
    assert applications(build().opening) == ()
