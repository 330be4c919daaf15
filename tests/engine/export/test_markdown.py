"""The comparison as Markdown: user text is never markup."""

from __future__ import annotations

import datetime

from engine.comparison.compare import compare
from engine.export.markdown import comparison_markdown
from engine.export.stamp import Stamp
from support import scenario_of


def test_in_markdown_nothing_a_user_typed_is_markup() -> None:
    """A title of every sign that means something there, each behind a backslash."""
    written = comparison_markdown(
        compare(scenario_of(title="a|b *c* [d](e) <f> `g` #1 !"), ("direct",)), Stamp(datetime.date(2026, 3, 4))
    )
    assert r"a\|b \*c\* \[d\](e) \<f\> \`g\` \#1 \!" in written.splitlines()[0]
    assert "a|b" not in written
