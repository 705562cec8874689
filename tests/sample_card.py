"""A job card built by hand: engine oil and filter on an invented car, with one of everything that a card can carry.

Sentences that a room would say by key are written out here as an author's words, so that the card stands on no room's texts.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import cast

from twomarks.planning.card import (
    CardFinding,
    CardFluid,
    CardFollowUp,
    CardPart,
    CardPour,
    CardStep,
    CardTool,
    CardWaste,
    Caution,
    Gate,
    JobCard,
    PourRow,
    Revision,
    Signal,
    Stub,
)
from twomarks.words import Figure, Message, Source, Value, Wording

__all__ = ["said", "sample_card"]

DAY = dt.date(2026, 11, 28)
PROCEDURE = "engine-oil-spin-on"
BOOK = "owner's book"
HANDBOOK = Source("handbook", f"{BOOK}, p. 214")
TORQUES = Source("handbook", f"{BOOK}, p. 216")
IN_HAND = "A., 2026-03-02, book in hand"
STICK = Source("measured", "A., 2026-03-02")
PRACTICE = Source("practice")
COMPUTED = Source("computed")
TOLD = Source("told", "another owner's write-up")

PLUG_TORQUE = Figure(38.0, "N.m", TORQUES, IN_HAND)
PLUG_DRIVE = Figure("hex 17 mm", "", HANDBOOK)
WASHER = Figure("16 × 22", "", TOLD)
REFILL = Figure(4.3, "L", HANDBOOK)
FIRST_POUR = Figure(3.6, "L", COMPUTED)
SECOND_POUR = Figure(0.4, "L", COMPUTED)
SPAN = Figure(1.1, "L", STICK)
OUT = Figure(4.1, "L", COMPUTED)
DRAIN = Figure(12.0, "min", PRACTICE)
SETTLE = Figure(8.0, "min", PRACTICE)


def said(text: str, **figures: Value) -> Message:
    """Return an author's words where a card wants a message; both are rendered alike."""
    return cast("Message", Wording(text, figures))


def _caution(signal: Signal, text: str) -> Caution:
    return Caution(signal=signal, words=Wording(text))


def _step(number: int, step: str, action: str, text: str, /, **more: object) -> CardStep:
    figures = cast("dict[str, Value]", more.pop("figures", {}))
    card_step = CardStep(
        id=f"s{number:02d}-{step}", number=number, procedure=PROCEDURE, step=step, action=action, words=Wording(text, figures)
    )
    return replace(card_step, **more)  # type: ignore[arg-type]


GROUND = CardFinding(
    rule="ground-hard-and-level",
    grade="harm",
    basis="not shown",
    step="s03-ramps",
    expected=said("The vehicle is raised on ground that is hard and level."),
    found=said("No step and no answer says what the ground is."),
    remedy=said("Look at the ground. On soft or sloping ground do not raise the vehicle."),
)
WRENCH = CardFinding(
    rule="wrench-low-end",
    grade="damage",
    basis="default",
    step="s10-plug-tight",
    expected=said("{torque} lies in the upper four fifths of the wrench's scale.", torque=PLUG_TORQUE),
    found=said("The wrench is taken to reach from {low} to {high}.", low=Figure(20.0, "N.m"), high=Figure(110.0, "N.m")),
    remedy=said("Read the two ends of the scale before you set it."),
)
HELPER = CardFinding(
    rule="nobody-knows",
    grade="harm",
    basis="not shown",
    step="s04-pan",
    expected=said("Somebody knows that you are beneath the vehicle, and until when."),
    found=said("No step says so."),
    remedy=said("Tell somebody, or keep a phone within reach from the ground."),
    set_aside="My brother is in the house all afternoon.",
)
CAN_ROOM = CardFinding(
    rule="waste-room",
    grade="omission",
    basis="not shown",
    step="",
    expected=said("The can for old engine oil has room for {volume}.", volume=OUT),
    found=said("Nobody has said how full it is."),
    remedy=said("Look into the can before the first undo."),
)


