"""Tracing both ways, and a recall, from the command line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

POWDER, STOCK, BATH = "calcium-hydroxide", "calcium-hydroxide-saturated", "calcium-hydroxide-1-in-4"


@pytest.fixture
def studio(stockroom: Any) -> dict[str, Any]:
    """Powder of maker's lot 7731 in two bottles; a jar of each; a bath from the first jar for the north sheet."""
    bottles = stockroom.on("2026-11-01", "receive", POWDER, "2 x 100 g", "--cost", "10.00", "--lot-number", "7731")[
        "codes"
    ]
    jars = [stockroom.on("2026-11-02", "make", STOCK, "1 L", "--from", bottle)["code"] for bottle in bottles]
    stockroom.on("2026-11-02", "job", "new", "Sea chart", "--object", "North, 60 x 40 cm", "--object", "South")
    stockroom.on("2026-11-02", "job", "new", "Ferns", "--object", "Plate 3")
    used = stockroom.on("2026-11-05T10:00", "use", BATH, "--job", "Sea chart", "--object", "North", "--qty", "400 mL",
        "--from", jars[0], "--tested", "AB",
    )  # fmt: skip
    return {"bottles": bottles, "jars": jars, "use": used["action"]}


def trace(stockroom: Any, *what: str, code: int = 0) -> Any:
    return stockroom.json("trace", *what, code=code)


def ways(found: Any, way: str) -> set[str]:
    return {one["code"] for one in found["lots"] if one["way"] == way}


def names(found: Any) -> set[tuple[str, bool]]:
    return {(one["name"], one["stated"]) for one in found["objects"]}


def test_a_bottle_leads_through_its_jar_to_the_treatment_and_the_object(stockroom: Any, studio: Any) -> None:
    found = trace(stockroom, studio["bottles"][0])
    assert ways(found, "reached") == {studio["jars"][0]}
    assert names(found) == {("North", True)}
    assert [one["action"] for one in found["treatments"]] == [studio["use"]]
    (start,) = found["reached"]
    (jar,) = start["leads_to"]
    (treatment,) = jar["leads_to"]
    assert (jar["amount"], jar["unit"], treatment["recipe"]) == ("3", "g", BATH)
    assert treatment["leads_to"][0]["what"] == "object"


def test_an_object_leads_back_to_every_lot_with_makers_number_strength_check_and_date(
    stockroom: Any, studio: Any
) -> None:
    """A check after the use says nothing of what was used."""
    titrated = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL", "--temperature", "22")
    stockroom.on("2026-11-04", "check", studio["jars"][1], *titrated)
    stockroom.on("2026-11-06", "check", studio["jars"][0], *titrated)
    found = trace(stockroom, "Sea chart", "--object", "North")
    lots = {one["code"]: one for one in found["lots"]}
    assert set(lots) == {studio["bottles"][0], studio["jars"][0]}
    assert lots[studio["bottles"][0]]["maker_lot"] == "7731"
    assert lots[studio["bottles"][0]]["received_on"] == "2026-11-01"
    jar = lots[studio["jars"][0]]
    assert (jar["strength"], jar["check"], jar["amount"]) == ("about 1.6 g/L (saturated)", None, "100")
    stockroom.on("2026-11-07T10:00", "use", BATH, "--job", "Ferns", "--qty", "400 mL", "--from", studio["jars"][1],
        "--tested", "AB",
    )  # fmt: skip
    later = {one["code"]: one for one in trace(stockroom, "Ferns")["lots"]}[studio["jars"][1]]
    assert (later["check"]["day"], later["check"]["verdict"], later["check"]["by"]) == ("2026-11-04", "saturated", "AB")


