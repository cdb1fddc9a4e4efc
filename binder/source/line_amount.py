"""The front of an ingredient line: how much, in what, in packs of what size."""

from __future__ import annotations

import re
from fractions import Fraction

from binder.problem import Span, error
from binder.source.amount import FoundUnit, Measure, across, measure_at, measure_of, unit_at
from binder.source.lexicon import ALONE, FOOD_TOO, HEAPS, HOLDERS, MEASURED, SIZES
from binder.source.line_front import OF, PAREN, Front, after_slash, read_further, stated_measure
from binder.source.line_words import OF_FOODS, ROUGHLY, VAGUE
from binder.source.near_units import near_unit
from binder.source.numbers import Written, written_at
from binder.source.place import part_of

_BULLET = re.compile(r"\s*(?:[-–*•·]\s+)?")
_MINUS = re.compile(r"[-−–]\s?(?=[0-9½¼¾⅓⅔.])")
_TIMES = re.compile(r"\s*[x×*]\s*(?=[0-9½¼¾⅓⅔])", re.IGNORECASE)
_TIMES_FOOD = re.compile(r"\s+[x×]\s+(?=[^\W\d])")
_WORDS2 = re.compile(r"[\s-]*([^\W\d_]+(?:[\s-][^\W\d_]+)?\.?)(?![\w])")
_WORDS1 = re.compile(r"[\s-]*([^\W\d_]+\.?)(?![\w-])")
# Only a part of the food is used, and the food is what is counted: `leaves from 4 sprigs thyme`.
_PART_FROM = re.compile(
    r"(?:the\s+)?(leaves|needles|kernels|seeds|meat|flesh)\s+(?:from|of)\s+(?=[0-9½¼¾⅓⅔]|an?\s|one\s|two\s)", re.I
)
_TO = re.compile(r"\s*[-–—]\s*|\s+to\s+", re.IGNORECASE)
_LENGTH = re.compile(r"[\s-]+(?:long\s+)?(?:pieces?|knobs?|lengths?|chunks?|sections?|nubs?)\b", re.IGNORECASE)
_THUMB = re.compile(r"\s*(?:thumb[\s-]?sized?\s+(?:piece|knob|chunk|length)|thumb\b)", re.IGNORECASE)
# The whole of a `2 whole cloves garlic` is no food; that of `4 whole cloves` is.
_WHOLE = re.compile(
    r"\s+whole(?=\s+(?:heads?|bulbs?|cloves?|bunch(?:es)?|leaves|leaf|slices?)\s+(?:of\s+)?[^\W\d_])", re.I
)
_SINGLE = frozenset(
    ("bunch", "head", "bulb", "piece", "fillet", "filet", "ball", "slice", "sheet", "log", "loaf", "wedge")
)


def read_front(text: str, span: Span, start: int = 0) -> Front:
    """Everything before the food. Without an amount `end` is where the food begins, and `amounts` is empty."""
    front = Front(text, span, start)
    front.take(_BULLET)
    if part := front.take(_PART_FROM):
        front.notes.append(part[1].lower())
    if _MINUS.match(text, front.end):
        return _refused(front, written_at(text, front.end + 1, words=False))
    if roughly := ROUGHLY.match(text, front.end):
        after = written_at(text, roughly.end())
        if after or _alone(text, roughly.end()):
            front.end = roughly.end()
            front.flags.add("approximately")
    if vague := VAGUE.match(text, front.end):
        front.end = vague.end()
        front.flags.add("to taste")
        return front
    number = written_at(text, front.end)
    if number is None:
        _without_number(front)
        return front
    if not _begins_amount(text, number):
        return front
    if number.low is None or number.high is None or number.high <= 0:
        return _refused(front, number)
    begun = front.end
    front.end = number.end
    if number.loose:
        front.flags.add("approximately")
    _counted(front, number)
    if not front.amounts:
        if not front.problems:
            front.end = begun
        return front
    read_further(front)
    return front


def _refused(front: Front, number: Written | None) -> Front:
    """An amount that cannot stand: zero, negative, divided by zero, without end."""
    begun = front.end
    front.end = number.end if number else begun + 1
    if unit := unit_at(front.text, front.end):
        front.end = unit.end
    front.take(OF)
    written = front.text[begun : front.end].strip()
    place = part_of(front.span, front.text, begun, begun + len(written))
    message = f'an amount must be a number above zero: "{written}"'
    front.problems.append(error(place, "bad-amount", message, "write how much, as in 1 1/2 cups"))
    return front