def _steps() -> tuple[CardStep, ...]:
    return (
        _step(
            1,
            "warm",
            "warm",
            "Stand the vehicle outdoors on level ground. Let the engine idle until the oil is warm to the hand, then stop it.",
            place="inside",
            cautions=(_caution("danger", "Exhaust gas kills without a smell. Never run the engine in a garage, even with the door open."),),
            stubs=(Stub(label=said("idle for"), figure=Figure(10.0, "min", PRACTICE)),),
            active_min=2.0,
            wait_min=10.0,
            hands_free=True,
            record=("level before",),
        ),
        _step(
            2,
            "hold",
            "secure",
            "Apply the {term.handbrake}. Keep the key in your pocket and hang the tag on the steering wheel.",
            place="inside",
            active_min=1.0,
        ),
        _step(
            3,
            "ramps",
            "support",
            "Chock the rear wheels, then drive the front wheels up the ramps.",
            place="at wheel",
            cautions=(_caution("danger", "Never go under a vehicle that only a jack holds. A jack is for lifting, not for holding."),),
            active_min=4.0,
            deliberate=True,
            reject=Wording("It stirs when you push it: drive down and set the ramps anew."),
            findings=(GROUND,),
        ),
        _step(
            4,
            "pan",
            "place",
            "Set the empty pan under the {term.drain_plug}, a little towards where the jet will go.",
            place="under",
            stubs=(Stub(label=said("the pan holds"), figure=Figure(8.0, "L", Source("stamped", "on its rim"))),),
            active_min=1.0,
            findings=(HELPER,),
        ),
        _step(
            5,
            "filler-open",
            "open",
            "Open the {term.bonnet}. Take the filler cap off and lay it on the catch, so that the {term.bonnet} cannot shut without it.",
            place="above",
            active_min=1.0,
        ),
        _step(
            6,
            "plug-loose",
            "loosen",
            "Wipe around the plug and crack it loose with a close-fitting socket. Not with the torque wrench.",
            place="under",
            cautions=(_caution("warning", "Oil at {hot} scalds, and it comes in an arc. Stand to the side; gloves and glasses on."),),
            stubs=(Stub(label=said("drive"), figure=PLUG_DRIVE),),
            active_min=2.0,
        ),
        _step(
            7,
            "drain",
            "drain",
            "Turn the plug out by hand and let the oil run until it only drips. About {out} should come out.",
            figures={"out": OUT},
            place="under",
            stubs=(Stub(label=said("let it run"), figure=DRAIN),),
            active_min=1.0,
            wait_min=12.0,
            hands_free=True,
            record=("time the plug came out", "oil that came out"),
        ),
        _step(
            8,
            "washer",
            "fit",
            "Take the old washer off the plug and put a new one on. One, not two.",
            place="bench",
            during="s07-drain",
            stubs=(Stub(label=said("washer"), figure=WASHER, fact="slots.drain_washer.sizes"),),
            look=Wording("On the plug, and on the {term.sump}."),
            accept=Wording("The old washer is in your hand."),
            reject=Wording("It is not found: it still sits on the {term.sump}. Take it off there."),
            active_min=2.0,
        ),
        _step(
            9,
            "plug-in",
            "fit",
            "Start the plug by hand and turn it in until the washer touches.",
            place="under",
            reject=Wording("It goes stiff before the washer touches: take it out and start again, by hand."),
            active_min=1.0,
        ),
        _step(
            10,
            "plug-tight",
            "tighten",
            "Tighten the plug and draw a line of paint over plug and {term.sump}. The {term.sump} is closed now.",
            place="under",
            stubs=(Stub(label=said("torque"), figure=PLUG_TORQUE, fact="fastenings.engine_oil_drain.torque"),),
            active_min=1.0,
            deliberate=True,
            findings=(WRENCH,),
        ),
        _step(
            11,
            "filter-off",
            "remove",
            "Move the pan under the filter. Loosen the filter, unscrew it, keep it upright and lower it into the pan.",
            place="under",
            cautions=(_caution("caution", "The filter can be hotter than the oil. Do not pierce it to turn it."),),
            accept=Wording("The rubber ring is on the old filter and the seat is bare."),
            reject=Wording("No ring on the old filter: it still sits on the seat. Take it off before you go on."),
            active_min=3.0,
            deliberate=True,
        ),
        _step(
            12,
            "filter-on",
            "tighten",
            "Oil the ring of the new filter, screw it on until the ring touches, then turn it on by hand.",
            place="under",
            stubs=(Stub(label=said("after it touches"), figure=Figure("¾ turn", "", Source("label", "printed on the filter"))),),
            active_min=3.0,
            deliberate=True,
        ),
        _step(
            13,
            "pour",
            "pour",
            "Pour the first pour slowly through the funnel, then put the filler cap on.",
            place="above",
            cautions=(_caution("notice", "Wipe up at once what is spilt: oil on the exhaust smokes and can catch fire."),),
            stubs=(Stub(label=said("first pour"), figure=FIRST_POUR),),
            active_min=3.0,
            deliberate=True,
        ),
        _step(
            14,
            "run",
            "run_engine",
            "Start the engine and let it idle. Watch the oil lamp: it must go out within the time at the side.",
            place="inside",
            cautions=(_caution("warning", "Lamp still on: stop the engine at once, and do not start it again before you know why."),),
            stubs=(Stub(label=said("lamp out within"), figure=Figure(5.0, "s", PRACTICE)),),
            active_min=2.0,
        ),
        _step(
            15,
            "leaks",
            "inspect",
            "Look at the plug and at the filter with the lamp, then stop the engine.",
            place="under",
            accept=Wording("Dry for one whole minute."),
            reject=Wording("A drop forms: stop the engine, and see what to do when it drips."),
            active_min=2.0,
        ),
        _step(
            16,
            "settle",
            "wait",
            "Wait until the oil has run back down.",
            stubs=(Stub(label=said("wait"), figure=SETTLE),),
            wait_min=8.0,
            hands_free=True,
        ),
        _step(
            17,
            "tray",
            "fit",
            "Put the {term.undertray} back and tighten its screws.",
            place="under",
            during="s16-settle",
            condition=Wording("If there is an {term.undertray}"),
            stubs=(Stub(label=said("torque of the screws"), figure=None, fact="fastenings.undertray.torque"),),
            active_min=5.0,
        ),
        _step(
            18,
            "level",
            "measure",
            "Drive down from the ramps to level ground. Read the stick twice and add what the pour table says, at most {second}.",
            figures={"second": SECOND_POUR},
            place="above",
            stubs=(
                Stub(label=said("second pour, at most"), figure=SECOND_POUR),
                Stub(label=said("from mark to mark"), figure=SPAN),
            ),
            active_min=4.0,
            deliberate=True,
            record=("level after", "oil added in all"),
        ),
        _step(
            19,
            "decant",
            "decant",
            "Pour the old oil into its can, let the old filter drip out, and wipe the pan.",
            place="bench",
            active_min=5.0,
            record=("oil into the can",),
        ),
        _step(
            20, "enter", "record", "Write down the {term.odometer} and what was done.", record=("odometer", "finished at"), active_min=2.0
        ),
    )


