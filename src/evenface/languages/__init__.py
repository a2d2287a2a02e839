"""The reader's language: catalogues of sentences, looked up by their English template.

Takes: the name of a language and a system of units.
Gives: `manner_for`, with which documents and interfaces speak.
May import: words.
Start reading at: `manner_for`.
"""

from evenface.languages.catalogue import LANGUAGES, UnknownLanguage, manner_for, sentences_of

__all__ = ["LANGUAGES", "UnknownLanguage", "manner_for", "sentences_of"]
