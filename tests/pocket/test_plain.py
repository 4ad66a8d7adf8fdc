"""What of a page reads where no script runs: its words, its drawings and ways to what is read plain, too."""

from __future__ import annotations

from builder import pocket

HELD = frozenset(("procedures/a.html", "procedures/b.html", "hazards/noise.html"))


def plain(main: str, path: str = "procedures/a.html") -> str:
    return pocket.plain_page(path, f'<body><main class="sheet">{main}</main></body>', HELD).html


def test_a_step_is_told_with_its_danger_before_it_and_its_number() -> None:
    told = plain(
        '<h1>Cut</h1><section class="block steps" id="part_steps"><article class=step id="x">'
        '<a href="#x">3</a>'
        '<p class="brief signal-2"><strong>WARNING</strong> <a href="../hazards/noise.html">Noise</a>: '
        'Muffs on.</p><h4 class=do>Cut it <span data-q="1 in">25 mm</span> off.</h4>'
        '<div class=why>It is rotten.</div></article></section>'
    )
    assert told == (
        "<h2>Cut</h2><hr><p><b>WARNING</b> Noise: Muffs on.<h5>3. Cut it 25 mm off.</h5><p>It is rotten."
    )


def test_what_kills_is_told_whole_each_time_and_other_dangers_once() -> None:
    kills = '<p class="brief signal-1"><strong>DANGER</strong> Car falls: Stands under it.</p>'
    hurts = '<p class="brief signal-3"><strong>CAUTION</strong> Sharp: Gloves on.</p>'
    told = plain((kills + hurts) * 2)
    assert told.count("Stands under it.") == 2
    assert told.count("Gloves on.") == 1
    assert told.count("Sharp") == 2


def test_ways_lead_inside_the_plain_part_or_are_words() -> None:
    told = plain(
        '<ul class="list to-open"><li><a href="b.html">B</a></li><li><a href="../tools/saw.html">Saw</a></li></ul>'
    )
    assert told == '<ul><li><a href="#procedures/b.html">B</a><li>Saw</ul>'


def test_a_drawing_stays_a_drawing_and_text_stays_escaped() -> None:
    told = plain(
        '<figure><svg class="drawing" role="img" aria-labelledby="t" viewBox="0 0 9 9"><title id="t">Lap</title>'
        '<desc>Words</desc><path class="sheet" fill="url(#hatch)" d="M1.26 2.71L3 4Z"/>'
        '</svg></figure><p>1 &lt; 2 &amp; 3</p>'
    )
    assert told == (
        '<svg viewBox="0 0 9 9"><title>Lap</title><path class=s d="M1 3l2 1z"/></svg><p>1 &lt; 2 &amp; 3'
    )


def danger(signal: int, word: str, way: str, said: str) -> str:
    return (
        f'<div class="warning signal-{signal}"><p class=signal><strong>{word}</strong></p>'
        f"<p><b>{said}</b> Do so. Else.{way}</p></div>"
    )


def test_a_danger_that_the_list_asks_for_is_named_at_its_step_and_leads_to_all_of_it() -> None:
    more = ' <a class=more href="../hazards/noise.html">More on this danger</a>'
    listed = (
        '<p class="brief signal-2"><strong>WARNING</strong> <a href="../hazards/noise.html">Noise</a>: '
        "Muffs on.</p>"
    )
    steps = (
        '<section id="part_steps"><article class=step><a href="#x">1</a>'
        + danger(2, "WARNING", "", "It has no page.")
        + danger(2, "WARNING", more, "It is loud.")
        + '<h4 class="do">Cut.</h4></article><article class=step><a href="#x">2</a>'
        + danger(1, "DANGER", more, "It kills.")
        + '<h4 class="do">Lift.</h4></article></section>'
    )
    told = plain(listed + steps).partition("<hr>")[2]
    assert told == (
        "<p><b>WARNING</b><p><b>It has no page.</b> Do so. Else."
        '<p><b>WARNING</b> <a href="#hazards/noise.html">Noise</a><h5>1. Cut.</h5>'
        "<hr><p><b>DANGER</b><p><b>It kills.</b> Do so. Else.<h5>2. Lift.</h5>"
    )
    assert "<b>It is loud.</b> Do so." in plain(steps)  # nothing has asked for it before


def test_a_page_tells_no_list_of_its_own_parts() -> None:
    links = (
        '<section class="block links">\n<h2>{}</h2>\n<ul class="list to-open">\n'
        '<li><a href="{}">One</a></li>\n</ul>\n</section>'
    )
    told = plain(links.format("On this page", "#part_one") + links.format("Works on", "../panels/one.html"))
    assert told == "<h3>Works on</h3><ul><li>One</ul>"