GATES = (
    Gate(
        id="g1",
        name="before under",
        before="s04-pan",
        questions=(
            said("Both front wheels stand in the hollows of the ramps."),
            said("Chocks are tight against both rear wheels, in front and behind."),
            said("Pushed hard from the side, the vehicle does not stir."),
        ),
    ),
    Gate(
        id="g2",
        name="before first undo",
        before="s06-plug-loose",
        questions=(
            said("New filter and new washer lie here, and the old filter looks like the new one."),
            said("{volume} of the oil on this card stand here, sealed or known.", volume=REFILL),
            said("The filler cap is off."),
        ),
    ),
    Gate(
        id="g3",
        name="before first pour",
        before="s13-pour",
        questions=(said("The plug is tight, with a line of paint across it."), said("The old rubber ring is in your hand.")),
    ),
    Gate(
        id="g4",
        name="before first start",
        before="s14-run",
        questions=(said("{volume} are in the engine.", volume=FIRST_POUR), said("The stick shows oil."), said("The filler cap is on.")),
    ),
    Gate(id="g5", name="before first drive", before="s18-level", questions=(said("Nobody and nothing is beneath the vehicle."),)),
    Gate(
        id="g6",
        name="end",
        before="",
        questions=(
            said("Filler cap on, stick home, {term.bonnet} shut."),
            said("Every tool and every {term.rag} on this card is back in the box."),
            said("The tag is off the steering wheel."),
        ),
    ),
)

