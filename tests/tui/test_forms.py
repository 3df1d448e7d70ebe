"""Doing by form: what is typed is read beside its field, the plan is what is booked, and nothing typed is lost."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import Input

from stockroom.actions.costing import used_for
from stockroom.actions.making import make
from stockroom.actions.receiving import Delivery, receive
from stockroom.actions.taking import take
from stockroom.actions.using import use
from stockroom.actions.waste_cans import new_waste_can
from stockroom.domain.occasion import Occasion
from stockroom.science.quantities import show
from stockroom.store.checks import checks_of
from stockroom.store.history import actions_of_lot
from stockroom.store.jobs import all_jobs, find_job, open_bookings
from stockroom.store.lots import find_lot, shelf
from stockroom.store.open import Store
from stockroom.tui.forms import FORMS, find_form
from stockroom.tui.widgets.fields import Fields


async def confirm(shown, *told: str) -> None:  # type: ignore[no-untyped-def]
    """Show the plan once more, book it, and close what tells of it."""
    await shown.press("ctrl+s")
    await shown.sees("b Book it")
    await shown.press("b")
    await shown.sees(*told)
    await shown.press("enter")
    await shown.until(lambda: not shown.screen.is_modal, "the result to close")


async def test_a_little_is_taken_for_a_job_and_the_job_bears_it(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("take", lot=stocked["lime"], job=stocked["job"])
        await shown.sees("Take a little of a lot", "holds", "497 g", "Still to fill in: How much")
        await shown.fill("amount", "47 g")
        await shown.sees("left   450 g")
        await confirm(shown, "Taken from L001W", "450 g")
        await shown.sees("looking 14 days ahead")  # booked, it leads back to where it was opened
    assert [show(one.quantity) for one in used_for(store, find_job(store, stocked["job"]))] == ["47 g"]


def beneath(text: str, words: str) -> str:
    """Return the line under the first that says this."""
    lines = text.splitlines()
    return lines[next(number for number, line in enumerate(lines) if words in line) + 1]


async def test_what_cannot_be_read_is_told_beside_its_field(screens, stocked, store: Store) -> None:
    before = store.revision()
    async with screens() as shown:
        shown.app.open_form("take", lot=stocked["lime"], job=stocked["job"])
        await shown.sees("Still to fill in: How much")
        await shown.fill("amount", "1:4")
        await shown.sees("Look again at: How much")
        await shown.until(lambda: "! " in beneath(shown.text, "How much"), "what is wrong beneath the field")
        await shown.fill("amount", "2 g")
        await shown.sees("left   495 g")
        assert "Look again" not in shown.text
        shown.screen.action_clear()
        await shown.press("escape")
    assert store.revision() == before


async def test_a_day_that_has_passed_is_when_it_is_booked_for(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("take", lot=stocked["lime"])
        await shown.sees("Still to fill in")
        await shown.press("ctrl+l")
        await shown.fill("amount", "1 g")
        await shown.fill("day", "tomorrow")
        shown.screen.query_one("#for").choose("test", "test")
        await shown.sees("tomorrow is still to come")
        await shown.fill("day", "2026-11-20T09:30")
        await shown.sees("left   496 g")
        await confirm(shown, "Taken from L001W")
    assert actions_of_lot(store, find_lot(store, stocked["lime"]).id)[-1].day == "2026-11-20"


async def test_a_delivery_in_packs_gives_each_its_code_and_share(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("receive", material="acetone")
        await shown.sees("Still to fill in: How much")
        await shown.fill("amount", "3 x 1 L")
        await shown.sees("What did it cost?")
        await shown.fill("cost", "10.00")
        await shown.sees("1 L, 3.34 EUR", "1 L, 3.33 EUR")
        await confirm(shown, "Received: Acetone", "3.34 EUR")
    assert [show(lot.amount) for lot in shelf(store, "acetone")] == ["1 L", "1 L", "1 L"]


async def test_a_count_shows_the_difference_before_it_is_booked(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("count", lot=stocked["jar"])
        await shown.sees("Still to fill in: There is")
        await shown.fill("amount", "0 mL")
        await shown.sees("Nothing is left?")
        await shown.fill("amount", "900 mL")
        await shown.sees("books say   1 L", "difference  100 mL less, 0.01 EUR")
        await confirm(shown, "Counted:")
    assert show(find_lot(store, stocked["jar"]).amount) == "900 mL"


async def test_a_titration_is_judged_while_its_figures_are_typed(screens, stocked, store: Store) -> None:
    """25 mL against 10.8 mL of 0.1 mol/L is 1.60 g/L: arithmetic, 1 mL is 3.705 mg (USP, Calcium Hydroxide)."""
    async with screens(size=(120, 40)) as shown:
        shown.app.open_form("check", lot=stocked["jar"], method="titration")
        await shown.sees("Still to fill in: Acid, Acid used")
        for field, typed in (("amount", "25 mL"), ("acid", "0.1 mol/L"), ("used", "10.8 mL"), ("temperature", "22")):
            await shown.fill(field, typed)
        await shown.sees("SATURATED", "1.60 g/L", "from ")
        await shown.fill("used", "7.6 mL")
        await shown.sees("WEAK", "marked not fit")
        await shown.fill("used", "10.8 mL")
        await shown.sees("SATURATED")
        await confirm(shown, "Checked:", "SATURATED")
    jar = find_lot(store, stocked["jar"])
    assert [one.check.verdict for one in checks_of(store, jar.id)] == ["saturated"]
    assert show(jar.amount) == "975 mL"


async def test_topping_up_says_what_the_solid_still_does_and_when_it_is_ready(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("top-up", lot=stocked["jar"])
        await shown.sees("Still to fill in")
        await shown.fill("amount", "500 mL")
        await shown.sees("then holds    1.5 L", "ready         2026-11-26", "refills left")
        await confirm(shown, "Topped up:")
    assert show(find_lot(store, stocked["jar"]).amount) == "1.5 L"


async def test_a_lot_is_moved_and_a_jar_that_was_shaken_settles_again(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("move", lot=stocked["jar"], place="refrigerator", shaken="yes")
        await shown.sees("to        refrigerator", "settling  L006M")
        await confirm(shown, "Moved to refrigerator")
    jar = find_lot(store, stocked["jar"])
    assert (jar.place, (jar.ready_on or "")[:10]) == ("refrigerator", "2026-11-26")


async def test_a_new_job_opens_its_page_and_a_treatment_is_booked_for_it(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        await shown.press("f7", "ctrl+o")
        await shown.sees("Open a job")
        await shown.fill("title", "Botanical plates: ferns")
        await shown.fill("objects", "Plate 1, 38 x 27 cm; Plate 2")
        await shown.sees("object 1  Plate 1, 38 x 27 cm\n", "object 2  Plate 2; no size was read")
        await confirm(shown, "is open")
        await shown.sees("Botanical plates: ferns", "1 Plate 1, 38 x 27 cm; 2 Plate 2", "0.00 EUR in all")
        await shown.press("b")
        await shown.sees("Book a treatment for a day")
        shown.screen.query_one("#recipe").choose("wash", "Wash")
        await shown.fill("for", "yesterday")
        await shown.sees("has passed")
        await shown.fill("for", "in 3 days")
        await shown.sees("Saturday 2026-11-28")
        await confirm(shown, "Booked: K", "Plate 2 is not known")
    assert [one.for_day for one in open_bookings(store)] == ["2026-11-28"]
    assert all_jobs(store)[0].title == "Botanical plates: ferns"


async def test_a_booking_says_at_once_what_is_to_be_made_first(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("book", recipe="calcium-hydroxide-1-in-2", job=stocked["job"])
        await shown.sees("Still to fill in: Day")
        await shown.fill("for", "in 3 days")
        await shown.fill("fill", "8 L")
        await shown.sees("Done today it could not be")
        await confirm(
            shown, "Booked: K", "make", "of Calcium hydroxide solution, by Friday 2026-11-27", "│  Enter when"
        )


async def test_a_bottle_scanned_while_a_form_is_open_goes_into_it(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated")
        await shown.sees("3 g  Calcium hydroxide")
        await shown.fill("amount", "500 mL" + stocked["lime"])  # a scanner types where the cursor is, then Enter
        shown.screen.query_one("#amount").focus()
        await shown.press("enter")
        await shown.until(lambda: shown.screen.answers().get("from") == stocked["lime"], "the lot in its line")
        assert shown.screen.answers()["amount"] == "500 mL"
        shown.screen.action_clear()
        await shown.press("escape")


async def test_bottles_scanned_one_after_the_other_stand_in_their_line_and_enter_then_books(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("make", recipe="calcium-hydroxide-saturated", amount="500 mL")
        await shown.sees("1.5 g  Calcium hydroxide")
        await shown.press("ctrl+l")
        shown.screen.query_one("#from").focus()
        await shown.press(*stocked["lime"], "enter")
        await shown.until(lambda: shown.screen.query_one("#from").value == f"{stocked['lime']}, ", "the first")
        assert not shown.screen.is_modal
        await shown.press(*stocked["old"], "enter")
        await shown.sees("Hydrogen peroxide 3 %, which this recipe does not use")
        assert shown.screen.answers()["from"] == f"{stocked['lime']}, {stocked['old']},"
        await shown.fill("from", f"{stocked['lime']}, ")
        await shown.sees("1.5 g  Calcium hydroxide")
        await shown.press("enter")
        await shown.sees("b Book it")
        await shown.press("escape")
        await shown.fill("why", f"what is left of {stocked['lime']}")  # written by hand, it is no scan
        shown.screen.query_one("#why").focus()
        await shown.press("enter")
        await shown.sees("b Book it")
        await shown.press("escape", "ctrl+r")


async def test_a_scanned_lot_goes_into_the_line_that_takes_it(screens, stocked, store: Store, occasion) -> None:
    """The jar poured from, then the jar poured into; of throwing away, the waste can into its own line."""
    other = make(store, occasion("2026-11-02"), "calcium-hydroxide-saturated", "500 mL").codes[0]
    can = new_waste_can(store, occasion(), "Alkaline waste", "5 L").can.lot.code
    async with screens() as shown:
        shown.app.open_form("pour", lot=stocked["jar"])
        await shown.sees("holds")
        shown.screen.put_lot(other)
        await shown.until(lambda: shown.screen.answers().get("into") == other, "the jar poured into")
        assert shown.screen.answers()["lot"] == stocked["jar"]
        await shown.press("ctrl+r", "escape")
        shown.app.open_form("discard", lot=stocked["old"])
        await shown.sees("nothing: the lot ends")
        shown.screen.put_lot(can)
        await shown.until(lambda: shown.screen.answers().get("to") == can, "the can")
        shown.screen.put_lot(stocked["jar"])
        await shown.until(lambda: shown.screen.answers().get("lot") == stocked["jar"], "the other lot")
        assert shown.screen.answers()["to"] == can
        await shown.press("ctrl+r", "escape")


async def test_web_is_cut_to_be_used_again_and_one_use_is_taken_for_a_job(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    """10 uses of a piece that cost 0.40 are 0.04 each: arithmetic."""
    web = receive(store, occasion("2026-11-01"), Delivery(material="polyester-web-light", quantity="10 m2", cost=2000))
    async with screens() as shown:
        shown.app.open_form("cut", lot=str(web.codes[0]))
        await shown.sees("Cut pieces to be used again", "Still to fill in: A piece")
        await shown.fill("size", "forty")
        await shown.sees("Look again at: A piece")
        await shown.fill("size", "40 x 50 cm")
        await shown.sees("Write it in the field Good for")
        await shown.fill("uses", "10")
        await shown.sees("for 10 uses", "0.40 EUR in all")
        await confirm(shown, "Cut:", "0.40 EUR")
        (piece,) = shelf(store, "reusable")
        shown.app.open_form("take", lot=piece.code, job=stocked["job"], amount="1 use")
        await shown.sees("left   9 uses", "0.04 EUR")
        shown.screen.action_clear()
        await shown.press("escape")


async def test_an_offcut_goes_back_to_the_shelf(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    """Of sheets of 7,000 cm2 at 7.00 each, an offcut of 10 x 20 cm is worth 0.20: arithmetic."""
    came = Delivery(material="polyester-web-light", quantity="10 sheets", cost=7000, as_one=True)
    sheet = str(receive(store, occasion("2026-11-01"), came).codes[0])
    async with screens() as shown:
        shown.app.open_form("take", lot=sheet, job=stocked["job"], amount="20 x 25 cm")
        await shown.sees("left")
        await shown.press("ctrl+l")
        await shown.fill("offcuts", "10 x 20 cm")
        await shown.sees("Back to the shelf", "0.20 EUR")
        await confirm(shown, "Taken from", "Back to the shelf", "0.20 EUR")


async def test_a_tray_and_a_depth_become_a_fill(screens, stocked) -> None:
    """40 x 30 cm, 8 mm deep: 960 mL by multiplication."""
    async with screens() as shown:
        await shown.press("f5", "ctrl+t")
        await shown.sees("Which tray?", "30 x 40 cm tray")
        await shown.press("enter")
        await shown.sees("How much fills the tray?")
        await shown.fill("depth", "8 mm")
        await shown.sees("= 960 mL")
        await shown.press("enter")
        await shown.until(
            lambda: shown.screen.answers().get("fill") == "30 x 40 cm tray, 8 mm", "the fill in its field"
        )
        shown.screen.action_clear()


@pytest.mark.parametrize(("form", "field"), [("make", "amount"), ("book", "fill")])
async def test_every_amount_that_stands_in_a_tray_can_be_found_by_one(screens, stocked, form: str, field: str) -> None:
    """40 x 30 cm, 8 mm deep: 960 mL by multiplication."""
    async with screens() as shown:
        shown.app.open_form(form)
        await shown.sees(find_form(form).title)
        await shown.press("ctrl+t")
        await shown.sees("Which tray?", "30 x 40 cm tray")
        assert "as much as there is" not in shown.text
        await shown.press("enter")
        await shown.fill("depth", "eight")
        await shown.sees("! ")
        await shown.fill("depth", "8 mm")
        await shown.press("enter")
        await shown.until(lambda: shown.screen.answers().get(field) == "960 mL", "the amount in its field")
        shown.screen.action_clear()


async def test_a_scanned_lot_goes_into_every_form_that_is_about_a_lot(screens, stocked) -> None:
    taking = [name for name in FORMS if any(asked.takes for asked in find_form(name).fields)]
    assert {"take", "count", "discard", "check", "move", "pour", "use", "make", "cut", "withdraw"} <= set(taking)
    async with screens() as shown:
        for name in taking:
            shown.app.open_form(name)
            await shown.sees(find_form(name).title)
            assert shown.screen.put_lot(stocked["jar"])
            await shown.until(lambda: stocked["jar"] in shown.screen.answers().values(), f"the jar in {name}")
            await shown.press("ctrl+r", "escape")


async def test_a_form_whose_window_was_killed_as_it_was_booked_says_what_was_booked_since(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    """Nothing more can be known: the action may be that form, so that nobody books it twice unawares."""
    known, held = {"lot": stocked["lime"]}, []
    for booked in (False, True):
        async with screens() as shown:
            shown.app.open_form("take", **known)
            await shown.sees("Still to fill in")
            await shown.fill("amount", "12 g")
            shown.screen.query_one("#for").choose("test", "test")
            await shown.until(
                lambda: any(one.answers.get("for") for one in shown.app.drafts.all()), "the draft to be kept"
            )
            booking = shown.app.drafts.being_booked("take", known, store, "AB")
            booking.__enter__()  # and the window is killed, so that nothing after it runs
            held.append(booking)
        if booked:
            take(store, occasion("2026-11-25T14:10"), stocked["lime"], "12 g", reason="test")
        async with screens() as shown:
            if booked:
                await shown.sees("! perhaps booked", "delete drops the form: AB,", "12 g of Calcium hydroxide")
            else:
                await shown.sees("* begun, not booked", "12 g")
            shown.app.drafts.forget("take", known)


async def test_what_is_typed_at_a_choice_begins_its_search_spaces_among_it(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("make")
        await shown.sees("Make up a solution", "Still to fill in")
        shown.screen.query_one("#recipe").focus()
        await shown.press("c", "space", "h")
        await shown.until(
            lambda: shown.screen.is_modal and shown.screen.query_one(Input).value == "c h",
            "the words in the search",
        )
        await shown.press("escape")


async def test_a_form_that_was_left_is_offered_again_and_delete_drops_it(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_form("take", lot=stocked["lime"])
        await shown.sees("Still to fill in")
        await shown.fill("amount", "12 g")
        await shown.until(lambda: bool(shown.app.drafts.all()), "the draft to be kept")
        await shown.press("escape")
        await shown.sees("* begun, not booked", "Take a little of a lot", "L001W Calcium hydroxide, 12 g")
    async with screens() as shown:  # the window was closed, or the process ended
        await shown.sees("* begun, not booked")
        await shown.press("home", "enter")
        left = "as you left it 2026-11-25, 14:10; Ctrl+R clears it"
        await shown.sees("Take a little of a lot", left, "12 g", "Still to fill in: What for")
        await shown.press("ctrl+r")
        await shown.until(lambda: left not in shown.text, "a form that says no more that it was left")
        await shown.sees(f"{stocked['lime']} Calcium hydroxide", "Still to fill in: How much")
        await shown.fill("amount", "12 g")
        await shown.until(lambda: bool(shown.app.drafts.all()), "the draft to be kept")
        await shown.press("escape")
        await shown.sees("* begun, not booked")
        await shown.press("home", "delete")
        await shown.until(lambda: "begun, not booked" not in shown.text, "the draft to go")
    assert len(actions_of_lot(store, find_lot(store, stocked["lime"]).id)) == 2


async def test_an_area_keeps_what_was_typed_across_a_restart(screens, stocked) -> None:
    async with screens() as shown:
        await shown.press("f4", "enter")
        await shown.choose("saturated calcium")
        await shown.fill("amount", "1.5 L")
        await shown.until(lambda: any(one.answers.get("amount") for one in shown.app.drafts.all()), "the draft")
    async with screens() as shown:
        await shown.press("f4")
        await shown.sees("Calcium hydroxide solution, saturated", "1.5 L", "1 jar: 1.5 L")
        await shown.press("ctrl+r")
        await shown.until(lambda: not shown.app.drafts.all(), "the draft to be forgotten")


async def test_a_past_draw_is_put_right_from_the_lots_page(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    from stockroom.actions.taking import take

    take(store, occasion("2026-11-20"), stocked["lime"], "50 g", reason="test")
    async with screens() as shown:
        shown.app.open_code(stocked["lime"])
        await shown.sees("What was done", "447 g")
        await shown.press("end", "r")
        await shown.sees("Put a past draw right")
        await shown.fill("amount", "5 g")
        await shown.fill("why", "misread the balance")
        await shown.sees("was     50 g of L001W", "is now  5 g of L001W")
        await confirm(shown, "Put right:")
    assert show(find_lot(store, stocked["lime"]).amount) == "492 g"


async def test_what_is_withdrawn_is_unfit_at_once_with_all_that_holds_it_and_released_again(
    screens, stocked, store: Store
) -> None:
    async with screens() as shown:
        shown.app.open_form("withdraw", lot=stocked["lime"])
        await shown.sees("Still to fill in: Why")
        await shown.fill("why", "recalled by the maker")
        await shown.sees("pull  L001W", "pull  L006M")
        await confirm(shown, "Withdrawn")
        assert find_lot(store, stocked["jar"]).unfit
        shown.app.open_code(stocked["lime"])
        await shown.sees("! not fit")
        await shown.press("d")
        await shown.choose("release")
        await shown.fill("why", "tested, as labelled")
        await shown.sees("put back  L001W")
        await confirm(shown, "Released")
    assert find_lot(store, stocked["jar"]).unfit is None


async def test_a_recall_names_jars_of_solid_what_is_lent_and_the_objects_it_touched(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    loan = take(store, occasion("2026-11-20"), stocked["lime"], "10 g", reason="lent", to_whom="[A3] workshop")
    use(
        store,
        occasion("2026-11-21"),
        "calcium-hydroxide-1-in-4",
        stocked["job"],
        fill="400 mL",
        fills=1,
        objects=("Sheet 1",),
        tested="AB",
    )
    take(store, occasion("2026-11-22"), stocked["jar"], "900 mL", reason="test")
    assert find_lot(store, stocked["jar"]).state == "solid only"
    async with screens(size=(80, 24)) as shown:
        shown.app.open_form("withdraw", lot=stocked["lime"], why="recalled by the maker")
        await shown.sees(
            "L006M Calcium hydroxide solution, solid only, shelf",
            "call back  10 g of Calcium hydroxide (L001W) lent to [A3] workshop",
            str(loan.action),
            "J001R Harbour charts: Sheet 1",
        )
        shown.screen.action_clear()
        await shown.press("escape")


async def test_the_last_treatment_of_a_job_is_repeated_from_its_page(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("use", recipe="calcium-hydroxide-1-in-4", job=stocked["job"], fill="400 mL", tested="AB")
        await shown.sees("one fill of 400 mL")
        await confirm(shown, "Used for J001R")
        await shown.sees("AB booked last, 2026-11-25 14:10: use")
        shown.app.open_code(stocked["job"])
        await shown.sees("in all")
        await shown.press("r")
        await shown.sees("Use for a job", "400 mL", "one fill of 400 mL")
        shown.screen.action_clear()
        await shown.press("escape", "escape")


async def test_what_is_rarely_asked_is_not_there_at_first_either() -> None:
    """Before what is known of a form was looked up, it would flash past."""
    lines = Fields(find_form("check")).lines
    assert [key for key, line in lines.items() if line.display] == ["lot", "method"]


async def test_a_job_is_given_an_object_closed_and_opened_again_from_its_page(screens, stocked, store: Store) -> None:
    async with screens() as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("in all")
        await shown.press("a")
        await shown.sees("Still to fill in: Object")
        await shown.fill("object", "Sheet 3")
        await shown.sees("size    not known")
        await shown.fill("object", "Sheet 3, 30 x 40 cm")
        await confirm(shown, "The job has it now", "Sheet 3")
        await shown.press("c")
        await shown.sees("Close a job")
        await confirm(shown, "is closed")
        await shown.sees("closed on 2026-11-25", "o Open it again")
        await shown.press("o")
        await shown.fill("why", "one sheet came back")
        await confirm(shown, "The job is open again")
        await shown.sees("Harbour charts   open")
    job = find_job(store, stocked["job"])
    assert ([one.name for one in job.objects], job.state) == (["Sheet 1", "Sheet 2", "Sheet 3"], "open")


async def test_a_loan_says_to_whom_and_until_when_before_it_is_booked(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("take", lot=stocked["lime"], amount="5 g", **{"for": "lent"})
        await shown.sees("lent to  someone not named", "back by  no day said")
        await shown.fill("to", "the frame workshop")
        await shown.fill("back", "in 7 days")
        await shown.sees("lent to  the frame workshop", "back by  2026-12-02")
        await confirm(shown, "Taken from", "the frame workshop", "2026-12-02")


async def test_enter_on_a_job_page_is_for_what_was_done_and_putting_it_right_says_what_that_was(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    done = take(store, occasion(), stocked["lime"], "5 g", job=stocked["job"])
    async with screens() as shown:
        shown.app.open_code(stocked["job"])
        await shown.sees("Booked, and done", "Enter: put it right")
        await shown.press("enter")
        await shown.sees(f"{done.action}: what about it?")
        await shown.press("enter")
        await shown.sees("Put a past draw right", f"take 5 g of Calcium hydroxide ({stocked['lime']}) for J001R")


async def test_what_is_not_there_to_be_chosen_is_said_to_be_added_where(screens, stocked) -> None:
    async with screens() as shown:
        shown.app.open_form("receive")
        await shown.sees("Receive a delivery", "Enter chooses where it stands")
        shown.screen.query_one("#place").focus()
        await shown.press("enter")
        await shown.answer("drawer 7")
        await shown.sees("Nothing has these words.", "Or add it: Esc, then", "Ctrl+F, 'Name a place'.")
        await shown.press("escape")


async def test_what_is_lent_is_offered_first_for_bringing_back(
    screens, stocked, store: Store, occasion: Callable[..., Occasion]
) -> None:
    take(store, occasion("2026-11-20"), stocked["old"], "20 mL", reason="lent", to_whom="the frame workshop")
    async with screens() as shown:
        shown.app.open_form("bring-back")
        await shown.sees("Bring back")
        await shown.press("tab", "enter")
        await shown.sees("Lot?", "lent to the frame workshop")
        await shown.press("enter")
        await shown.sees(f"{stocked['old']} Hydrogen peroxide 3 %")
        await shown.press("ctrl+r", "escape")
