"""Short names of dishes, for lists where a whole title has no room: the household's own, else the head of the title."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from types import MappingProxyType

LONGEST = 24  # characters; a head of a title that is longer is no short name
_ENDS = (" with ", " on ", " in ", ", ")


def short_names(dishes: Mapping[str, tuple[str, str]]) -> Mapping[str, str]:
    """By key, from title and the short name written for it ("" for none).

    No two dishes get one name: where two would, each keeps its title.
    """
    made = {key: written or head(title) for key, (title, written) in dishes.items()}
    taken = Counter(name.casefold() for name in made.values())
    titles = {key: title for key, (title, _) in dishes.items()}
    return MappingProxyType({key: name if taken[name.casefold()] == 1 else titles[key] for key, name in made.items()})


def head(title: str) -> str:
    """`Squash bake` of `Squash bake with barley, herbs`; the whole title where its head is still long."""
    cut = min((at for end in _ENDS if (at := title.find(end)) > 0), default=len(title))
    return title[:cut] if cut <= LONGEST else title
