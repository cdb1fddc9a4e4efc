"""What follows the amount of an ingredient line, sorted out: notes, food, alternative, preparation, flags."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction

from binder.source.amount import Measure, measure_at
from binder.source.lexicon import MEASURED
from binder.source.line_amount import read_front
from binder.source.line_food import unit_after, with_alternative
from binder.source.line_front import Front, settle, stated_measure
from binder.source.line_words import AFTER, FLAG_TAIL, FOR, NOT_FOOD, TAKEN_AFTER, flag_of, state_flags


@dataclass(slots=True)
class Rest:
    """What follows the amount, as it is being sorted out."""

    front: Front
    recipe: bool = False
    food: str = ""
    food_start: int = 0
    food_end: int = 0
    preparation: list[str] = field(default_factory=list)
    alternative: str = ""
    plus_more: str = ""
    taken: str = ""


def sort_out(rest: Rest) -> None:
    """Notes out of the way, then the parts between commas: flags, the food, what was done to it."""
    front = rest.front
    plain = _without_notes(front)
    if key := re.compile(r"\s*recipe:\s*", re.IGNORECASE).match(plain, front.end):
        rest.recipe = True
        front.end = key.end()
    parts = [(front.end, len(plain))] if front.several else _parts(plain, front.end)
    while parts and not rest.food:
        start, stop = parts.pop(0)
        if not _is_flag(front, _clean(plain[start:stop])):
            stop = _joined(plain, start, stop, parts, rest.recipe)
            _food(rest, plain, start, stop)
    for start, stop in parts:
        _part(rest, _clean(plain[start:stop]))
    if not front.amounts and not front.problems:
        _amount_in_notes(front)
    offered = (note[3:].strip() for note in front.notes if note.lower().startswith("or ") and not flag_of(note))
    rest.alternative = rest.alternative or next(offered, "")


def _without_notes(front: Front) -> str:
    """The text with what stands in parentheses blanked out and kept as notes; same length."""
    pieces, last = [], 0
    for found in re.finditer(r"\(([^()]*)\)", front.text):
        if found.start() < front.end or not found[1].strip():
            continue
        note = re.sub(r"\s+", " ", found[1]).strip()
        if stated := stated_measure(note):
            settle(front, note, stated)
        else:
            front.notes.append(note)
            _is_flag(front, note.lower())
            front.flags |= state_flags(note)
        pieces.append(front.text[last : found.start()] + " " * (found.end() - found.start()))
        last = found.end()
    return "".join(pieces) + front.text[last:]


def _amount_in_notes(front: Front) -> None:
    """`chopped tomatoes (400g tin)`, `butter (50 g)`: the amount stands in the parentheses only."""
    if front.equivalent:
        front.amounts.append(front.equivalent)
        front.equivalent = None
        return
    for note in front.notes:
        if inside := _amount_alone(note, front):
            front.amounts, front.pack = inside.amounts, inside.pack
            front.notes.remove(note)
            return


def _amount_alone(text: str, front: Front) -> Front | None:
    """What a text says that is an amount and nothing else: `400g tin`, `3 large`."""
    inside = read_front(f"{text} food", front.span)
    return inside if inside.amounts and not inside.problems and inside.end >= len(text) else None


_BREAK = re.compile(r",(?![0-9])|;|\s+[-–—]+\s+")


def _parts(text: str, start: int) -> list[tuple[int, int]]:
    """Where the parts between commas stand; a comma inside a number is none."""
    parts = []
    for found in _BREAK.finditer(text, start):
        parts.append((start, found.start()))
        start = found.end()
    return [*parts, (start, len(text))]


def _clean(part: str) -> str:
    return re.sub(r"\s+", " ", part).strip(" .,;:*")


def _is_flag(front: Front, part: str) -> bool:
    """Whether a part is empty or only a flag, which is then kept."""
    flag = flag_of(part) if part else None
    if flag:
        front.flags.add(flag)
    return not part or flag is not None


def _joined(text: str, start: int, stop: int, parts: list[tuple[int, int]], recipe: bool) -> int:
    """Where the food really ends: `boneless, skinless chicken thighs` has no food before its first comma."""
    while parts and not recipe:
        words = _clean(text[start:stop]).lower().split()
        following = _clean(text[slice(*parts[0])])
        first = following.split(" ")[0].lower()
        if not all(word.strip(",") in NOT_FOOD for word in words) or not following or first in ("or", "plus", "to"):
            break
        if all(word in NOT_FOOD for word in following.lower().split()) and len(parts) == 1:
            break
        stop = parts.pop(0)[1]
    return stop


def _food(rest: Rest, plain: str, start: int, stop: int) -> None:
    """The part that names the food, with what hangs on to it without a comma."""
    phrase = plain[start:stop]
    if not rest.recipe:
        phrase = _cut_tails(rest, phrase)
        if not rest.front.amounts and not rest.front.problems:
            phrase = _amount_behind(rest, phrase)
    food = _clean(phrase)
    rest.food_start = start + len(phrase) - len(phrase.lstrip(" .,;*\t\n"))
    rest.food_end = start + len(phrase.rstrip(" .,;*\t\n"))
    if rest.recipe:
        rest.food = food
        return
    if opening := re.match(r"or\s+(?=\S)", food, re.IGNORECASE):
        # `1 large or 2 small onions`: the food is named by the alternative.
        rest.alternative = food[opening.end() :]
        rest.food = _food_of(rest.alternative, rest.front)
        return
    found = with_alternative(food)
    rest.food, rest.alternative = found.food, found.alternative or rest.alternative


def _food_of(offered: str, front: Front) -> str:
    """The food of an alternative that has its own amount: `onions` of `2 small onions`."""
    # Every further `or` is one reading deeper: a handful is plenty.
    if len(re.findall(r"\bor\b", offered)) > 4:
        return offered
    other = Rest(read_front(offered, front.span))
    sort_out(other)
    return other.food


def _cut_tails(rest: Rest, phrase: str) -> str:
    """Take `to taste`, `plus more for ...`, `for serving`, `finely chopped` off the end of the phrase."""
    behind: list[str] = []
    while found := FLAG_TAIL.search(phrase):
        _is_flag(rest.front, _clean(found[0]).strip("()").lower())
        phrase = phrase[: found.start()]
    if plus := _PLUS.search(phrase):
        _plus(rest, _clean(phrase[plus.end() :]))
        phrase = phrase[: plus.start()]
    for pattern in (FOR, AFTER):
        found = pattern.search(phrase.rstrip())
        if found and phrase[: found.start()].strip():
            behind.insert(0, _clean(found[0]))
            phrase = phrase[: found.start()]
    rest.preparation += behind
    return phrase


_PLUS = re.compile(r"\s+(?:plus|\+)\s+(?=more\b|extra\b|[0-9½¼¾⅓⅔])", re.IGNORECASE)
_MORE = re.compile(r"(?:(?:and|with)\s+)?(?:a (?:bit|little) )?(?:more|extra)\b\s*", re.IGNORECASE)


def _plus(rest: Rest, said: str) -> None:
    """`plus more for the pan`, `plus 2 tbsp for dusting`: an amount is added, the words are kept."""
    amount = measure_at(said, 0, words=True)
    # With another food behind it the amount is that food's: `plus 1/2 tsp pepper`.
    own = amount and re.match(r"\s*(?:$|(?:for|more|extra|to|as|if)\b)", said[amount[1] :])
    if amount and own and amount[0].unit in MEASURED and rest.front.amounts:
        rest.front.amounts.append(amount[0])
        said = said[amount[1] :].strip()
        if not said:
            return
    rest.front.flags.add("plus more")
    more = _MORE.match(said)
    rest.plus_more = said[more.end() :] if more else said


def _amount_behind(rest: Rest, phrase: str) -> str:
    """`butter 50 g`, `eggs x 2`: the amount after the food."""
    if times := re.search(r"\s+[x×]\s*([0-9]{1,6})\s*$", phrase):
        if int(times[1]):
            rest.front.amounts.append(Measure(Fraction(int(times[1])), Fraction(int(times[1])), "each"))
            return phrase[: times.start()]
        return phrase
    for found in re.finditer(r"[\s:]+(?=[0-9½¼¾⅓⅔.])", phrase):
        amount = measure_at(phrase, found.end())
        if amount and found.start() and not phrase[amount[1] :].strip(" ."):
            rest.front.amounts.append(amount[0])
            return phrase[: found.start()]
    return phrase


def _part(rest: Rest, part: str) -> None:
    """One part after the food."""
    front = rest.front
    lower = part.lower()
    if _is_flag(front, lower):
        return
    if found := re.match(r"or\s+(?=\S)", part, re.IGNORECASE):
        if not rest.alternative:
            rest.alternative = part[found.end() :]
            return
    elif found := re.match(r"(?:plus|\+)\s+(?=\S)", part, re.IGNORECASE):
        return _plus(rest, part[found.end() :])
    elif found := re.match(r"(?:(?:and|with)\s+)?(?:more|extra)\s+(?:for|to)\s", part, re.IGNORECASE):
        return _plus(rest, part)
    elif not front.amounts and not front.problems and (found_alone := _amount_alone(part, front)):
        front.amounts, front.pack = found_alone.amounts, found_alone.pack
        return
    elif front.amounts and (stated := stated_measure(part)) and stated[0].unit in MEASURED:
        # `1 squash, about 2 lb`
        return settle(front, part, stated)
    if tail := FLAG_TAIL.search(part):
        _is_flag(front, _clean(tail[0]).strip("()").lower())
        part = part[: tail.start()]
    elif plus := _PLUS.search(part):
        _plus(rest, part[plus.end() :])
        part = part[: plus.start()]
    bare = re.sub(r"^(?:just the |(?:finely |freshly )?grated |freshly squeezed )|(?: only)$", "", lower)
    if not rest.taken and bare in TAKEN_AFTER and [m.unit for m in front.amounts] == ["each"]:
        rest.taken = TAKEN_AFTER[bare]
        return
    front.flags |= state_flags(part)
    rest.preparation.append(part)


def name_units(rest: Rest) -> None:
    """`2 garlic cloves` counts cloves; a stick of celery is a stalk."""
    front = rest.front
    if rest.recipe or not front.amounts:
        return
    last = front.amounts[-1]
    if last.unit == "stick" and rest.food.lower().startswith(("celery", "rhubarb", "lemongrass")):
        front.amounts[-1] = replace(last, unit="stalk")
    if len(front.amounts) == 1 and last.unit == "each" and (found := unit_after(rest.food)):
        rest.food, unit = found
        front.amounts[0] = replace(last, unit=unit)
