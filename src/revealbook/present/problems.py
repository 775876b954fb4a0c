"""Problems of files in plain words: what is wrong, and what would be right."""

from revealbook.present.words import N_, Words
from revealbook.source.problem import Problem
from revealbook.source.scalars import as_written

_SENTENCES = {
    "unreadable": N_("The file cannot be read: {reason}."),
    "too_large": N_("The file has {bytes} bytes; at most {limit} are read."),
    "not_utf8": N_("This line is not UTF-8 text; save the file as UTF-8."),
    "empty_file": N_("The file is empty."),
    "control_character": N_("This line holds a control character that YAML does not allow."),
    "tab": N_("A tab stands at the start of this line; indent with spaces."),
    "second_document": N_("A second document starts here (---); one file holds one record."),
    "yaml_syntax": N_(
        "This is not well-formed YAML: {parser_says}. Check colons, quotes and indentation just above."
    ),
    "too_deep": N_("This is nested more than {limit} levels deep."),
    "tag": N_("A YAML tag ({tag}) stands here; write the plain value."),
    "alias": N_(
        "A YAML alias (*) stands here; write the value out, so that the record can be read by itself."
    ),
    "key_not_text": N_("A list or mapping stands where a key should; brackets or braces may need quotes."),
    "duplicate_key": N_("“{key}” stands here a second time; the first is in line {first_line}."),
    "unknown_key": N_("“{key}” is not known here."),
    "missing_key": N_("“{key}” is missing here; it cannot be left out."),
    "too_small": N_("{value} cannot be right for “{key}”: the smallest that makes sense is {ge}."),
    "too_large_value": N_("{value} cannot be right for “{key}”: the largest that makes sense is {le}."),
    "not_a_number": N_("“{key}” wants a number, not {value}."),
    "not_a_whole_number": N_("“{key}” wants a whole number, not {value}."),
    "not_yes_or_no": N_("“{key}” wants true or false, not {value}."),
    "not_text": N_("“{key}” wants text, not {value}; put it in quotes."),
    "not_one_of": N_("“{key}” cannot be {value}; it is one of: {expected}."),
    "not_a_section": N_("“{key}” wants keys of its own below it, not {value}."),
    "not_a_list": N_("“{key}” wants a list, not {value}; write [ ] around it or a dash before each item."),
    "empty_text": N_("“{key}” is empty; leave the key out if there is nothing to say."),
    "text_too_long": N_("“{key}” is longer than {max_length} characters."),
    "not_a_name": N_(
        "“{value}” cannot be used for “{key}”: letters, digits and . _ - / + only, no leading sign."
    ),
    "time_without_zone": N_("{value} has no time zone; write it as 2026-11-20T14:05+01:00."),
    "not_a_time": N_("“{key}” wants a date and time with its zone, as 2026-11-20T14:05+01:00, not {value}."),
    "not_a_date": N_("“{key}” wants a date, as 2026-11-20, not {value}."),
    "no_such_time": N_("{value} is no date or time of the calendar."),
    "time_before": N_("“{key}” cannot be {value}: that is {days} days before “{other}” ({other_at})."),
    "time_after": N_("“{key}” cannot be {value}: that is {days} days after “{other}” ({other_at})."),
    "time_alone": N_("“{key}” cannot be {value}: all work of this record is {days} days or more away."),
    "time_far_from_edition": N_("“{key}” cannot be {value}: the site's rules are of {edition}."),
    "size_off": N_("“{key}” cannot be {value} mm: the record's other sizes make it about {about} mm."),
    "left_empty": N_("“{key}” is empty here; write its value, or take the line out."),
    "language_unknown": N_("There is no catalogue of the language “{name}” yet; there are: {known}."),
    "refused": N_("“{key}” cannot be used: {pydantic_says}."),
    "unknown_format": N_(
        "The file is written in format {value}; this version reads formats {known}. Update Revealbook, or "
        "write the file in a format that it reads."
    ),
    "no_site_file": N_(
        "There is no {file} in this folder; is it a site folder? “revealbook begin FOLDER” makes one."
    ),
    "no_such_folder": N_("There is no such folder."),
    "photo_missing": N_("The photograph {file} is not in photos/."),
    "photo_not_a_picture": N_(
        "{file} in photos/ is not a picture that can be opened (JPEG, PNG, WebP, HEIC). Export it as JPEG."
    ),
    "photo_cut_short": N_(
        "The photograph {file} is damaged or only partly copied. Copy it from the camera again."
    ),
    "photo_too_large": N_("The photograph {file} has more than 60 million pixels. Save a smaller copy."),
    "unknown_name": N_("“{name}” is not among the {kind} that are known."),
    "mark_not_file_name": N_("The mark is {mark}, but the file is called {stem}.yaml; one of them is wrong."),
    "repeated_id": N_("“{name}” is used a second time; every id stands once."),
    "repeated_mark": N_("The mark “{name}” already stands in {first}."),
    "edition_differs": N_(
        "The site asks for edition {asked} of {set}; this version of Revealbook has {known}."
    ),
    "unknown_edition": N_("There is no edition {asked} of {set}; this version of Revealbook has: {known}."),
    "unknown_rule_set": N_("No rule set is called “{name}”; there are: {known}."),
    "building_set_unknown": N_(
        "This building cannot be judged by “{name}”: the site's rule set, {set}, does not extend it."
        " Possible: {known}."
    ),
    "clause_without_number": N_(
        "A published basis names the number of its clause, not only “{clause}”; if nobody has seen it,"
        " the basis is “from memory”."
    ),
    "condition_contradicts_itself": N_(
        "“{name}” stands under applies_when and under applies_unless; the rule would never apply."
    ),
    "changed_twice": N_("“{name}” is already changed in {first}; state one change of it."),
    "change_says_nothing_new": N_("This is no change: “{name}” already asks for just that. Take it out."),
    "limit_turned_round": N_(
        "“{name}” states {before}; {after} would turn it round. If that is meant, retire the rule and add"
        " another."
    ),
    "change_unaccepted": N_(
        "“{name}” is critical and asks for less here; somebody entitled has to accept that. Add accepted_by"
        " and accepted_on; roles that may accept: {roles}."
    ),
    "method_change_unaccepted": N_(
        "This value of “{name}” may ask for less; somebody entitled has to accept that. Add accepted_by and"
        " accepted_on; roles that may accept: {roles}."
    ),
    "acceptance_not_entitled": N_("“{name}” may not accept this; roles that may: {roles}."),
    "sets_extend_each_other": N_("The rule set “{name}” extends itself."),
    "unknown_measure": N_("No measure is called “{name}”."),
    "condition_not_yes_or_no": N_("“{name}” cannot be a condition: it is measured in {unit}, not yes or no."),
    "unit_differs": N_("“{measure}” is measured in {unit}; the limit is stated in {stated}."),
    "limit_kind_differs": N_("“{kind}” is no limit for “{measure}”, which is measured in {unit}."),
    "limit_word_unknown": N_("“{word}” is never recorded; the words are: {known}."),
    "limit_below_zero": N_("{limit} can never be met: “{measure}” is never below zero."),
    "limit_kinds": N_("A rule states exactly one kind of limit out of: {known}. Here stand: {stated}."),
    "schedule_empty": N_("The schedule is empty."),
    "schedule_too_long": N_("The schedule has more than {limit} lines; split it."),
    "repeated_column": N_("The column “{name}” stands here a second time."),
    "unknown_column": N_("The column “{name}” is not known here; columns are: {columns}."),
    "mark_column_missing": N_("No column is called “mark”; columns are: {columns}."),
    "mark_missing": N_("This line has no mark."),
    "mark_no_file_name": N_("“{name}” cannot be a mark: the record's file is named after it."),
    "mark_listed_twice": N_("“{name}” stands here a second time; the first is in line {first_line}."),
    "cell_not_a_number": N_("“{key}” wants a number, not {value}."),
    "cell_refused": N_("“{value}” cannot be used for “{key}”."),
    "photo_unusable": N_("The photograph {file} cannot be used: {why}"),
}
_SLIPS = {
    "m": (1000.0, N_("It looks like metres; in millimetres it would be {as_mm}.")),
    "cm": (10.0, N_("It looks like centimetres; in millimetres it would be {as_mm}.")),
    "in": (25.4, N_("It looks like inches; in millimetres it would be {as_mm}.")),
    "ten": (0.1, N_("It looks ten times too large; a tenth of it is {as_mm}.")),
}
"""Factor to millimetres and sentence of each slip."""
_YEAR = N_("The year is probably {year}.")
_NEAREST = N_("Did you mean “{nearest}”?")
_KNOWN = N_("Known here: {known}.")
_COMMA = N_("The decimal sign is a point: {point}.")
_MANY = 12
_LONGEST = 200
"""Characters of a value from a file that a sentence repeats."""


