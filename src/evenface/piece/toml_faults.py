"""What the reader of TOML says of a text it cannot read, as sentences with values."""

import re
from string import Formatter
from typing import Final

from evenface.errors import Sentence
from evenface.words import said

_TEMPLATES: Final = (
    "expected value, got {found}",
    "expected key, got {found}",
    "expected '=' after key, got {found}",
    "expected '=' in inline table, got {found}",
    "expected ',' or ']' in array, got {found}",
    "expected ',' or '}}' in inline table, got {found}",
    "expected newline or end of file, got {found}",
    "expected {closer} to close table header",
    "expected {closer} to close array-of-tables header",
    "expected date/time separator, got {found}",
    "unterminated basic string",
    "unterminated literal string",
    "unterminated multi-line basic string",
    "unterminated multi-line literal string",
    "newline in basic string",
    "newline in literal string",
    "invalid control character {code} in string",
    "invalid control character {code} in comment",
    "invalid escape sequence: {code}",
    "truncated unicode escape; expected {count} hex digits",
    "invalid hex digit {found} in unicode escape",
    "invalid unicode scalar {code}",
    "stray carriage return",
    "stray carriage return in string",
    "invalid integer {found}: Exceeds the limit ({most} digits) for integer string conversion: value has {count} "
    "digits; use sys.set_int_max_str_digits() to increase the limit",
    "invalid integer {found}: {why:word}",
    "invalid integer {found}",
    "invalid digit {digit} in {found}",
    "leading zeros are not allowed in {found}",
    "leading zeros not allowed in float {found}",
    "consecutive underscores in {found}",
    "misplaced underscore in {found}",
    "invalid float exponent in {found}",
    "invalid float {found}",
    "invalid date/datetime {found}",
    "invalid datetime {found}: {why:word}",
    "invalid date {found}: {why:word}",
    "invalid date {found}",
    "invalid time {found}: {why:word}",
    "bad time format: {found}",
    "bad seconds in {found}",
    "bad fractional seconds in {found}",
    "bad timezone offset: {found}",
    "timezone offset out of range: {found}",
    "value nesting exceeds maximum depth ({most})",
    "duplicate key {key} in inline table",
    "duplicate key {key}",
    "key {key} in inline table conflicts with an existing dotted-key prefix",
    "key {key} already defined as a table",
    "key {key} already defined as a value",
    "inline-table key {key} already defined as a value",
    "cannot use {key} as a table: already defined as a value",
    "cannot define {key} as a table: already defined as a value",
    "cannot define {key} as a table: already created via dotted keys",
    "cannot define {key} as an array-of-tables: already used as an implicit table",
    "cannot redefine array-of-tables {key} as a normal table",
    "cannot redefine table {key} as an array-of-tables",
    "redefinition of table {key}",
    "cannot extend {what:word} {key} via dotted keys",
)
"""Every sentence of the reader, in an order in which the first that fits is the right one."""
_PLACE: Final = re.compile(r"(?P<what>.+) \(line (?P<line>\d+), column (?P<column>\d+)\)", re.DOTALL)


def toml_fault(text: str) -> Sentence:
    """The reader's words as a sentence with values; as they are where they are none it is known to say."""
    placed = _PLACE.fullmatch(text)
    what = placed["what"] if placed else text
    for template in _TEMPLATES:
        found = re.fullmatch(_pattern(template), what, re.DOTALL)
        if found:
            inner = said(template, **found.groupdict())
            if not placed:
                return inner
            return said(
                "{what} (line {line}, column {column})",
                what=inner,
                line=placed["line"],
                column=placed["column"],
            )
    return text


def _pattern(template: str) -> str:
    return "".join(
        re.escape(literal) + (f"(?P<{name}>.+?)" if name else "")
        for literal, name, _, _ in Formatter().parse(template)
    )
