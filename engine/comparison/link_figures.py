"""The links of the load path as rows, in the words that fit the roof."""

from __future__ import annotations

from collections.abc import Callable

from engine.comparison.compare import Column
from engine.comparison.figure import Row, Value
from engine.project.roof import Roof

LINK_KEYS = ("module", "clamp", "member", "attachment", "rib", "roof_fastening", "fixed_point", "structure")
"""The links' rows in the order of `Column.links`; "member" is rail, rack or the module's own frame."""

USED = "share of its allowable that is used; above 1.00 it is over"


def links_in_words(roof: Roof) -> tuple[tuple[str, str, str], ...]:
    """The links of the load path in order, in the words that fit the roof: code, name, what it is."""
    rib, clip = roof.rib_word, roof.fastening_word
    named = (
        ("module", "the module against its maker's rating"),
        ("module clamp", "the clamp that holds a module's edge"),
        ("rail, rack or frame", "what carries the modules between attachments: rail, rack, or the module's own frame"),
        ("attachment", "what grips the roof, pulled and slid at once"),
        (f"{rib} bending", f"the {rib} as a beam between its fastenings"),
        (clip, "what holds the panel down to the structure; the larger of with and without the array"),
        ("fixed point", "what keeps a floating panel from sliding down the slope"),
        ("structure", "added weight against what the building was designed to take"),
    )
    return tuple((key, *words) for key, words in zip(LINK_KEYS, named, strict=True))


def link_rows(roof: Roof) -> tuple[Row, ...]:
    """What is used of each link."""
    named = enumerate(links_in_words(roof))
    return tuple(
        Row("links used", label, "ratio", _used_of(number), f"{words}; {USED}", key)
        for number, (key, label, words) in named
    )


def _used_of(number: int) -> Callable[[Column], Value]:
    def used(column: Column) -> Value:
        if not column.links:
            return None
        utilisation = column.links[number].utilisation
        return "not checked" if utilisation is None else utilisation

    return used
