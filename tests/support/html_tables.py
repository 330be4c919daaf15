"""Tables of a page, read with the standard library's HTML parser: independent of the templates that wrote them."""

from __future__ import annotations

from html.parser import HTMLParser

Rows = list[list[str]]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tables: list[tuple[str, Rows]] = []
        self.texts: list[str] = []
        self._heading, self._inside = "", ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "h2":
            self._heading = ""
        elif tag == "table":
            self.tables.append((self._heading, []))
        elif tag == "tr" and self.tables:
            self.tables[-1][1].append([])
        elif tag in ("td", "th"):
            self.tables[-1][1][-1].append("")
        self._inside = tag

    def handle_endtag(self, tag: str) -> None:
        self._inside = ""

    def handle_data(self, data: str) -> None:
        if self._inside == "style":
            return
        self.texts.append(data)
        if self._inside == "h2":
            self._heading += data
        elif self._inside in ("td", "th"):
            self.tables[-1][1][-1][-1] += data


def _read(page: str) -> _Reader:
    reader = _Reader()
    reader.feed(page)
    return reader


def tables_of_page(page: str) -> dict[str, Rows]:
    """Title → rows of cells, headings first."""
    return dict(_read(page).tables)


def text_of_page(page: str) -> str:
    """What a reader sees, on one line."""
    return " ".join(" ".join(_read(page).texts).split())
