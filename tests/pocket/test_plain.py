"""What of a page reads where no script runs: its words, its drawings and ways to what is read plain, too."""

from __future__ import annotations

from builder import pocket

HELD = frozenset(("procedures/a.html", "procedures/b.html", "hazards/noise.html"))


def plain(main: str, path: str = "procedures/a.html") -> str:
    return pocket.plain_page(path, f'<body><main class="sheet">{main}</main></body>', HELD).html


def test_a_step_is_told_with_its_danger_before_it_and_its_number() -> None:
    told = plain(
        '<h1>Cut</h1><section class="block steps" id="part_steps"><article class="step" id="x" data-step="3">'
        '<p class="step-number"><a href="#x">3</a></p><div class="step-body">'
        '<p class="brief signal-2"><strong class="signal">WARNING</strong> <a href="../hazards/noise.html">Noise</a>: Muffs on.</p>'
        '<h4 class="do">Cut it <span data-q="1 in">25 mm</span> off.</h4><div class="why">It is rotten.</div>'
        '<p class="tick"><button hidden>Done</button></p></div></article></section>'
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
        '<desc>Words</desc><path class="sheet" fill="url(#hatch)" d="M1.26 2.71L3 4Z"/></svg></figure><p>1 &lt; 2 &amp; 3</p>'
    )
    assert told == (
        '<svg viewBox="0 0 9 9"><title>Lap</title><path class="sheet" d="M1 3L3 4Z"/></svg><p>1 &lt; 2 &amp; 3'
    )
