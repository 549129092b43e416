"""A hundred ways of saying a value: each is understood, or answered with how to write it."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

import pytest

from kitlist.base import sayings
from kitlist.base.terms import Chemistry
from kitlist.kit import entry

HALF_PAST_FOUR = datetime.fromisoformat("2027-05-08T16:30")
THINGS: dict[str, dict[str, Any]] = {
    "battery": {"name": "x", "place": "loose"},
    "lead": {"name": "x", "use": "link", "end_a": "post-clamp", "end_b": "post-clamp"},
    "clamp": {"name": "x", "what": "post-clamp"},
    "rod": {"name": "x", "designation": "E6013", "diameter": "3.2", "count": "20"},
    "gear": {"name": "x", "what": "helmet"},
    "tool": {"name": "x", "what": "other"},
    "repair": {"name": "x", "part": "hanger"},
    "trip": {"name": "x", "starts_on": "2027-05-08", "ends_on": "2027-05-16"},
    "reading": {"battery": "x", "volts": "12.7", "taken_at": "2027-05-01T07:30"},
    "vehicle": {"name": "x"},
}
UNDERSTOOD = (
    ("battery", "chemistry=AGM", {"chemistry": "agm"}),
    ("battery", "chemistry=LiFePO4", {"chemistry": "lithium"}),
    ("battery", "chemistry=LiFePO₄", {"chemistry": "lithium"}),
    ("battery", "chemistry=LFP", {"chemistry": "lithium"}),
    ("battery", "chemistry=Ca/Ca", {"chemistry": "calcium"}),
    ("battery", "chemistry=lead calcium", {"chemistry": "calcium"}),
    ("battery", "chemistry=gel cell", {"chemistry": "gel"}),
    ("battery", "chemistry=Enhanced Flooded Battery", {"chemistry": "efb"}),
    ("battery", "chemistry=open caps", {"chemistry": "flooded"}),
    ("battery", "chemistry=?", {"chemistry": "unknown"}),
    ("battery", "chemistry=not known", {"chemistry": "unknown"}),
    ("battery", "type=agm", {"chemistry": "agm"}),
    ("battery", "cranking=680CCA", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "cranking=680 CCA", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "cca=680", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "CCA=680A", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "cranking=CCA 680", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "cranking=640A (EN)", {"cranking_a": 640, "cranking_standard": "en"}),
    ("battery", "cranking=640 A EN", {"cranking_a": 640, "cranking_standard": "en"}),
    ("battery", "cranking=EN 640", {"cranking_a": 640, "cranking_standard": "en"}),
    ("battery", "cranking=640 EN2", {"cranking_a": 640, "cranking_standard": "en2"}),
    ("battery", "cranking=680 CCA SAE", {"cranking_a": 680, "cranking_standard": "sae"}),
    ("battery", "mca=820", {"cranking_a": 820, "cranking_standard": "mca"}),
    ("battery", "c20=75Ah", {"c20_ah": 75}),
    ("battery", "c20=75 AH", {"c20_ah": 75}),
    ("battery", "c20=75 amp hours", {"c20_ah": 75}),
    ("battery", "ah=75", {"c20_ah": 75}),
    ("battery", "capacity=75,5Ah", {"c20_ah": 75.5}),
    ("battery", "condition=good", {"condition": "sound"}),
    ("battery", "condition=Bulging", {"condition": "swollen"}),
    ("battery", "terminals=M8", {"terminals": "stud-m8"}),
    ("battery", "terminals=round posts", {"terminals": "post"}),
    ("battery", "bms=yes", {"built_in_cutoff": True}),
    ("battery", "built-in-cutoff=BMS", {"built_in_cutoff": True}),
    ("battery", "built_in_cutoff=Y", {"built_in_cutoff": True}),
    ("battery", "stays-connected=n", {"stays_connected": False}),
    ("battery", "stays-connected=?", {"stays_connected": None}),
    ("battery", "weight=40 lb", {"mass_kg": pytest.approx(18.14, abs=0.01)}),
    ("battery", "in-service-since=8 May 2024", {"in_service_since": date(2024, 5, 8)}),
    ("battery", "in-service-since=May 8, 2024", {"in_service_since": date(2024, 5, 8)}),
    ("battery", "in-service-since=25/05/2024", {"in_service_since": date(2024, 5, 25)}),
    ("battery", "in-service-since=05/25/2024", {"in_service_since": date(2024, 5, 25)}),
    ("battery", "in-service-since=8.5.2024", {"in_service_since": date(2024, 5, 8)}),
    ("battery", "in-service-since=05/05/2024", {"in_service_since": date(2024, 5, 5)}),
    ("battery", "in-service-since=2024/05/08", {"in_service_since": date(2024, 5, 8)}),
    ("lead", "area=35mm2", {"area_mm2": 35}),
    ("lead", "area=35 mm²", {"area_mm2": 35}),
    ("lead", "area=35 sq mm", {"area_mm2": 35}),
    ("lead", "area=35 square mm", {"area_mm2": 35}),
    ("lead", "area=4 AWG", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "area=4awg", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "area=AWG 4", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "area=#4", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "area=4 gauge", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "gauge=4ga", {"area_mm2": pytest.approx(21.15, abs=0.01)}),
    ("lead", "area=2/0 AWG", {"area_mm2": pytest.approx(67.4, abs=0.1)}),
    ("lead", "area=00 AWG", {"area_mm2": pytest.approx(67.4, abs=0.1)}),
    ("lead", "area=0 AWG", {"area_mm2": pytest.approx(53.5, abs=0.1)}),
    ("lead", "length=10 ft", {"length_m": pytest.approx(3.048)}),
    ("lead", "length=10'", {"length_m": pytest.approx(3.048)}),
    ("lead", 'length=36"', {"length_m": pytest.approx(0.914, abs=0.001)}),
    ("lead", "length=2,5 metres", {"length_m": 2.5}),
    ("lead", "length=250cm", {"length_m": 2.5}),
    ("lead", "conductor=tin", {"conductor": "tinned-copper"}),
    ("lead", "conductor=CCA", {"conductor": "copper-clad"}),
    ("lead", "conductor=Aluminum", {"conductor": "aluminium"}),
    ("lead", "end-b=earth clamp", {"end_b": "work-clamp"}),
    ("lead", "end-b=Ground Clamp", {"end_b": "work-clamp"}),
    ("lead", "end-b=stinger", {"end_b": "holder"}),
    ("lead", "end-a=m8 lug", {"end_a": "lug-m8"}),
    ("lead", "end-a=crocodile clip", {"end_a": "spring-clamp"}),
    ("lead", "use=earth lead", {"use": "work"}),
    ("lead", "use=jump leads", {"use": "jumper"}),
    ("lead", "mark=red", {"mark": "plus"}),
    ("lead", "mark=-", {"mark": "minus"}),
    ("clamp", "what=electrode holder", {"what": "holder"}),
    ("rod", "diameter=1/8 in", {"diameter_mm": 3.2}),
    ("rod", 'diameter=1/8"', {"diameter_mm": 3.2}),
    ("rod", "diameter=3,2", {"diameter_mm": 3.2}),
    ("rod", "length=14 in", {"length_mm": pytest.approx(355.6)}),
    ("rod", "storage=cardboard box", {"storage": "carton"}),
    ("rod", "storage=unopened", {"storage": "sealed"}),
    ("gear", "what=auto darkening helmet", {"what": "helmet-auto-darkening"}),
    ("gear", "what=gauntlets", {"what": "gloves"}),
    ("gear", "what=FFP2", {"what": "mask"}),
    ("tool", "what=multimeter", {"what": "voltmeter"}),
    ("tool", "what=battery switch", {"what": "isolator"}),
    ("tool", "what=sat phone", {"what": "call-for-help"}),
    ("tool", "what=axle stands", {"what": "stands"}),
    ("tool", "agent=ABE", {"agent": "powder"}),
    ("tool", "rating=300A", {"rating_a": 300, "rating_v": None}),
    ("tool", "rating=60 volts", {"rating_a": None, "rating_v": 60}),
    ("tool", "rating-v=60", {"rating_v": 60}),
    ("tool", "accuracy=0,5 %", {"accuracy_ratio": pytest.approx(0.005)}),
    ("repair", "steel=galv", {"steel": "galvanised"}),
    ("repair", "joint=butt", {"joint": "square-butt"}),
    ("repair", "position=PF", {"position": "vertical"}),
    ("repair", "thickness=1/4 in", {"thickness_mm": pytest.approx(6.35, abs=0.06)}),
    ("trip", "coldest=20F", {"coldest_c": pytest.approx(-6.7)}),
    ("trip", "coldest=−6", {"coldest_c": -6}),
    ("trip", "coldest=-6 °C", {"coldest_c": -6}),
    ("trip", "wet=dry", {"wet": False}),
    ("trip", "fire-rules=total fire ban", {"fire_rules": "banned"}),
    ("trip", "days-from-help=?", {"days_from_help": None}),
    ("reading", "volts=12,74", {"volts_v": 12.74}),
    ("reading", "volts=12.74V", {"volts_v": 12.74}),
    ("reading", "rested=overnight", {"rested_h": 8}),
    ("reading", "rested=90 min", {"rested_h": 1.5}),
    ("reading", "rested=2 days", {"rested_h": 48}),
    ("reading", "rested=a week", "rested = 'a week': must be a number from 0 to 9000 h"),
    ("vehicle", "driven-at=8 May 2027 16:30", {"driven_at": HALF_PAST_FOUR}),
    ("vehicle", "driven-at=2027-05-08 4:30pm", {"driven_at": HALF_PAST_FOUR}),
    ("vehicle", "starter=380 amps", {"crank_a": 380}),
)
ANSWERED = (
    ("battery", "chemistry=wet", "write flooded where its caps open, calcium where it is sealed or marked Ca"),
    ("battery", "chemistry=SLA", "write agm, gel or calcium"),
    ("battery", "chemistry=maintenance-free", "write agm, gel or calcium"),
    ("battery", "chemistry=lead acid", "write flooded (caps open)"),
    ("battery", "terminals=stud", "write stud-m6, stud-m8 or stud-m10"),
    ("battery", "in-service-since=08/05/2024", "write 2024-05-08 or 2024-08-05"),
    ("battery", "in-service-since=8/5/24", "write the year in full"),
    ("battery", "in-service-since=May", "write it like 2026-11-25"),
    ("battery", "in-service-since=31/02/2024", "write it like 2026-11-25"),
    ("battery", "cranking=680", "a cranking rating needs its standard"),
    ("battery", "colour=red", "a battery has no such field"),
    ("battery", "chemstry=agm", "is it chemistry?"),
    ("lead", "area=35", "say the unit: 35 mm2 or 35 AWG"),
    ("lead", "area=1/0", "write 1/0 AWG"),
    ("lead", "area=8mm", "write 8 mm2 for the area of the copper"),
    ("tool", "accuracy=0.5", "write 0.5%"),
    ("tool", "accuracy=0.1", "say the unit: 0.1 % or 10 %"),
    ("lead", "end-a=eyelet", "write lug-m6, lug-m8 or lug-m10"),
    ("rod", "diameter=1/8", "write 1/8 in"),
    ("rod", "storage=tin", "write sealed for a tin never opened"),
    ("rod", "condition=ok", "write dry, damp, wet or damaged"),
    ("gear", "what=hood", "write helmet for eyes and face"),
    ("tool", "what=brush", "write wire-brush for steel"),
    ("tool", "rating=300", "say which: rating-a=300A or rating-v=300V"),
    ("tool", "volume=2 gal", "2 US gal is 7.6L"),
    ("reading", "battery-temp=9 deg", "write 9C or 9F"),
    ("vehicle", "driven-at=2027-05-08", "must be a time like 2026-11-25T07:30"),
)


def made(kind: str, said: str) -> Any:
    word, _, value = said.partition("=")
    usual = {k: v for k, v in THINGS[kind].items() if k != word.replace("-", "_")}
    return entry.build(kind, usual | {word: value})


def test_there_are_a_hundred_of_them() -> None:
    assert len(UNDERSTOOD) + len(ANSWERED) >= 100


@pytest.mark.parametrize(("kind", "said", "kept"), UNDERSTOOD, ids=[said for _, said, _ in UNDERSTOOD])
def test_what_people_say_is_understood(kind: str, said: str, kept: dict[str, Any] | str) -> None:
    if isinstance(kept, str):
        with pytest.raises(entry.BadEntry) as caught:
            made(kind, said)
        assert kept in caught.value.message
        return
    thing = made(kind, said)
    assert {name: getattr(thing, name) for name in kept} == kept


@pytest.mark.parametrize(("kind", "said", "how"), ANSWERED, ids=[said for _, said, _ in ANSWERED])
def test_what_can_mean_two_things_is_answered_with_how_to_write_it(kind: str, said: str, how: str) -> None:
    with pytest.raises(entry.BadEntry) as caught:
        made(kind, said)
    assert how in caught.value.message


def test_a_test_named_beside_the_rating_goes_before_what_its_letters_say() -> None:
    battery = entry.build("battery", THINGS["battery"] | {"cca": "680", "cranking_standard": "en"})
    assert (battery.cranking_a, battery.cranking_standard) == (680, "en")


def test_no_saying_of_a_term_can_mean_two_of_its_members() -> None:
    for kind, words in sayings._SAME.items():
        said = [sayings.plain(word) for member in words.values() for word in member.split(", ")]
        assert sorted(said) == sorted(set(said)), kind
        assert all(sayings.meant(kind, member) is member for member in kind)
    assert sayings.meant(Chemistry, "nonsense") is None
