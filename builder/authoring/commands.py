"""A command's words -> what is written or served, and what is said about it.

The work is in the modules beside; they are taken in when a command runs, so that the other commands start as fast.
"""

from __future__ import annotations

import re
import shlex
import sys
from pathlib import Path

import click

from builder import layers, pipeline, telling
from builder.model.files import Layer
from builder.model.near import listed, offer
from builder.model.records import KIND, Kind
from builder.model.reference import ID_PATTERN

LONGEST_ID = 80
DEFAULT_PORT = 8480
content_option = click.option(
    "--content", "contents", multiple=True, metavar="DIR",
    help="A layer of content; repeated, later layers win by id. The word supplied means the library that comes with "
    "Seambook. Without it the shop.yaml of this folder says the layers, else the supplied library alone.",
)  # fmt: skip


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--name", help="The shop's name, as every page shows it; else made of the folder's.")
def start(folder: Path, name: str | None) -> None:
    """Lay down a book of your shop's own in DIR: seambook start our-book

    DIR is new, empty, or holds only files whose names begin with a dot. It gets a shop.yaml (name, layers, units,
    people, review periods), a folder for your own records with a panel as an example, schemas for your editor, a
    .gitignore and a README for whoever works with it. The book builds at once: your records over the supplied library.
    """
    from builder.authoring.start import LONGEST_NAME
    from builder.authoring.start import start as lay_down

    if name is not None and (not name.strip() or len(name) > LONGEST_NAME or not name.isprintable()):
        raise click.UsageError(f"a shop's name is one line of at most {LONGEST_NAME} characters")
    made = lay_down(folder, name.strip() if name is not None else None)
    click.echo(f"{len(made)} files in {folder}", err=True)
    click.echo(f"Next:\n  cd {shlex.quote(str(folder))}\n"
               "  seambook make          builds the book; open site/index.html\n"
               "  seambook show          serves it for a look while you write\n"
               "  seambook write --help  says how a record of your own is begun\n"
               "Look over shop.yaml: the name, the people, the units.")  # fmt: skip


@click.command(epilog=f"Kinds: {', '.join(sorted(KIND))}.")
@click.argument("kind")
@click.argument("id_", metavar="ID")
@content_option
def write(kind: str, id_: str, contents: tuple[str, ...]) -> None:
    """Begin a record of your own, with a comment on every key: seambook write panel left-step

    It goes to your shop's own folder of records; a file that is there is never overwritten. Each value to be written
    stands as FILL IN, and seambook check says which are left. Where the library has a record of that kind and id, you
    get a copy of it to change, and you are told when the library's changes.
    """
    from builder.authoring.shop import write_record

    wanted, chosen = _asked(kind, id_), _layers(contents)
    made = write_record(chosen, wanted, id_, Path.cwd())
    if made.taken:
        said = f"a copy of {made.taken}, which it takes the place of: change what is different in your shop"
    else:
        said = "write something in place of every FILL IN, then type: seambook check"
    click.echo(said, err=True)
    click.echo(_from_here(made.path))


@click.command()
@click.argument("kind")
@click.argument("id_", metavar="ID")
@content_option
def confirm(kind: str, id_: str, contents: tuple[str, ...]) -> None:
    """Say that your record has seen what changed below it: seambook confirm panel floor

    A record of yours that takes the place of a supplied one is compared with the copy kept when it was made. When the
    library has changed since, make and check say so and show what changed. Take over what fits, then confirm: the
    library's record as it is now is kept as the new copy, and the warning ends.
    """
    from builder.authoring.shop import confirm as keep

    wanted, chosen = _asked(kind, id_), _layers(contents)
    click.echo(f"kept {keep(chosen, wanted, id_)} as it is now", err=True)


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@content_option
def schema(folder: Path, contents: tuple[str, ...]) -> None:
    """Write JSON Schemas for your editor to DIR, one a record kind: seambook schema schemas

    With them an editor completes keys, lists the words a value may be, and marks what is misspelt or missing while you
    type. In your shop's folder call DIR schemas: seambook write then puts the line into each record by which editors
    find its schema. Type it again after an update of Seambook, or when you have changed the words of a scale.
    """
    from builder.authoring.schemas import write_schemas

    made = write_schemas(folder, pipeline.scales(_layers(contents)))
    click.echo(f"{len(made)} schemas in {folder}", err=True)


@click.command()
@content_option
@click.option("--lan", is_flag=True, help="Let every device on this network read the book; prints a code for a phone.")
@click.option("--port", type=click.IntRange(0, 65535), default=DEFAULT_PORT, show_default=True,
              help="Where it is served; 0 takes any that is free.")  # fmt: skip
@click.option("--out", metavar="DIR", help="Keep the book in this folder; else it goes when you stop.")
def show(contents: tuple[str, ...], lan: bool, port: int, out: str | None) -> None:
    """Serve the book for a look while you write, until Ctrl-C.

    Only this computer can read it, unless you say --lan. When a record, a template or shop.yaml changes, the book is
    built again and open pages reload by themselves. A mistake is told here and on the page, and the last good book
    stays up meanwhile. Nothing of this gets into the published book: seambook make builds that.
    """
    from builder.authoring.show import Wish
    from builder.authoring.show import show as serve

    serve(Wish(contents, Path.cwd(), Path(out) if out else None, lan, port), click.echo)


def _asked(kind: str, id_: str) -> Kind:
    wanted = KIND.get(kind)
    if wanted is None:
        advice = offer(kind, KIND, f"use one of: {listed(KIND, most=40)}")
        raise click.UsageError(f'there is no kind "{kind}"; {advice}')
    if not re.fullmatch(ID_PATTERN, id_) or len(id_) > LONGEST_ID:
        raise click.UsageError(
            f'"{id_[:LONGEST_ID]}" is no id: write lower-case words joined by hyphens, such as left-step, '
            f"{LONGEST_ID} characters at most"
        )
    return wanted


def _layers(contents: tuple[str, ...]) -> tuple[Layer, ...]:
    chosen = layers.choose(contents, Path.cwd())
    if chosen.problems:
        for block in telling.blocks(chosen.problems, {}):
            click.echo(block, err=True)
        sys.exit(1)
    return chosen.layers


def _from_here(path: Path) -> str:
    return str(path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path)


COMMANDS = (start, write, confirm, schema, show)