def test_an_object_that_was_not_named_may_have_been_any_of_the_job(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-06", "take", studio["jars"][1], "10 mL", "--job", "Sea chart")
    assert names(trace(stockroom, studio["bottles"][1])) == {("North", False), ("South", False)}
    assert studio["jars"][1] in ways(trace(stockroom, "Sea chart", "--object", "South"), "behind")
    assert studio["jars"][0] not in ways(trace(stockroom, "Sea chart", "--object", "South"), "behind")


def test_a_job_without_objects_is_reached_itself(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-06", "job", "new", "Samples")
    stockroom.on("2026-11-06", "take", studio["jars"][1], "10 mL", "--job", "Samples")
    found = trace(stockroom, studio["bottles"][1])
    assert [(one["title"], one["name"]) for one in found["objects"]] == [("Samples", None)]
    assert ways(trace(stockroom, "Samples"), "behind") == {studio["bottles"][1], studio["jars"][1]}


def test_what_is_left_of_a_bath_leads_on_with_its_liquids_and_without_its_sheets(stockroom: Any, studio: Any) -> None:
    blotter = stockroom.on("2026-11-01", "receive", "blotter", "20 sheets", "--cost", "9.00")["code"]
    stockroom.on("2026-11-01", "receive", "polyester-web-light", "20 sheets", "--cost", "9.00")
    stockroom.on("2026-11-01", "receive", "methyl-cellulose", "100 g", "--cost", "9.00")
    stockroom.on("2026-11-02", "make", "methyl-cellulose-gel-5", "200 mL")
    used = stockroom.on("2026-11-05T12:00", "use", "deacidify-and-size", "--job", "Sea chart", "--object", "North",
        "--qty", "400 mL", "--from", studio["jars"][1], "--tested", "AB",
    )  # fmt: skip
    left = stockroom.on("2026-11-05T13:00", "bring-back", used["action"], "100 mL")["code"]
    stockroom.on("2026-11-05T14:00", "take", left, "50 mL", "--job", "Ferns")
    assert names(trace(stockroom, studio["bottles"][1])) == {("North", True), ("Plate 3", False)}
    assert names(trace(stockroom, blotter)) == {("North", True)}
    behind = ways(trace(stockroom, "Ferns"), "behind")
    assert {left, studio["jars"][1], studio["bottles"][1]} <= behind
    assert blotter not in behind


def test_an_override_stands_with_its_reason_where_the_lot_was_used(stockroom: Any, studio: Any) -> None:
    late = ("take", studio["jars"][1], "10 mL", "--job", "Ferns", "--why", "a test strip only")
    stockroom.on("2028-01-05", *late)
    (jar,) = [one for one in trace(stockroom, "Ferns")["lots"] if one["code"] == studio["jars"][1]]
    assert "past use-by" in jar["override"] and "a test strip only" in jar["override"]
    assert "NOT FIT: past use-by" in stockroom("trace", "Ferns").out


def test_what_was_undone_or_put_right_is_traced_as_it_stands(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-06", "put-right", studio["use"], "--lot", studio["jars"][1], "--why", "wrong jar noted")
    assert names(trace(stockroom, studio["bottles"][0])) == set()
    found = trace(stockroom, studio["bottles"][1])
    assert names(found) == {("North", True)}
    (treatment,) = found["treatments"]
    assert (treatment["recipe"], treatment["day"]) == (BATH, "2026-11-05")
    assert treatment["media_test"] == "media, inks and colours tested by AB"
    taken = stockroom.on("2026-11-07", "take", studio["jars"][0], "10 mL", "--job", "Ferns")
    assert names(trace(stockroom, studio["bottles"][0])) == {("Plate 3", False)}
    stockroom.on("2026-11-07", "undo", taken["action"], "--why", "mistyped")
    assert names(trace(stockroom, studio["bottles"][0])) == set()


def test_what_came_back_whole_never_reached_the_job(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-06", "take", studio["jars"][1], "10 mL", "--job", "Ferns")
    stockroom.on("2026-11-06", "bring-back", studio["jars"][1], "4 mL", "--job", "Ferns")
    (jar,) = [one for one in trace(stockroom, "Ferns")["lots"] if one["code"] == studio["jars"][1]]
    assert jar["amount"] == "6"
    stockroom.on("2026-11-06", "bring-back", studio["jars"][1], "6 mL", "--job", "Ferns")
    assert trace(stockroom, "Ferns")["lots"] == []


def test_a_makers_lot_number_leads_from_all_its_bottles(stockroom: Any, studio: Any) -> None:
    found = trace(stockroom, "--maker-lot", " 7731 ")
    assert (found["starts"], ways(found, "reached")) == (studio["bottles"], set(studio["jars"]))
    stockroom.on("2026-11-06", "receive", "ethanol", "1 L", "--cost", "9.00", "--lot-number", "7731")
    assert "--material" in trace(stockroom, "--maker-lot", "7731", code=2)["error"]["message"]
    assert trace(stockroom, "--maker-lot", "7731", "--material", POWDER)["starts"] == studio["bottles"]


def test_an_object_is_traced_by_its_name_alone(stockroom: Any, studio: Any) -> None:
    assert trace(stockroom, "north") == trace(stockroom, "Sea chart", "--object", "North")
    stockroom.on("2026-11-06", "job", "new", "Bay", "--object", "Northern bay")
    stockroom.on("2026-11-06", "job", "new", "Cape", "--object", "Northern cape")
    assert "Northern bay (" in trace(stockroom, "northern", code=2)["error"]["message"]


@pytest.mark.parametrize(
    ("what", "words"),
    [
        ((), "Trace what?"),
        (("L999X",), "L999X"),
        (("no such job",), "no lot, job or object"),
        (("7731",), "--maker-lot"),
        (("--maker-lot", "none"), "'none'"),
        (("L001W", "--maker-lot", "7731"), "Trace what?"),
        (("L001W", "--object", "North"), "--object goes with a job"),
        (("Sea chart", "--object", "East"), "Its objects: 1 North"),
        (("Sea chart", "--material", POWDER), "--material goes with --maker-lot"),
        (("--maker-lot", "7731", "--object", "North"), "which job it belongs to"),
    ],
)
def test_what_cannot_be_traced_is_said_plainly(stockroom: Any, studio: Any, what: tuple[str, ...], words: str) -> None:
    assert words in trace(stockroom, *what, code=2)["error"]["message"]


def line(stockroom: Any, code: str) -> Any:
    return stockroom.json("--on", "2026-11-10", "lot", code)


def test_withdrawing_makes_all_of_it_unfit_at_once_and_due(stockroom: Any, studio: Any) -> None:
    recall = stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled by the maker")
    assert recall["codes"] == studio["bottles"]
    assert {one["code"] for one in recall["marked"]} == {*studio["bottles"], *studio["jars"]}
    assert {one["code"] for one in recall["to_pull"]} == {*studio["bottles"], *studio["jars"]}
    assert names(recall) == {("North", True)}
    assert line(stockroom, studio["bottles"][0])["why"] == "withdrawn: recalled by the maker"
    held = f"holds some of {studio['bottles'][0]}, withdrawn: recalled by the maker"
    assert line(stockroom, studio["jars"][0])["why"] == held
    due = {one["code"]: one["kind"] for one in stockroom.on("2026-11-10", "due")["items"]}
    assert all(due[code] == "withdrawn" for code in (*studio["bottles"], *studio["jars"]))
    bath = ("use", BATH, "--job", "Ferns", "--qty", "400 mL", "--tested", "AB")
    assert stockroom.on("2026-11-10", *bath, "--dry-run", code=1)["short"]
    assert stockroom.on("2026-11-10", "make", STOCK, "1 L", code=1)["short"]
    assert stockroom.on("2026-11-10", *bath, "--from", studio["jars"][0], code=1)
    assert stockroom.json("verify")["problems"] == []


def test_withdrawing_one_bottle_leaves_the_other_and_its_jar_fit(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-10", "withdraw", studio["bottles"][0], "--why", "smells odd")
    fit = {code: line(stockroom, code)["fit"] for code in (*studio["bottles"], *studio["jars"])}
    first, second = studio["bottles"]
    assert fit == {first: False, second: True, studio["jars"][0]: False, studio["jars"][1]: True}
    drawn = stockroom.on("2026-11-10", "use", BATH, "--job", "Ferns", "--qty", "400 mL", "--tested", "AB", "--dry-run")[
        "drawn"
    ]
    assert [one["code"] for one in drawn] == [studio["jars"][1]]


def test_a_used_up_bottle_is_withdrawn_too(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-08", "count", studio["bottles"][0], "--empty", "--why", "unknown")
    recall = stockroom.on("2026-11-10", "withdraw", studio["bottles"][0], "--why", "recalled")
    assert {one["code"] for one in recall["to_pull"]} == {studio["jars"][0]}
    assert line(stockroom, studio["jars"][0])["fit"] is False


def test_a_jar_drawn_down_to_its_solid_is_recalled_too_and_water_makes_it_no_fitter(
    stockroom: Any, studio: Any
) -> None:
    jar = studio["jars"][1]
    stockroom.on("2026-11-08", "take", jar, "1 L", "--why", "test")
    recall = stockroom("--on", "2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled").out
    assert f"{jar}  Calcium hydroxide solution: solid only" in recall
    due = {one["code"]: one["why"] for one in stockroom.on("2026-11-10", "due")["items"]}
    assert "its solid left: off the shelf" in due[jar]
    topped = stockroom.on("2026-11-10", "top-up", jar, "500 mL", "--temperature", "22")
    assert topped["cautions"][0].startswith("Not to be used, settled or not: holds some of")


def test_what_is_lent_of_a_recalled_lot_is_called_back(stockroom: Any, studio: Any) -> None:
    first, second = studio["jars"]
    loan = ("--why", "lent", "--to", "the frame workshop")
    action = stockroom.on("2026-11-08", "take", first, "50 mL", *loan)["action"]
    stockroom.on("2026-11-08", "take", second, "60 mL", *loan)
    recall = stockroom("--on", "2026-11-10", "withdraw", studio["bottles"][0], "--why", "recalled").out
    told = f"50 mL of Calcium hydroxide solution ({first}) lent to the frame workshop ({action})"
    assert f"Lent out: call it back.\n  {told}" in recall and second not in recall
    stockroom.on("2026-11-11", "bring-back", action, "50 mL")
    assert stockroom.on("2026-11-12", "release", studio["bottles"][0], "--why", "mistaken number")["lent"] == []


def test_a_recall_is_drawn_up_on_paper(stockroom: Any, studio: Any, tmp_path: Path) -> None:
    """What to pull and where it stands, what is lent, and what was touched; of a job no such paper is drawn up."""
    jar = studio["jars"][1]
    stockroom.on("2026-11-08", "take", jar, "1 L", "--why", "test")
    stockroom.on("2026-11-08", "take", studio["jars"][0], "50 mL", "--why", "lent", "--to", "the frame workshop")
    path = tmp_path / "recall.txt"
    command = ("trace", "--maker-lot", "7731", "--out", str(path))
    assert stockroom.on("2026-11-10", *command)["files"] == [str(path)]
    text = path.read_text()
    for words in (
        *studio["bottles"],
        *studio["jars"],
        "solid only",
        "holds some of it",
        "the frame workshop",
        "Nothing is",
    ):
        assert words in text, words
    for treated in stockroom.on("2026-11-10", "trace", "--maker-lot", "7731")["treatments"]:
        assert treated["action"] in text
    stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled")
    stockroom.on("2026-11-10", *command, "--replace")
    assert "withdrawn: recalled" in path.read_text()
    assert "Nothing is withdrawn" not in path.read_text()
    refused = stockroom.on("2026-11-10", "trace", "Ferns", "--out", str(path), "--replace", code=2)
    assert "what lots reached" in refused["error"]["message"]


def test_releasing_gives_back_what_was_said_before(stockroom: Any, studio: Any) -> None:
    weak = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "8.0 mL", "--temperature", "22")
    stockroom.on("2026-11-08", "check", studio["jars"][1], *weak)
    before = {code: line(stockroom, code)["why"] for code in (*studio["bottles"], *studio["jars"])}
    assert before[studio["jars"][1]].startswith("check: weak")
    stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled")
    stockroom.on("2026-11-12", "release", "--maker-lot", "7731", "--why", "mistaken number")
    assert {code: line(stockroom, code)["why"] for code in before} == before


def test_what_two_withdrawn_lots_went_into_stays_unfit_until_both_are_released(stockroom: Any, studio: Any) -> None:
    first, second = studio["bottles"]
    of_both = ("--from", first, "--from", second, "--took", f"{POWDER}=98 g")
    jar = stockroom.on("2026-11-09", "make", STOCK, "2 L", *of_both)["code"]
    for bottle in (first, second):
        stockroom.on("2026-11-10", "withdraw", bottle, "--why", "recalled")
    stockroom.on("2026-11-11", "release", first, "--why", "tested")
    assert line(stockroom, first)["why"] != "withdrawn: recalled"
    assert line(stockroom, jar)["why"] == f"holds some of {second}, withdrawn: recalled"
    refused = stockroom.on("2026-11-11", "release", jar, "--why", "looks fine", code=1)
    assert second in refused["error"]["message"]
    stockroom.on("2026-11-11", "release", second, "--why", "tested")
    assert line(stockroom, jar)["fit"] is True


def test_undoing_a_withdrawal_takes_every_mark_off(stockroom: Any, studio: Any) -> None:
    recall = stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled")
    stockroom.on("2026-11-10", "undo", recall["action"], "--why", "another maker's")
    assert all(line(stockroom, code)["fit"] for code in (*studio["bottles"], *studio["jars"]))
    assert stockroom.json("verify")["problems"] == []


def test_a_check_that_passes_does_not_release(stockroom: Any, studio: Any) -> None:
    stockroom.on("2026-11-10", "withdraw", studio["bottles"][0], "--why", "recalled")
    titrated = ("titration", "--sample", "25 mL", "--acid", "0.1 mol/L", "--used", "10.8 mL", "--temperature", "22")
    stockroom.on("2026-11-11", "check", studio["jars"][0], *titrated)
    assert line(stockroom, studio["jars"][0])["fit"] is False


@pytest.mark.parametrize("command", ["withdraw", "release"])
def test_a_recall_needs_a_reason_and_one_thing_named(stockroom: Any, studio: Any, command: str) -> None:
    bottle = studio["bottles"][0]
    for wrong in ((bottle,), (bottle, "--why", " "), ("--why", "x"), (bottle, "--maker-lot", "7731", "--why", "x")):
        assert stockroom.on("2026-11-10", command, *wrong, code=2)
    assert stockroom.on("2026-11-10", command, "--maker-lot", "none", "--why", "x", code=2)
    assert line(stockroom, bottle)["fit"] is True


def test_what_is_withdrawn_already_and_what_is_not_is_refused(stockroom: Any, studio: Any) -> None:
    bottle = studio["bottles"][0]
    assert stockroom.on("2026-11-10", "release", bottle, "--why", "x", code=1)
    stockroom.on("2026-11-10", "withdraw", bottle, "--why", "recalled")
    assert stockroom.on("2026-11-10", "withdraw", bottle, "--why", "recalled", code=1)
    rest = stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "the other too")
    assert rest["codes"] == [studio["bottles"][1]]


def test_a_plan_of_a_recall_books_nothing(stockroom: Any, studio: Any) -> None:
    plan = stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled", "--dry-run")
    assert plan["action"] is None
    assert len(plan["to_pull"]) == 4
    assert line(stockroom, studio["bottles"][0])["fit"] is True


def test_what_comes_later_with_a_withdrawn_makers_number_is_unfit_from_the_start(stockroom: Any, studio: Any) -> None:
    """A bottle found in a drawer after the recall, or sent by mistake."""
    stockroom.on("2026-11-10", "withdraw", "--maker-lot", "7731", "--why", "recalled")
    came = ("receive", POWDER, "100 g", "--cost", "5.00", "--lot-number")
    again = stockroom.on("2026-11-11", *came, "7731")
    assert again["unfit"] == "withdrawn: recalled"
    assert line(stockroom, again["code"])["fit"] is False
    assert line(stockroom, stockroom.on("2026-11-11", *came, "8000")["code"])["fit"] is True
    ethanol = stockroom.on("2026-11-11", "receive", "ethanol", "1 L", "--cost", "9.00", "--lot-number", "7731")
    assert line(stockroom, ethanol["code"])["fit"] is True
    released = stockroom.on("2026-11-12", "release", "--maker-lot", "7731", "--material", POWDER, "--why", "tested")
    assert again["code"] in released["codes"]


def test_what_was_poured_together_is_traced_through_both_jars(stockroom: Any, studio: Any) -> None:
    first, second = studio["jars"]
    stockroom.on("2026-11-06", "pour", first, "50 mL", "--into", second)
    stockroom.on("2026-11-07", "take", second, "10 mL", "--job", "Ferns")
    assert ("Plate 3", True) not in names(trace(stockroom, studio["bottles"][0]))
    assert ("Plate 3", False) in names(trace(stockroom, studio["bottles"][0]))
    assert set(studio["bottles"]) <= ways(trace(stockroom, "Ferns"), "behind")
    stockroom.on("2026-11-08", "pour", second, "20 mL", "--into", first)
    assert ways(trace(stockroom, studio["bottles"][1]), "reached") == {first, second}
    assert ways(trace(stockroom, first), "behind") == {*studio["bottles"], second}
    assert stockroom.on("2026-11-10", "withdraw", studio["bottles"][1], "--why", "recalled")["action"]
    assert not line(stockroom, first)["fit"] and not line(stockroom, second)["fit"]


def test_what_is_made_from_a_withdrawn_lot_all_the_same_holds_some_of_it_until_release(
    stockroom: Any, studio: Any
) -> None:
    bottle = studio["bottles"][0]
    stockroom.on("2026-11-06", "withdraw", bottle, "--why", "recalled")
    made = stockroom.on("2026-11-07", "make", STOCK, "1 L", "--from", bottle, "--why", "for a trial")["code"]
    (jar,) = stockroom.on("2026-11-20", "shelf", made)["lots"]
    assert (jar["fit"], jar["why"]) == (False, f"holds some of {bottle}, withdrawn: recalled")
    stockroom.on("2026-11-08", "release", bottle, "--why", "tested, as labelled")
    (jar,) = stockroom.on("2026-11-20", "shelf", made)["lots"]
    assert jar["fit"] is True


def test_a_piece_cut_from_a_withdrawn_sheet_is_released_with_it(stockroom: Any) -> None:
    web = stockroom.on("2026-11-01", "receive", "polyester-web-light", "10 sheets", "--cost", "48")["code"]
    stockroom.on("2026-11-02", "withdraw", web, "--why", "finish not known")
    piece = stockroom.on("2026-11-02", "cut", web, "40 x 50 cm", "--uses", "10", "--why", "for a trial")["codes"][0]
    (cut,) = stockroom.on("2026-11-03", "shelf", piece)["lots"]
    assert cut["why"] == f"holds some of {web}, withdrawn: finish not known"
    stockroom.on("2026-11-04", "release", web, "--why", "the maker answered")
    (cut,) = stockroom.on("2026-11-05", "shelf", piece)["lots"]
    assert cut["fit"] is True