def sentence(problem: Problem, words: Words) -> str:
    """Say what is wrong and, where it can be told, what would be right; always in one line."""
    facts = {name: _shown(value, words) for name, value in problem.facts.items()}
    if "pydantic_says" in facts:  # our own models' sentences have translations, the library's stay English
        facts["pydantic_says"] = words.say(facts["pydantic_says"])
    said = [words.say(_SENTENCES[_code(problem)], **facts)]
    if problem.facts.get("nearest"):
        said.append(words.say(_NEAREST, nearest=facts["nearest"]))
    elif problem.code in {"unknown_key", "unknown_name"} and 0 < len(known := _known(problem)) <= _MANY:
        said.append(words.say(_KNOWN, known=_in_one_line(", ".join(known))))
    if (slip := problem.facts.get("slip")) in _SLIPS:
        factor, text = _SLIPS[str(slip)]
        said.append(words.say(text, as_mm=words.number(float(problem.facts["value"]) * factor)))  # type: ignore[arg-type]
    if problem.facts.get("year"):
        said.append(words.say(_YEAR, year=facts["year"]))
    if problem.code == "not_a_number" and (point := _with_point(problem.facts.get("value"))):
        said.append(words.say(_COMMA, point=point))
    return " ".join(said)


def _code(problem: Problem) -> str:
    """Give the code whose sentence says it: a key without any value is left empty, whatever it wants."""
    empty = problem.facts.get("value", ...) is None and problem.code.startswith(
        ("not_a", "not_text", "not_yes")
    )
    return "left_empty" if empty else problem.code