POUR = CardPour(
    circuit="engine oil",
    pours=(FIRST_POUR, SECOND_POUR),
    span=SPAN,
    rows=(
        PourRow(reading=-0.25, add=Figure(1.1, "L", COMPUTED), note=said("pour, then read again")),
        PourRow(reading=0.0, add=Figure(0.85, "L", COMPUTED)),
        PourRow(reading=0.25, add=Figure(0.6, "L", COMPUTED)),
        PourRow(reading=0.5, add=Figure(0.35, "L", COMPUTED)),
        PourRow(reading=0.75, add=Figure(0.0, "L", COMPUTED), note=said("leave it")),
        PourRow(reading=1.0, add=Figure(0.0, "L", COMPUTED), note=said("leave it")),
        PourRow(reading=1.25, add=Figure(-0.3, "L", COMPUTED), note=said("take it out before you drive")),
    ),
    reasons=(
        said(
            "{refill} with filter, less {held} so that the first pour almost surely stays under the upper mark.",
            refill=REFILL,
            held=Figure(0.7, "L"),
        ),
        said("From mark to mark: {span} ({span.source}).", span=SPAN),
    ),
)


def sample_card(*, hang_tag: bool = True) -> JobCard:
    """Return the card; every figure on it is invented."""
    steps = tuple(_with_heat(step) for step in _steps())
    return JobCard(
        id="7f3b9c52-0d41-4f0e-9a55-2f6a1c9be0d4",
        title="Engine oil and filter",
        vehicle="Alder",
        vehicle_kind="car",
        day=DAY,
        steps=steps,
        items=("engine oil and filter",),
        odometer=Figure(148210.0, "km"),
        gates=GATES,
        tools=(
            CardTool(key="plug_socket", name=Wording("socket for the {term.drain_plug}, hex 17 mm")),
            CardTool(key="torque_wrench", name=Wording("torque wrench"), figure=PLUG_TORQUE),
            CardTool(key="filter_strap", name=Wording("strap or claw for the filter")),
            CardTool(key="drain_pan", name=Wording("drain pan"), figure=Figure(8.0, "L")),
            CardTool(key="funnel", name=Wording("clean funnel")),
            CardTool(key="ramps", name=Wording("pair of ramps, and chocks")),
        ),
        parts=(
            CardPart(slot="oil_filter", name=Wording("oil filter"), number=Figure("EX-F 4471", "", Source("supplier", "parts counter"))),
            CardPart(slot="drain_washer", name=Wording("sealing washer 16 × 22")),
        ),
        fluids=(CardFluid(circuit="engine_oil", name=Wording("engine oil"), product="Example 5W-30, ACEA C3", volume=REFILL),),
        waste=(
            CardWaste(stream="engine oil", name=said("old engine oil"), volume=OUT),
            CardWaste(stream="oil filter", name=said("old filter, drained")),
            CardWaste(stream="oily rags", name=said("oily {term.rag}s, in a closed tin")),
        ),
        pour=POUR,
        findings=(CAN_ROOM,),
        follow_ups=(
            CardFollowUp(id="drips", words=Wording("Look for drips under the vehicle, and read the stick cold."), after_days=2.0),
            CardFollowUp(id="level", words=Wording("Read the stick again."), after_days=30.0, after_km=500.0),
        ),
        active_min=44.0,
        elapsed_min=71.0,
        revisions=(
            Revision(kind="vehicle", key="Alder", sha256="3b0c9f6e5a7d41c2b8e90f1a2d3c4b5a69788796a5b4c3d2e1f00f1e2d3c4b5a"),
            Revision(kind="procedure", key=PROCEDURE, sha256="a41d0e7c9b8f6a5d4c3b2a1908f7e6d5c4b3a29180f7e6d5c4b3a2918f7e6d5c"),
        ),
        checked=(
            said("Every fastening that is undone is done up again, with its figure or by hand."),
            said("The engine never runs between the first undo and the first pour."),
            said("The pan holds more than comes out."),
        ),
        not_seen=(
            said("Whether the plug that you turn is the engine's."),
            said("Rust, soft ground, a worn jack."),
            said("How far the torque wrench has drifted."),
        ),
        hang_tag=hang_tag,
    )


def _with_heat(step: CardStep) -> CardStep:
    hot = Figure(60.0, "C", PRACTICE)
    return replace(
        step,
        cautions=tuple(
            replace(caution, words=Wording(caution.words.text, {"hot": hot})) if "{hot}" in caution.words.text else caution
            for caution in step.cautions
        ),
    )
