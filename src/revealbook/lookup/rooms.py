"""Rooms and directions in English and German, so that a question in one language finds a record in the other.

From memory of everyday usage; a room that is not here is found under the name it was recorded by.
"""

from revealbook.lookup.keys import key

_SAME = (
    ("bedroom", "Schlafzimmer"),
    ("children's room", "Kinderzimmer"),
    ("living room", "Wohnzimmer"),
    ("dining room", "Esszimmer"),
    ("kitchen", "Küche"),
    ("bathroom", "Bad", "Badezimmer"),
    ("toilet", "WC"),
    ("hall", "Flur", "Diele"),
    ("stairs", "staircase", "Treppenhaus"),
    ("office", "study", "Büro", "Arbeitszimmer"),
    ("attic", "loft", "Dachboden"),
    ("cellar", "basement", "Keller"),
    ("laundry", "Waschküche"),
    ("workshop", "Werkstatt"),
    ("north", "Nord", "Norden"),
    ("east", "Ost", "Osten"),
    ("south", "Süd", "Süden"),
    ("west", "West", "Westen"),
    ("north-east", "Nordost", "Nordosten"),
    ("south-east", "Südost", "Südosten"),
    ("south-west", "Südwest", "Südwesten"),
    ("north-west", "Nordwest", "Nordwesten"),
)
ALSO: dict[str, tuple[str, ...]] = {
    key(name): tuple(key(other) for other in group) for group in _SAME for name in group
}
"""Other keys by which a room or direction may have been recorded, itself among them."""
