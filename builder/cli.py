"""Arguments -> what is asked of the pipeline; its outcome -> lines on the terminal and an exit code.

Exit codes: 0 all is well, 1 problems in the content (under --strict warnings too), 2 wrong arguments, 3 something
could not be read or published, 4 a fault in Seambook itself.
"""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path

import click

from builder import answers, layers, pipeline, point_answers, telling
from builder.authoring.commands import COMMANDS, content_option
from builder.authoring.placing import AuthoringError
from builder.crew import FaultInSeambookError
from builder.model.problem import Problem
from builder.model.standing import standing
from builder.progress import progress_to
from builder.supplied import templates

CONTENT, USAGE, DISK, FAULT = 1, 2, 3, 4
_strict = click.option("--strict", is_flag=True, help="Let warnings keep the book from being made, too.")


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="seambook")
def commands() -> None:
    """Compile a body shop's repair records into an offline book.

    Records are YAML files in folders of content: panels, seams, procedures, calculators and so on. A book with a
    mistake in it is never published: each mistake is shown with its place, what to do, and why it matters.
    """


@commands.command()
@content_option
@click.option("--out", default="site", show_default=True, metavar="DIR", help="Folder the book is published to.")
@_strict
@click.option("--processes", type=click.IntRange(1, 64), default=None, help="How many work at it.")
@click.option("--times", is_flag=True, help="Say how long each stage took.")
@click.option("--print", "whole", is_flag=True, help="Print a large book, too; a small one always is.")
@click.option("--pocket", metavar="FILE", help="Put the book down as one HTML file, too, to be handed on.")
@click.option("--anew", is_flag=True, help="Make all of it anew, whatever was kept of the last build.")
@click.option("--only", multiple=True, metavar="ID", help="Of the one file: this and what it leads to.")
def make(
    contents: tuple[str, ...], out: str, strict: bool, processes: int | None, times: bool, whole: bool,
    pocket: str | None, anew: bool, only: tuple[str, ...],
) -> None:  # fmt: skip
    """Build the book and publish it, all of it or nothing."""
    if only and pocket is None:
        raise click.UsageError("--only says what the one file holds; name the file with --pocket FILE")
    if pocket is not None:
        pipeline.require_file(Path(pocket), Path(out))
    chosen = layers.choose(contents, Path.cwd())
    _show(chosen.problems, "text", {})
    if chosen.problems:
        sys.exit(CONTENT)
    with progress_to(sys.stderr) as progress:
        outcome = pipeline.make(pipeline.Order(
            chosen.layers, templates(), Path(out), chosen.name, strict, processes, progress, chosen.shop,
            None if pocket is None else Path(pocket), only, whole, pipeline.kept_of(Path(out).absolute()), anew,
        ))  # fmt: skip
    _show(outcome.problems, "text", telling.paths_of(outcome))
    for lost in outcome.discovery.overridden:
        click.echo(f"{lost.ref}: {lost.winner} takes the place of {lost.loser}", err=True)
    if times:
        _show_times(outcome)
    if outcome.published is None:
        click.echo(f"{telling.counted(outcome.problems)}; {out} is as it was", err=True)
        sys.exit(CONTENT)
    done = outcome.published
    click.echo(f"{outcome.records} records, {done.changed} files written, {done.unchanged} unchanged, "
               f"{done.removed} removed", err=True)  # fmt: skip
    click.echo(f"Open {(Path(out) / 'index.html').resolve().as_uri()}")
    if pocket is not None:
        place = Path(pocket).resolve()
        click.echo(f"One file of {place.stat().st_size / 1e6:.2f} MB: {place.as_uri()}")


@commands.command()
@content_option
@_strict
@click.option("--format", "form", type=click.Choice(["text", "json", "github"]), default="text", show_default=True,
              help="How problems are written.")  # fmt: skip
@click.option("--processes", type=click.IntRange(1, 64), default=None, hidden=True)
def check(contents: tuple[str, ...], strict: bool, form: str, processes: int | None) -> None:
    """Read, link, check and work out everything, and publish nothing."""
    chosen = layers.choose(contents, Path.cwd())
    if chosen.problems:
        _show(chosen.problems, form, {})
        sys.exit(CONTENT)
    order = pipeline.Order(chosen.layers, templates(), None, chosen.name, strict, processes, shop=chosen.shop)
    outcome = pipeline.make(order)
    _show(outcome.problems, form, telling.paths_of(outcome))
    if form == "text":
        click.echo(f"{outcome.records} records, {telling.counted(outcome.problems)}", err=True)
    sys.exit(CONTENT if outcome.failed(strict) else 0)


