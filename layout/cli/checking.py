"""The commands that judge a build and explain what was found."""
# ruff: noqa: PLC0415 (each imports inside itself what it alone needs)

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Final

import typer

from layout import options
from layout.cli.judging import advised, stacking
from layout.cli.saying import FAILS, dumped, exit_code, page, say

if TYPE_CHECKING:
    from layout.questions.findings.finding import Check, Group

__all__ = ["check_command", "explain_command"]

_USUAL_SIGMA: Final = 3.0


def check_command(
    path: options.Build,
    *,
    json: options.Json = False,
    pairs: options.Pairs = False,
    every: options.All = False,
    rules: options.Rules = None,
    worst_case: options.WorstCase = False,
    sigma: options.Sigma = _USUAL_SIGMA,
) -> None:
    """Tell what clears, what does not, and by how much, worst first."""
    from layout.files.build_file import read_made
    from layout.questions.checking.check import check
    from layout.questions.findings.finding import Group

    groups = frozenset(Group) if rules is None else _groups(rules)
    if pairs and not json:
        raise typer.BadParameter("found --pairs alone; --json --pairs would be right")
    made = read_made(path)
    answer = check(
        made.build,
        every_pair=every,
        with_pairs=pairs,
        groups=groups,
        stacking=stacking(worst_case, sigma),
    )
    answer = answer if json else advised(made, answer)
    say(_as_json(answer) if json else _as_table(answer, every=every))
    raise typer.Exit(exit_code([answer]))


def _groups(rules: str) -> frozenset[Group]:
    from layout.given import groups

    return groups(rules)


def _as_json(answer: Check) -> str:
    from layout.report import as_json

    return dumped(as_json(answer))


def _as_table(answer: Check, *, every: bool) -> str:
    from layout.table import as_table

    return as_table(answer, every=every, **page())


def explain_command(
    path: options.Build,
    finding: Annotated[
        str,
        typer.Argument(
            metavar="ID", help="The finding's id, or its number in the table."
        ),
    ],
    *,
    json: options.Json = False,
    output: options.Picture = None,
    worst_case: options.WorstCase = False,
    sigma: options.Sigma = _USUAL_SIGMA,
) -> None:
    """Tell what a finding rests on: every figure, its source, and what it adds."""
    from layout.answers.explained import as_json, as_table
    from layout.files.build_file import read_build
    from layout.given import told_of
    from layout.questions.explaining.explain import UnknownFindingError, explain
    from layout.questions.findings.explanation import Account
    from layout.targets import picture_format

    kind = picture_format(output)
    build = read_build(path)
    with told_of("ID"):
        told = explain(build, finding, stacking=stacking(worst_case, sigma))
    if output is not None:
        if isinstance(told, Account):
            right = "the id of one between two places"
            found = f"{told.finding.id}, which has no length to draw"
            raise UnknownFindingError(f"-o: found {found}; {right} would be right")
        from layout.drawing.charts.chain import chain_scene
        from layout.drawing.ink.figure import render
        from layout.files.whole import write_whole

        write_whole({output: render(chain_scene(told), kind)})
    say(dumped(as_json(told)) if json else as_table(told, **page()))
    raise typer.Exit(FAILS if told.finding.verdict.fails else 0)