def _begins_amount(text: str, number: Written) -> bool:
    """Whether a number is an amount: not `2% milk`, `3-bean salad`, `7th`, `00 flour`."""
    after = text[number.end :]
    if re.match(r"\s?%|°|[.:/]\d", after):
        return False
    if re.match(r"[^\W\d_]|-[^\W\d_]", after):
        return unit_at(text, number.end) is not None or bool(_TIMES.match(text, number.end)) or _sized(after)
    return not re.match(r"0\d", text[: number.end].strip().split(" ")[-1])


def _sized(after: str) -> bool:
    found = re.match(r"-?([^\W\d_]+)\b", after)
    return bool(found and found[1].lower() in SIZES)


def _alone(text: str, start: int, sized: bool = False) -> FoundUnit | None:
    """A unit that means one of it without a number: `pinch of salt`, `bunch of dill`."""
    unit = unit_at(text, start)
    if unit is None or unit.unit == "inch":
        return None
    named = len(text[unit.start : unit.end].rstrip(".")) > 2
    of = OF.match(text, unit.end)
    more = text[unit.end :].strip(" .,")
    sure = of or sized or unit.unit in ALONE
    return unit if named and more and sure and not text[unit.end :].startswith(",") else None


def _without_number(front: Front) -> None:
    if front.take(_THUMB):
        front.amounts.append(Measure(Fraction(1), Fraction(1), "knob"))
        front.take(OF)
        return
    probe = Front(front.text, front.span, front.end)
    size = _qualities(probe)
    if unit := _alone(front.text, probe.end, bool(size)):
        front.flags |= probe.flags
        front.amounts.append(Measure(Fraction(1), Fraction(1), unit.unit, size))
        front.end = unit.end
        front.take(OF)


def _qualities(front: Front) -> str:
    """Step over `large`, `heaped`, `(packed)` before a unit or a food; the size is returned, the rest become flags."""
    size = ""
    while True:
        paren = PAREN.match(front.text, front.end)
        if paren and (paren[1].lower() in SIZES or paren[1].lower() in HEAPS):
            word, end = paren[1].lower(), paren.end()
        else:
            found = next(
                (m for p in (_WORDS2, _WORDS1) if (m := p.match(front.text, front.end)) and _quality(m[1])), None
            )
            if not found or not front.text[found.end() :].strip(" ,"):
                return size
            word, end = _quality(found[1]), found.end()
        if word in SIZES and size and not paren:
            return size
        if word in SIZES:
            size = SIZES[word]
        else:
            front.flags.add(HEAPS[word])
        front.end = end


def _quality(words: str) -> str:
    """The word as the lexicon has it: `Extra large`, `med.`; empty when it is no such word."""
    word = re.sub(r"\s+", " ", words.lower()).removesuffix(".").removeprefix("very ")
    return word if word in HEAPS else word.replace(" ", "-") if word.replace(" ", "-") in SIZES else ""


def _counted(front: Front, number: Written) -> None:
    """What follows the number: a unit, packs of a stated size, or the food itself, which is then pieces."""
    times = front.take(_TIMES)
    front.take(_TIMES_FOOD)
    if not times:
        _paren_before_unit(front, number)
    size = _qualities(front)
    nested = (
        measure_at(front.text, _skip(front.text, front.end), words=True)
        if _may_nest(front, number, bool(times))
        else None
    )
    if nested and (nested[0].unit in MEASURED or nested[0].unit == "inch"):
        front.pack, front.end = nested
        front.end = after_slash(front.text, front.end)
        size = _qualities(front) or size
    front.take(_WHOLE)
    if thumb := front.take(_THUMB):
        # As long as a thumb: a knob.
        return _finish(front, number, FoundUnit("knob", Fraction(1), thumb.start(), thumb.end()), size)
    unit = unit_at(front.text, front.end)
    if unit and unit.unit in FOOD_TOO and not _food_follows(front.text, unit.end):
        unit = None
    if front.pack and unit and unit.unit in MEASURED:
        unit = None
    if unit is None:
        if not front.pack and _unknown_unit(front):
            return
        unit = FoundUnit("each", Fraction(1), front.end, front.end)
    front.end = max(front.end, unit.end)
    _finish(front, number, unit, size)


def _skip(text: str, start: int) -> int:
    return start + len(text[start:]) - len(text[start:].lstrip())


