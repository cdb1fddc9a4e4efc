"""What `binder check` and `binder build` say of the weeks behind: information, never a problem."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

from binder.commands import together
from binder.examine import Examined
from binder.reckon.facts import RunSheet

# A weight that is written may be this far from what was weighed, as a share of it (common practice).
NEAR = Fraction(1, 20)
_MOST_NAMED = 4


def session_words(sheet: RunSheet) -> str:
    """How long a session will take by how long the last ones took; "" when none was timed."""
    if sheet.expected_minutes is None:
        return ""
    hours, minutes = divmod(sheet.expected_minutes, 60)
    which = "the last one" if sheet.expected_from == 1 else f"the last {sheet.expected_from}"
    alike = f" on a {sheet.start:%A}" if sheet.expected_alike else ""
    more = sheet.expected_longer
    took = (
        f"took {abs(more)} min {'longer' if more > 0 else 'less'} than planned" if more else "took as long as planned"
    )
    of = f", planned at {sheet.expected_planned} min," if sheet.expected_planned is not None else ""
    return f"{which}{alike}{of} {took}: by that about {hours} h {minutes:02d} min"


def unfinished(content: Path) -> Iterator[str]:
    """That a closing was stopped in the middle."""
    if together.unfinished(content):
        yield together.STOPPED


def not_closed(examined: Examined) -> Iterator[str]:
    """The weeks behind that nobody has closed."""
    library, today = examined.library, examined.asked.today
    weeks = sorted(library.weeks.values(), key=lambda week: week.monday) if library else []
    keys = [week.key for week in weeks if week.closed is None and week.monday + timedelta(days=6) < today]
    keys = [key for key in keys if key != examined.current]
    if keys:
        more = f" and {len(keys) - _MOST_NAMED} before" if len(keys) > _MOST_NAMED else ""
        named = ", ".join(keys[-_MOST_NAMED:])
        yield f"not closed yet: {named}{more}; `binder close-week {keys[-1]}` asks what became of it"


def weights(examined: Examined) -> Iterator[str]:
    """For each dish of the week that was weighed, cooked: the line to write where the recipe has none or another."""
    facts = examined.weeks.get(examined.current or "")
    for key in dict.fromkeys(batch.recipe for batch in facts.batches) if facts else ():
        recipe, last = examined.recipes.get(key), facts.past.weighed.get(key) if facts else None
        if recipe is None or last is None or recipe.per_portion.grams_from == "stated":
            continue
        # At the size that the recipe is written for.
        grams = last.grams * recipe.recipe.portions / last.portions
        written = recipe.recipe.weighs_g
        if written is None or abs(written - grams) > grams * NEAR:
            now = f"{float(written):.0f} g is written" if written is not None else "no cooked weight is written"
            yield f"recipes/{key}.md: {now}; weighed in {last.week}, so `weighs: {float(grams):.0f} g`"
