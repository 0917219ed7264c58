"""Reading a type phrase: a class and its options in a buyer's words, in any order."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Literal

from coaxwright.catalogue.american import american
from coaxwright.catalogue.cable_types import CableType, Misreading, UnknownWords
from coaxwright.catalogue.entries import CableClass, Jacket
from coaxwright.frozen_value import frozen_value

Option = Literal["class", "shield", "center", "jacket"]
Spellings = Mapping[str, Mapping[str, tuple[str, ...]]]

_WORD = re.compile(r"[0-9.]+ ?(?:%|mm\b|(?:ohms?|Ohm)\b|[\u03a9\u2126])|[^\s,]+")
_CLOSE = 0.75  # the share of letters in common from which a word counts as mistyped; tried out, no source


@frozen_value
class Meaning:
    """What one or several words of a phrase say."""

    option: Option
    name: str


@frozen_value
class Vocabulary:
    """Every way to say every option; built once per catalogue."""

    meanings: Mapping[tuple[str, ...], Meaning]
    longest: int
    hints: Mapping[str, tuple[str, ...]]
    """Names that do not fix the construction: the classes that may be meant."""
    classes: Mapping[str, CableClass]
    usual: tuple[str, ...]
    """The classes that a message names where nothing tells which is meant."""


def vocabulary(classes: Mapping[str, CableClass], jackets: Iterable[Jacket], spellings: Spellings) -> Vocabulary:
    """The words of a catalogue. ``spellings``: by ``shield``, ``center``, ``jacket``, then name: other spellings."""
    meanings: dict[tuple[str, ...], Meaning] = {}

    def add(option: Option, name: str) -> None:
        for spelling in (name, *spellings.get(option, {}).get(name, ())):
            meanings.setdefault(folded_words(spelling), Meaning(option, name))

    hints: dict[str, tuple[str, ...]] = {}
    for cable_class in classes.values():
        add("class", cable_class.name)
        for spelling in cable_class.also:
            meanings.setdefault(folded_words(spelling), Meaning("class", cable_class.name))
        for hint in cable_class.hints:
            folded = " ".join(folded_words(hint))
            hints[folded] = (*hints.get(folded, ()), cable_class.name)
        for shield in cable_class.shields:
            add("shield", shield)
        for center in cable_class.centers:
            add("center", center)
    for jacket in jackets:
        add("jacket", jacket.name)
    usual = tuple(name for name, cable_class in classes.items() if cable_class.usual)
    return Vocabulary(meanings, max(map(len, meanings), default=1), hints, classes, usual or tuple(classes))


def with_classes(words: Vocabulary, classes: Mapping[str, CableClass]) -> Vocabulary:
    """The vocabulary with further classes; a word that means something keeps its meaning."""
    meanings = dict(words.meanings)
    for cable_class in classes.values():
        for name in (cable_class.name, *cable_class.also):
            meanings.setdefault(folded_words(name), Meaning("class", cable_class.name))
        for shield in cable_class.shields:
            meanings.setdefault(folded_words(shield), Meaning("shield", shield))
        for center in cable_class.centers:
            meanings.setdefault(folded_words(center), Meaning("center", center))
    usual = (*words.usual, *(name for name, cable_class in classes.items() if cable_class.usual))
    longest = max(map(len, meanings), default=1)
    return Vocabulary(meanings, longest, words.hints, {**words.classes, **classes}, usual)


def read_phrase(text: str, words: Vocabulary) -> CableType | UnknownWords:
    """The cable type that a phrase means, or the first of its words that is at fault; never raises."""
    tokens = _WORD.findall(text)
    said: list[tuple[Meaning, str]] = []
    strange: list[list[str]] = []
    place = 0
    after_strange = False
    while place < len(tokens):
        meaning, length = _longest_match(tokens[place:], words)
        if meaning is not None:
            said.append((meaning, " ".join(tokens[place : place + length])))
        elif after_strange:
            strange[-1].append(tokens[place])
        else:
            strange.append([tokens[place]])
        after_strange = meaning is None
        place += length
    has_class = any(meaning.option == "class" for meaning, _ in said)
    if strange or not has_class:
        return _strange(text, strange[0] if strange else [], has_class, words)
    return _contradiction(text, said, words) or _assembled(text, said, words)


def says_something(text: str, words: Vocabulary) -> bool:
    """Whether every word of a text means something: a new name of such words would hide what they say."""
    tokens = _WORD.findall(text)
    place = 0
    while place < len(tokens):
        meaning, length = _longest_match(tokens[place:], words)
        if meaning is None:
            return False
        place += length
    return bool(tokens)


def _longest_match(tokens: list[str], words: Vocabulary) -> tuple[Meaning | None, int]:
    folded = [_folded(token) for token in tokens[: words.longest]]
    for length in range(len(folded), 0, -1):
        meaning = words.meanings.get(tuple(folded[:length]))
        if meaning is not None:
            return meaning, length
    return None, 1


def _strange(text: str, run: list[str], has_class: bool, words: Vocabulary) -> UnknownWords:
    for length in range(len(run), 0, -1):
        hinted = words.hints.get(" ".join(map(_folded, run[:length])), ())
        if len(hinted) > 1 and not has_class:
            return UnknownWords(text, Misreading.CONSTRUCTION_OPEN, " ".join(run[:length]), choices=hinted)
        nearest = _nearest(" ".join(map(_folded, run[:length])), words)
        if nearest is None:
            continue
        word = " ".join(run[:length])
        if nearest.option == "class" and not has_class:
            return UnknownWords(text, Misreading.UNKNOWN_CLASS, word, nearest.name, choices=words.usual)
        return UnknownWords(text, Misreading.UNKNOWN_WORD, word, nearest.name)
    if has_class:
        return UnknownWords(text, Misreading.UNKNOWN_WORD, run[0])
    return UnknownWords(text, Misreading.UNKNOWN_CLASS, " ".join(run) or text, choices=words.usual)


def _nearest(folded: str, words: Vocabulary) -> Meaning | None:
    if folded in words.hints:
        return Meaning("class", words.hints[folded][0])
    spoken = {" ".join(key): meaning for key, meaning in words.meanings.items()}
    close = get_close_matches(folded, spoken, n=1, cutoff=_CLOSE)
    return spoken[close[0]] if close else None


def _contradiction(text: str, said: list[tuple[Meaning, str]], words: Vocabulary) -> UnknownWords | None:
    cable_class = words.classes[next(meaning.name for meaning, _ in said if meaning.option == "class")]
    earlier: list[tuple[Meaning, str]] = []
    for meaning, word in said:
        for before, before_word in earlier:
            if _clash(before, meaning, cable_class):
                return UnknownWords(text, Misreading.CONTRADICTION, word, other=before_word)
        earlier.append((meaning, word))
    for meaning, word in said:
        choices = tuple(_options(cable_class, meaning.option))
        if meaning.option != "class" and meaning.name not in choices:
            return UnknownWords(text, Misreading.NOT_MADE, word, other=cable_class.name, choices=choices)
    return None


def _clash(one: Meaning, other: Meaning, cable_class: CableClass) -> bool:
    if one.option != other.option or one.name == other.name:
        return False
    jacket = cable_class.jackets.get(one.name)
    return one.option != "jacket" or (jacket is not None and other.name not in jacket.combines_with)


def _options(cable_class: CableClass, option: Option) -> Iterable[str]:
    match option:
        case "shield":
            return cable_class.shields
        case "center":
            return cable_class.centers
        case "jacket":
            return cable_class.jackets
        case "class":
            return ()


def _assembled(text: str, said: list[tuple[Meaning, str]], words: Vocabulary) -> CableType:
    names: dict[Option, dict[str, None]] = {"class": {}, "shield": {}, "center": {}, "jacket": {}}
    for meaning, _ in said:
        names[meaning.option][meaning.name] = None
    cable_class = words.classes[next(iter(names["class"]))]
    defaults = cable_class.defaults
    return CableType(
        text=text,
        cable_class=cable_class,
        shield=cable_class.shields[next(iter(names["shield"]), defaults.shield)],
        center=cable_class.centers[next(iter(names["center"]), defaults.center)],
        jackets=tuple(cable_class.jackets[name] for name in names["jacket"] or (defaults.jacket,)),
        defaulted=tuple(option for option in ("shield", "center", "jacket") if not names[option]),
        words=tuple(dict.fromkeys(meaning.name for meaning, _ in said)),
    )


def _folded(word: str) -> str:
    """One word for all its spellings: ``75 Ω``, ``75ohm`` and ``75 Ohms`` are one, and so are ``60 %`` and ``60%``."""
    plain = word.replace(" ", "").replace("\N{OHM SIGN}", "ohm").replace("\N{GREEK CAPITAL LETTER OMEGA}", "ohm")
    return re.sub(r"(?<=[0-9])ohms$", "ohm", american(plain.casefold()))


def folded_words(text: str) -> tuple[str, ...]:
    """The words of a text as they are looked up, whatever their spelling."""
    return tuple(_folded(word) for word in _WORD.findall(text))
