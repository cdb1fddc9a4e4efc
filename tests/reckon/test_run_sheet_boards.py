"""Which board each piece of work takes: held against trying every way."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from binder.reckon.run_sheet_boards import AVOIDED, PLAIN, RAW, Work, boards


def soiled(works: list[Work], taken: tuple[tuple[int, ...], ...]) -> int:
    """How many pieces of work lie where raw meat lay before."""
    return sum(
        work.what != RAW and any(works[i].what == RAW and set(taken[i]) & set(taken[n]) for i in range(n))
        for n, work in enumerate(works)
    )


def clash(works: list[Work], taken: tuple[tuple[int, ...], ...]) -> bool:
    return any(
        works[i].end > work.start and set(taken[i]) & set(taken[n]) for n, work in enumerate(works) for i in range(n)
    )


def test_produce_goes_to_the_board_that_had_no_raw_meat_on_it() -> None:
    """Lamb on one board; the other is free again when the herbs are chopped."""
    works = [Work(0, 50, PLAIN), Work(48, 64, RAW), Work(64, 78, PLAIN)]
    assert boards(works, 2) == ((0,), (1,), (0,))


def test_the_raw_board_is_kept_free_for_it_beforehand() -> None:
    """Taken by the lowest number the cabbage would come to the board that the beef needs while the leeks lie on."""
    works = [Work(0, 5, PLAIN), Work(0, 30, PLAIN), Work(10, 20, RAW), Work(30, 40, PLAIN)]
    assert boards(works, 2) == ((1,), (0,), (1,), (0,))
    assert boards(works, 3)[2] == (2,) and not soiled(works, boards(works, 3))


def test_raw_meat_is_alone_on_its_boards_and_what_is_avoided_too_where_there_are_enough() -> None:
    works = [Work(0, 5, PLAIN), Work(5, 9, AVOIDED), Work(9, 12, RAW), Work(12, 15, RAW), Work(15, 20, PLAIN)]
    assert boards(works, 3) == ((0,), (1,), (2,), (2,), (0,))
    assert boards(works, 4) == ((0,), (2,), (3,), (3,), (0,))
    assert boards(works, 1) == ((0,),) * 5
    assert boards([Work(0, 5, PLAIN, 2), Work(5, 9, PLAIN)], 3) == ((0, 1), (0,))


@pytest.mark.parametrize("seed", range(30))
def test_no_other_way_puts_less_work_where_raw_meat_lay(seed: int) -> None:
    dice = Random(seed)
    works: list[Work] = []
    for start in sorted(dice.randrange(20) for _ in range(8)):
        if sum(work.end > start for work in works) < 3:
            works.append(Work(start, start + dice.randrange(1, 9), dice.choice((PLAIN, PLAIN, RAW))))
    taken = boards(works, 3)
    assert not clash(works, taken)
    ways = (tuple((n,) for n in way) for way in product(range(3), repeat=len(works)))
    assert soiled(works, taken) == min(soiled(works, way) for way in ways if not clash(works, way))
