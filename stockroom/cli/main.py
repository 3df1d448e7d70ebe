"""The `stockroom` command: its subcommands, each loaded when it is asked for, and how failures are told."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

import click

from stockroom.cli.output import plain
from stockroom.cli.session import Session
from stockroom.errors import BadInput, ExitCode, StockroomError

COMMANDS = {
    "demo": "demo:demo",
    "init": "init:init",
    "screens": "screens:screens",
    "serve": "serve:serve",
    "due": "due:due",
    "shelf": "shelf:shelf",
    "lot": "lot:lot",
    "scan": "scan:scan",
    "receive": "receive:receive",
    "supplier": "supplier:supplier",
    "order": "order:order",
    "buy": "buy:buy",
    "open": "receive:open_lot",
    "make": "make:make",
    "use": "use:use",
    "top-up": "check:top_up",
    "check": "check:check",
    "settle": "settle:settle",
    "take": "take:take",
    "cut": "cut:cut",
    "bring-back": "take:bring_back",
    "pour": "pour:pour",
    "discard": "waste:discard",
    "waste-can": "waste:waste_can",
    "return": "take:return_lot",
    "count": "count:count",
    "stock-take": "count:stock_take",
    "move": "move:move",
    "undo": "undo:undo",
    "put-right": "undo:put_right",
    "price": "undo:price",
    "label": "label:label",
    "label-stock": "label_stock:label_stock",
    "printer": "printer:printer",
    "card": "card:card",
    "job": "job:job",
    "book": "job:book",
    "plan": "plan:plan",
    "wall": "wall:wall",
    "closed": "closed:closed",
    "jars": "jars:jars",
    "cost": "cost:cost",
    "statement": "statement:statement",
    "quote": "quote:quote",
    "held": "held:held",
    "register": "register:register",
    "trace": "trace:trace",
    "withdraw": "trace:withdraw",
    "release": "trace:release",
    "losses": "losses:losses",
    "value": "value:value",
    "year-end": "year_end:year_end",
    "close-books": "close_books:close_books",
    "material": "material:material",
    "recipe": "recipe:recipe",
    "place": "place:place",
    "measure": "measure:measure",
    "person": "person:person",
    "studio": "studio:studio",
    "sources": "sources:sources",
    "import": "import_files:import_files",
    "export": "export:export",
    "verify": "verify:verify",
    "backup": "backup:backup",
    "restore": "backup:restore",
    "calc": "calc:calc",
}
"""Each command and where it is: a module of `stockroom.cli` and the function in it."""


class LazyGroup(click.Group):
    """A group whose commands are imported only when they are run or listed."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module, function = COMMANDS[cmd_name].split(":")
        command: click.Command = getattr(import_module(f"stockroom.cli.{module}"), function)
        return command


