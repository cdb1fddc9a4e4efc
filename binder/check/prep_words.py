"""Words of preparation and quality: closed lists, so that nothing else is ever set aside from a food's name."""

from __future__ import annotations

# How it was cut or worked: set aside, and kept to choose the table's measure.
_CUT_WORDS = """
    chopped minced diced dice cubed cubes cube sliced slices strips slivered flaked flakes shredded grated halved halves
    quartered quarters pieces chunks wedges mashed pureed puree crumbled crushed melted sifted unsifted packed unpacked
    julienned matchsticks rings rounds coins florets leaves sprigs drained rinsed pitted whole ground thawed whipped
    sections kernels shelled torn
    """
CUT = frozenset(_CUT_WORDS.split())
# Said of a food without making it another one: no words of state (dried, canned, cooked, frozen, ground, smoked).
_SAID_WORDS = """
    chopped minced diced cubed sliced slivered shredded grated halved quartered mashed crumbled crushed melted sifted
    packed julienned torn finely roughly coarsely thinly thickly freshly lightly firmly loosely very fresh ripe large
    small medium big young peeled unpeeled trimmed washed scrubbed cored seeded deseeded stemmed pitted boneless
    skinless boned skinned softened chilled cold warm hot room temperature good quality organic plain pure best firm
    tender heaped heaping level leaves sprigs florets pieces chunks wedges cubes slices strips rings extra beaten cut
    into in and of the rinsed drained thawed
    """
SAID = frozenset(_SAID_WORDS.split())
# Taken out wherever it stands in a phrase: what a knife or a peeler did.
_ANYWHERE_WORDS = """
    chopped diced cubed sliced shredded grated halved quartered peeled unpeeled trimmed deseeded seeded cored pitted
    stoned cleaned washed rinsed scrubbed finely roughly coarsely thinly thickly freshly
    """
ANYWHERE = frozenset(_ANYWHERE_WORDS.split())
# Two and more words that say how good a food is or how it was sold, and nothing about what it is. Hyphens are spaces.
_QUALITY_WORDS = """
    bone in, bone out, skin on, skin off, skins on, on the bone, day old, free range, grass fed, corn fed, wild caught,
    line caught, sustainably caught, good quality, best quality, high quality, top quality, ready to eat, ready rolled,
    ready made, straight to wok, thick cut, thin cut, bite size, bite sized, medium sized, store bought, shop bought,
    homemade, home made, unbaked, refrigerated, chilled, unwaxed, undyed, organic, assorted, vine ripened,
    of your choice, your favorite, your favourite, favorite, favourite, any kind of, leftover, stale, firm ripe,
    just ripe, plump, juicy, long, rolled, lukewarm, tepid, thin, thick, slender, ice cold, piping hot, freshly boiled,
    meaty, crisp, seedless, full fat, smooth, runny, natural, unsweetened, lean, prepared,
    packaged, bagged, prewashed, pre washed, ready to use, butterflied, spatchcocked, jointed, deboned, split, bruised,
    smashed, pounded, center cut, centre cut, farm fresh, premium, real, authentic, traditional, regular, whole,
    sustainable, responsibly sourced, outdoor bred, dry aged, milk fed, sashimi grade, sushi grade, restaurant style,
    quick cook, fast cook, mild, extra mature, par boiled, par cooked, oven ready, ready to bake, ready to roll
    """
QUALITIES = frozenset(" ".join(one.split()) for one in _QUALITY_WORDS.split(","))