@commands.command()
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar='[INPUT="VALUE UNIT"]...')
@click.option("--list", "list_all", is_flag=True, help="List the calculators, or one calculator's inputs.")
@click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")
@click.option("--csv", "table", metavar="FILE", help="The table, where a calculator works on points; - reads it in.")
@content_option
def calc(
    name: str | None, given: tuple[str, ...], list_all: bool, as_json: bool, table: str | None,
    contents: tuple[str, ...],
) -> None:  # fmt: skip
    """Work a calculator out: seambook calc dew-point air="20 degC" humidity="60 percent" surface="18 degC".

    It reads calculators, tables, sources and scales only, so it works in a book with mistakes elsewhere.
    """
    chosen = layers.choose(contents, Path.cwd())
    programs, problems, shelf = pipeline.asked(chosen.layers)
    if list_all and name is None:
        click.echo(answers.list_json(programs, shelf) if as_json else answers.list_text(programs, shelf))
        return
    if name is None:
        raise click.UsageError("name a calculator; seambook calc --list shows them all")
    program = programs.get(name)
    if program is None:
        own = tuple(problem for problem in problems if f"/{name}." in problem.span.file)
        _show(own, "text", {})
        if own:
            sys.exit(CONTENT)
        raise click.UsageError(answers.unknown(name, programs))
    if list_all:
        listed = answers.list_json({program.id: program}, shelf) if as_json else answers.inputs_text(program)
        click.echo(listed if as_json else listed + point_answers.columns_text(program))
        return
    if table is not None or program.points is not None:
        points = point_answers.ask(program, given, table)
        if isinstance(points, str):
            raise click.UsageError(points)
        told = point_answers.answer_json if as_json else point_answers.answer_text
        click.echo(told(program, points, standing(program.record, shelf)))
        return
    answer = answers.ask(program, given)
    if isinstance(answer, str):
        raise click.UsageError(answer)
    rests = standing(program.record, shelf)
    say = answers.answer_json if as_json else answers.answer_text
    click.echo(say(program, answer, rests))


@commands.command()
@click.argument("code")
def explain(code: str) -> None:
    """Say what a problem's code means and how it is mended: seambook explain L203."""
    wanted = code.strip().upper()
    for known in pipeline.CODES:
        if wanted in (known.id, known.name.upper()):
            click.echo(f"{known.id} {known.name}\n\n{known.explanation.strip()}")
            return
    every = " ".join(known.id for known in pipeline.CODES)
    raise click.UsageError(f'there is no problem code "{code}"; there are {every}')


def _show(problems: tuple[Problem, ...], form: str, paths: dict[str, Path]) -> None:
    """Print problems: text to the error stream where people look, tools' forms to the output."""
    if form == "json":
        click.echo(pipeline.report.json(problems))
        return
    if form == "github":
        for line in pipeline.report.github(problems):
            click.echo(line)
        return
    for block in telling.blocks(problems, paths):
        click.echo(block, err=True)


def _show_times(outcome: pipeline.Outcome) -> None:
    for stage, seconds in outcome.seconds.items():
        click.echo(f"{stage:>16}  {seconds:7.2f} s", err=True)


for command in COMMANDS:
    commands.add_command(command)


def main() -> None:
    """Run the command; what no author can have caused ends with code 4 and the record in hand."""
    # Everything a build keeps lives to its end: the cycle collector would walk it again and again for nothing.
    gc.disable()
    try:
        commands.main(standalone_mode=False)
    except pipeline.NotInBookError as unknown:
        click.echo(f"seambook: {unknown}", err=True)
        sys.exit(USAGE)
    except click.exceptions.Exit as end:
        sys.exit(end.exit_code)
    except click.ClickException as wrong:
        wrong.show()
        sys.exit(USAGE)
    except click.Abort:
        sys.exit(130)
    except (pipeline.PublishError, layers.LayerError, AuthoringError) as trouble:
        click.echo(f"seambook: {trouble}\n    do    {trouble.do}", err=True)
        sys.exit(DISK)
    except FaultInSeambookError as fault:
        click.echo(fault.details, err=True)
        click.echo(f"seambook: a fault in Seambook, not in your records; in hand: {fault.item}", err=True)
        sys.exit(FAULT)
    except BrokenPipeError:
        os._exit(DISK)
    except Exception as fault:
        import traceback

        traceback.print_exc()
        click.echo(f"seambook: a fault in Seambook, not in your records: {fault}", err=True)
        sys.exit(FAULT)