def _may_nest(front: Front, number: Written, times: bool) -> bool:
    """Whether a second number may be what one pack holds: `2 14.5-oz cans`, `2 x 400g`, not `1 1/2 cups`."""
    return front.pack is None and (times or front.text[front.end : front.end + 1].isspace()) and bool(number.low)


_MORE = re.compile(r"(?:plus|and|\+|&)\s+(?=[\d½¼¾⅓⅔⅛])", re.IGNORECASE)


def _food_follows(text: str, start: int) -> bool:
    """Whether what follows a unit can be the food: `2 cloves garlic`, not `4 cloves, ground`.

    A second measure counts as if the food followed: `1 stick plus 2 tbsp butter`.
    """
    rest = re.sub(r"^\s*(?:\([^()]*\)\s*)*", "", text[start:])
    if more := _MORE.match(rest):
        unit = measure_at(rest, more.end())
        return bool(unit and re.match(r"\s+[^\W_]", rest[unit[1] :]))
    return bool(re.match(r"[^\W_]", rest)) and not re.match(r"(?:or|to taste|and|for|plus|as)\b", rest)


def _paren_before_unit(front: Front, number: Written) -> None:
    """`1 (15 oz) can`: the stated size of one. A size word or packed in parentheses is left for its own reader."""
    paren = PAREN.match(front.text, front.end)
    if not paren or not (stated := stated_measure(paren[1])):
        return
    front.end = paren.end()
    measure, whole = stated
    if whole:
        front.equivalent = measure
        front.notes.append(paren[1].strip())
    else:
        front.pack = measure


def _finish(front: Front, number: Written, unit: FoundUnit, size: str) -> None:
    """Put number, size and unit together, with the special cases of inches and of a pack without a count."""
    measure = measure_of(number, unit, size)
    if measure is None:
        return
    if front.pack and front.pack.unit == "inch":
        length, front.pack = front.pack, None
        if unit.unit == "piece" or _LENGTH.match(front.text, front.end):
            front.take(_LENGTH)
            measure = Measure(measure.low * length.low, measure.high * length.high, "inch")
        else:
            front.notes.append(
                f"{length.low}-inch" if length.low == length.high else f"{length.low}-{length.high}-inch"
            )
    elif unit.unit == "inch":
        if paren := front.take(PAREN):
            front.notes.append(paren[1].strip())
        front.take(_LENGTH)
    elif (
        measure.unit in MEASURED
        and not front.pack
        and (holder := _holder_next(front.text, after_slash(front.text, front.end)))
    ):
        # `400 g tin tomatoes`: one of them.
        front.pack, front.end = measure, holder.end
        measure = Measure(Fraction(1), Fraction(1), holder.unit)
    front.amounts.append(measure)
    _range_across(front)


def _holder_next(text: str, start: int) -> FoundUnit | None:
    unit = unit_at(text, start)
    if unit is None or not _food_follows(text, unit.end):
        return None
    if unit.unit in HOLDERS and len(text[unit.start : unit.end]) > 2:
        return unit
    word = text[unit.start : unit.end].lower()
    return unit if word in _SINGLE else None


def _range_across(front: Front) -> None:
    """`1 tsp to 1 tbsp`, `1 cup-2 cups`."""
    link = _TO.match(front.text, front.end)
    second = measure_at(front.text, link.end()) if link else None
    if second and (both := across(front.amounts[-1], second[0])):
        front.amounts[-1], front.end = both, second[1]


def _unknown_unit(front: Front) -> bool:
    """Whether the word after the number is a unit nobody knows; then it is stepped over and a problem says so."""
    found = re.compile(r"\s*(([^\W\d_]{2,})\.?)(?![\w'’-])").match(front.text, front.end)
    if not found or found[2].lower() in OF_FOODS:
        return False
    word, rest = found[1], front.text[found.end() :]
    meant = near_unit(word)
    of = re.match(r"\s+of\s+\w", rest)
    dotted = word.endswith(".") and re.match(r"\s+\w", rest)
    if not (of or dotted or (meant and re.match(r"\s+[^\W\d_]", rest))):
        return False
    place = part_of(front.span, front.text, found.start(1), found.end(1))
    remedies = [f'did you mean "{meant}"?'] if meant else []
    remedies.append("write a known unit, or the number of pieces and the food without a unit")
    front.problems.append(error(place, "unknown-unit", f'no unit "{word}"', *remedies))
    front.end = found.end()
    front.take(OF)
    return True
