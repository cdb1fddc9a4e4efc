"""Numbers, days, hours and money as they are printed; amounts of food are in measures.py, nutrients in figures.py.

Half goes up. A number and its unit are held together by a no-break space.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from fractions import Fraction
from functools import lru_cache
from math import floor
from types import MappingProxyType

from binder.pages.words.en import Words

NBSP = "\u00a0"
MINUS = "\u2212"
EN_DASH = "\u2013"
TIMES = "\u00a0×\u00a0"

VULGAR: Mapping[Fraction, str] = MappingProxyType(
    {
        Fraction(1, 8): "⅛",
        Fraction(1, 4): "¼",
        Fraction(1, 3): "⅓",
        Fraction(3, 8): "⅜",
        Fraction(1, 2): "½",
        Fraction(5, 8): "⅝",
        Fraction(2, 3): "⅔",
        Fraction(3, 4): "¾",
        Fraction(7, 8): "⅞",
    }
)
_SYMBOLS: Mapping[str, str] = MappingProxyType({"USD": "$", "EUR": "€", "GBP": "£"})
_NO_CENTS = frozenset({"JPY", "KRW", "ISK", "CLP", "VND"})  # ISO 4217: no minor unit


def half_up(value: Fraction | float, step: Fraction | int = 1) -> Fraction:
    """To the nearest multiple of `step`; half goes up. A float is taken to nine decimals first."""
    exact = value if isinstance(value, Fraction) else round(Fraction(value), 9)
    # In whole numbers, for speed: the steps nearest to exact / step.
    over, under = exact.numerator * step.denominator, exact.denominator * step.numerator
    return Fraction((2 * over + under) // (2 * under) * step.numerator, step.denominator)


# The same few thousand amounts stand on card, list, sheet and site.
@lru_cache(maxsize=16384)
def number(value: Fraction | float, decimals: int = 0) -> str:
    """`1,125`, `2.5`: rounded half up, a comma at the thousands, no zeros after the last figure."""
    exact = half_up(value, Fraction(1, 10**decimals))
    text = f"{float(exact):,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if decimals else text


def fraction(value: Fraction) -> str:
    """`1⅞` where a fraction character exists, else `5/7` or, mixed, `2 5/7`."""
    whole, rest = divmod(value, 1)
    if not rest:
        return number(value)
    if rest in VULGAR:
        return f"{whole:,}{VULGAR[rest]}" if whole else VULGAR[rest]
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole:,}{NBSP}{part}" if whole else part


def share(part: Fraction, whole: Fraction) -> str:
    """A part of a whole as a plain fraction, `1/8`; `1` for all of it."""
    ratio = part / whole
    return "1" if ratio == 1 else f"{ratio.numerator}/{ratio.denominator}"


def with_unit(figure: str, unit: str) -> str:
    """`350 g`, held together."""
    return f"{figure}{NBSP}{unit}" if unit else figure


def minutes(value: Fraction | float | int) -> str:
    """`35 min`, `1 h 15 min`, `2 min 30 s`; seconds only where they are written, under an hour."""
    return seconds(half_up(Fraction(value) * 60))


def seconds(value: Fraction | float | int) -> str:
    """The same, from seconds: `45 s`, `3 min 35 s`, `2 h`."""
    total = int(half_up(Fraction(value)))
    hours, rest = divmod(total, 3600)
    mins, secs = divmod(rest, 60)
    if hours and secs >= 30:
        return minutes(Fraction(total // 60 + 1))
    parts = [(hours, "h"), (mins, "min"), (0 if hours else secs, "s")]
    said = [with_unit(str(count), unit) for count, unit in parts if count]
    return NBSP.join(said) if said else with_unit("0", "min")


def clock(at: datetime | int) -> str:
    """`13:05`, from a time or from minutes after midnight."""
    if isinstance(at, datetime):
        return f"{at:%H:%M}"
    return f"{at // 60 % 24:02d}:{at % 60:02d}"


def day(of: date, words: Words) -> str:
    """`Thu 11 Jun`."""
    return words.date.format(
        weekday=words.weekdays_short[of.weekday()], day=of.day, month=words.months_short[of.month - 1]
    )


def day_long(of: date, words: Words) -> str:
    """`Thursday 11 June`."""
    return words.date.format(weekday=words.weekdays[of.weekday()], day=of.day, month=words.months[of.month - 1])


def day_with_year(of: date, words: Words) -> str:
    """`11 June 2026`, for what may lie in another year."""
    return words.date_with_year.format(day=of.day, month=words.months[of.month - 1], year=of.year)


def days(count: int, words: Words) -> str:
    """`1 day`, `4 days`."""
    return with_unit(number(count), words.day if count == 1 else words.days)


def weekdays_text(of: Sequence[date], words: Words) -> str:
    """`Mon–Wed, Fri`: three and more on end as a range."""
    runs: list[list[date]] = []
    for on in sorted(set(of)):
        if runs and (on - runs[-1][-1]).days == 1:
            runs[-1].append(on)
        else:
            runs.append([on])
    short = words.weekdays_short
    names = ([short[on.weekday()] for on in one] for one in runs)
    return ", ".join(f"{n[0]}{EN_DASH}{n[-1]}" if len(n) > 2 else ", ".join(n) for n in names)


def week_title(key: str, words: Words) -> str:
    """`Week 24, 2026` for `2026-W24`."""
    year, _, week = key.partition("-W")
    return words.week_title.format(week=int(week), year=year)


def money(value: Fraction, currency: str, *, down: bool = False) -> str:
    """`$4.20`, `€3.00`, `CHF 2.50`: symbol where one is usual, else the code. `down`: a lower bound is cut."""
    places = 0 if currency in _NO_CENTS else 2
    step = Fraction(1, 10**places)
    shown = floor(value / step) * step if down else half_up(value, step)
    figure = f"{float(shown):,.{places}f}"
    symbol = _SYMBOLS.get(currency)
    return f"{symbol}{figure}" if symbol else f"{currency}{NBSP}{figure}"


def grams(value: Fraction | float) -> str:
    """Weight as a kitchen scale shows it: `350 g`, under 10 g to the half gram (at least one), `1.2 kg` from 1000 g on.

    Kilograms have one decimal where that is within 1 %, else two.
    """
    return metric(Fraction(value), "g", "kg")


def millilitres(value: Fraction | float) -> str:
    """Volume by the same rule: `237 mL`, `1.5 L`."""
    return metric(Fraction(value), "mL", "L")


@lru_cache(maxsize=16384)
def metric(value: Fraction, small: str, large: str) -> str:
    """A metric amount in `small` units, or in `large` ones (a thousand of them) from 1000 on."""
    if half_up(value) >= 1000:
        thousands = value / 1000
        rough = half_up(thousands, Fraction(1, 10))
        decimals = 1 if abs(rough - thousands) * 100 <= thousands else 2
        return with_unit(number(thousands, decimals), large)
    if value < 10:
        # Never nothing of what there is some of.
        halves = half_up(value, Fraction(1, 2)) or (Fraction(1, 2) if value else Fraction(0))
        return with_unit(number(halves, 1), small)
    return with_unit(number(value), small)


def listed(items: Sequence[str], words: Words) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(items) < 2:
        return "".join(items)
    return words.list_last.format(first=", ".join(items[:-1]), last=items[-1])


def first_upper(text: str) -> str:
    """The first letter a capital, the rest as it is."""
    return text[:1].upper() + text[1:]


def first_lower(text: str) -> str:
    """The first letter small, the rest as it is."""
    return text[:1].lower() + text[1:]