def line(problem: Problem, words: Words) -> str:
    """Give the problem on one line, with its place, as an editor can follow it."""
    return f"{_in_one_line(str(problem.place))}: {sentence(problem, words)}"


def _known(problem: Problem) -> tuple[str, ...]:
    known = problem.facts.get("known")
    return known if isinstance(known, tuple) else ()


def _shown(value: object, words: Words) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return words.say(N_("nothing"))
    if isinstance(value, tuple):
        return ", ".join(_shown(one, words) for one in value)
    if isinstance(value, dict):
        return words.say(N_("keys of its own")) if value else "{}"
    if isinstance(value, list):
        return words.say(N_("a list"))
    written = as_written(value)
    return f"{written:.12g}" if isinstance(written, float) else _in_one_line(str(written))


def _in_one_line(text: str) -> str:
    """Make a text from a file fit for one line of a terminal: short, and without signs that steer it."""
    flat = "".join(sign if sign.isprintable() else "�" for sign in " ".join(text.split()))
    return flat if len(flat) <= _LONGEST else f"{flat[: _LONGEST - 1]}…"


def _with_point(value: object) -> str | None:
    if not isinstance(value, str) or value.count(",") != 1:
        return None
    point = value.replace(",", ".")
    try:
        float(point)
    except ValueError:
        return None
    return point