@click.group(cls=LazyGroup, invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--db", metavar="PATH", help="The stockroom file (else STOCKROOM_DB, else the settings').")
@click.option("--by", metavar="INITIALS", help="Who books (else the settings').")
@click.option("--on", metavar="DATE[THH:MM]", help="The moment to take as now.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON document.")
@click.version_option(package_name="stockroom", message="stockroom %(version)s")
@click.pass_context
def main(context: click.Context, db: str | None, by: str | None, on: str | None, as_json: bool) -> None:
    """The materials stockroom for a bench conservator of works on paper.

    Without a command it opens the screens.
    """
    session: Session = context.obj
    session.db, session.by, session.on = db, by, on
    session.json = session.json or as_json
    if context.invoked_subcommand is None:
        from stockroom.cli.screens import open_screens

        open_screens(session)


def run(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and end the process with its exit code; no traceback ever reaches a person."""
    sys.exit(run_for_code(sys.argv[1:] if arguments is None else arguments))


def run_for_code(arguments: Sequence[str]) -> int:
    """Run the command line and return its exit code.

    A command lives for a moment: looking for garbage while modules load would cost it a tenth of its time.
    """
    gc.disable()
    try:
        return _run(arguments)
    finally:
        gc.enable()


def _run(arguments: Sequence[str]) -> int:
    session = Session()
    session.json = "--json" in arguments
    try:
        _refuse_bytes(arguments)
        result = main.main(args=list(arguments), prog_name="stockroom", standalone_mode=False, obj=session)
        sys.stdout.flush()
        return result if isinstance(result, int) else ExitCode.DONE
    except click.exceptions.Abort:
        return ExitCode.INTERRUPTED
    except KeyboardInterrupt:
        return ExitCode.INTERRUPTED
    except click.ClickException as error:
        return _fail(session, "bad-input", _message(error), _usage(error), {}, ExitCode.BAD_INPUT)
    except StockroomError as error:
        return _fail(session, error.kind, error.message, None, error.details, error.exit_code)
    except (BrokenPipeError, SystemExit):
        # Whoever read our output has gone (click ends with SystemExit then). What was booked stays booked, so it is
        # not told as refused.
        return ExitCode.DONE
    except OSError as error:
        # a file that was named: too long a name, or one that may not be looked at
        if error.filename is None:
            return _fail(session, "bug", _report(error), None, {}, ExitCode.REFUSED)
        words = f"{error.filename} cannot be used: {error.strerror}. What was not yet booked is not booked."
        return _fail(session, "bad-input", words, None, {}, ExitCode.BAD_INPUT)
    except Exception as error:
        return _fail(session, "bug", _report(error), None, {}, ExitCode.REFUSED)


def _refuse_bytes(arguments: Sequence[str]) -> None:
    """Refuse what the terminal could not hand over as text: neither the books nor a message could hold it."""
    for argument in arguments:
        if any(0xD800 <= ord(char) <= 0xDFFF for char in argument):
            raise BadInput(f"{plain(argument)} holds bytes that are not text in UTF-8. Type it again.")


def _message(error: click.ClickException) -> str:
    """Return what was wrong; an amount below nothing reads as an option, and its minus is what is wrong with it."""
    if isinstance(error, click.NoSuchOption) and error.option_name[1:2].isdigit():
        return f"'{error.option_name}…' is less than nothing. Write amounts and prices without a minus."
    return error.format_message()


def _usage(error: click.ClickException) -> str | None:
    context = getattr(error, "ctx", None)
    return f"Help: {context.command_path} --help" if context else None


def _fail(session: Session, kind: str, message: str, hint: str | None, details: dict[str, Any], code: ExitCode) -> int:
    if session.json:
        known = details.pop("document", {})
        session.document({**known, "error": {"kind": kind, "message": message, "details": details}})
    details.pop("document", None)
    click.echo(plain(message), err=True)
    if hint:
        click.echo(plain(hint), err=True)
    return code


def _report(error: Exception) -> str:
    """Write where it went wrong where the maintainers can find it, and say so.

    What an error says of itself may hold a client's name or anything else that was typed: only its kind is written.
    """
    import os
    from datetime import UTC, datetime

    from stockroom.paths import state_folder

    try:
        folder = state_folder()
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"fault-{datetime.now(UTC):%Y%m%dT%H%M%S}.txt"
        with open(os.open(path, os.O_CREAT | os.O_WRONLY | os.O_APPEND, 0o600), "w", encoding="utf-8") as file:
            file.write(_where_it_went_wrong(error))
        where = f" Where it happened is in {path}."
    except OSError:
        where = f" ({type(error).__name__}: {error})"
    return (
        f"Something is wrong in the program itself. What was not yet booked is not booked.{where} "
        "'stockroom verify' tells whether the stockroom file is sound."
    )


def _where_it_went_wrong(error: BaseException) -> str:
    import traceback

    before = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    told = f"{_where_it_went_wrong(before)}and from there\n" if before else ""
    places = "".join(traceback.format_tb(error.__traceback__))
    return f"{told}{places}{type(error).__module__}.{type(error).__qualname__}\n"
