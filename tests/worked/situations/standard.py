"""The standard car of each book: every mark clear, undisturbed and as it should be.

The serials of the two real makers' cars are invented.
"""

from collections.abc import Mapping

from tests.worked.situations.car import Car, Core, Typed


def _clear(texts: Mapping[str, str]) -> dict[str, tuple[Typed, ...]]:
    return {mark: (Typed(text),) for mark, text in texts.items()}


def _written(*numbers: str, **forms: str) -> tuple[dict[str, str], ...]:
    """Each number, and the forms in which it stands on other marks."""
    return tuple(
        {"number": each, **{name: form.format(each) for name, form in forms.items()}}
        for each in numbers
    )


PARTIAL = "19N{}"
WHOLE, STAMPED = "8R02J{}", "8R{}"


CAMARO = Car(
    book="chevrolet-1964-1972",
    claim={
        "sequence": "594718",
        "model": "camaro",
        "model_year": "1969",
        "works": "norwood",
        "package": "z28",
        "engine": "302-z28",
        "paint": "le-mans-blue",
    },
    built="1969-02-14",
    values={
        "number": "594718",
        "partial": "19N594718",
        "suffix": "DZ",
        "package": "X33",
        "body": "238174",
    },
    readings=_clear(
        {
            "number_plate": "124379N{number}",
            "hidden_number_cowl": "{partial}",
            "hidden_number_firewall": "{partial}",
            "body_plate_norwood_1969": "69 12437 NOR {body} BDY | 711 | 71 71 | 02C | {package}",
            "engine_pad": "V0206{suffix}",
            "partial_number_engine": "{partial}",
            "block_cast_date": "A289",
            "head_cast_date": "A159",
            "muncie_1969": "P9A27B",
            "partial_number_gearbox": "{partial}",
            "axle_stamp": "BU0204G1",
            "build_sheet": "1 | 24 | 37 | {suffix} | 117 | {body}",
            "owner_plate_1967": "124379N{number} | H | V0206{suffix} | BU0204G | P9A27B | 2",
        }
    ),
    bearer="body",
    hidden=("hidden_number_cowl",),
    plate="number_plate",
    cores=(
        Core(
            "engine",
            "partial_number_engine",
            "block_cast_date",
            "F179",
            "F078",
            "engine_pad",
            "V0114DZ",
        ),
        Core("gearbox", "partial_number_gearbox"),
        Core("axle"),
    ),
    others=_written("571902", "604411", "533086", partial=PARTIAL),
    near=_written("594719", partial=PARTIAL)[0],
    exchanged=_written("594178", partial=PARTIAL)[0],
)

MUSTANG = Car(
    book="ford-1964-1973",
    claim={
        "unit_number": "138402",
        "model": "mustang",
        "model_year": "1968",
        "works": "san-jose",
        "engine_type": "302-4v",
        "paint": "acapulco-blue",
    },
    built="1968-02-09",
    values={
        "number": "138402",
        "whole": "8R02J138402",
        "stamped": "8R138402",
        "week": "07B",
        "district": "72",
    },
    readings=_clear(
        {
            "dash_plate": "{whole}",
            "apron_stamp": "{whole}",
            "hidden_stamp_left": "{whole}",
            "hidden_stamp_right": "{whole}",
            "door_plate_1967": "{whole}|63A|D|2|A|{week}|{district}|5|5",
            "engine_stamp": "{stamped}",
            "block_date": "8A03",
            "engine_assembly_date": "8A22",
            "head_date": "7M18",
            "gearbox_stamp": "{stamped}",
            "gearbox_date": "8A12",
            "number_on_papers": "{whole}",
            "factory_record": "|1968-02-07|1968-02-08|1968-02-09|",
        }
    ),
    bearer="shell",
    hidden=("apron_stamp", "hidden_stamp_left", "hidden_stamp_right"),
    plate="dash_plate",
    cores=(
        Core(
            "engine", "engine_stamp", "block_date", "8F12", "7F05", "engine_assembly_date", "7M20"
        ),
        Core("gearbox", "gearbox_stamp", "gearbox_date", "8F12", "7F05"),
    ),
    others=_written("151977", "127340", "166081", whole=WHOLE, stamped=STAMPED),
    near=_written("138407", whole=WHOLE, stamped=STAMPED)[0],
    exchanged=_written("138042", whole=WHOLE, stamped=STAMPED)[0],
)

SPRINT = Car(
    book="tarvane-1952-1961",
    claim={
        "chassis_number": "700143",
        "model": "solent-sprint",
        "model_year": "1955",
        "works": "tarvane",
        "body_works": "marrick",
        "paint": "signal-red",
        "trim": "tan-leather",
    },
    built="1955-05-12",
    values={
        "number": "700143",
        "frame": "4 700143",
        "engine": "40047",
        "body": "0931",
        "gearbox": "22064",
        "axle": "32036",
    },
    readings=_clear(
        {
            "plate_brass": "SP|{number}|{engine}|17|L2|370|_",
            "frame_number": "{frame}",
            "wing_body_number": "M {body}",
            "seat_body_number": "M {body}",
            "bulkhead_body_number": "M {body}",
            "body_week": "DB5",
            "engine_number": "L {engine}",
            "engine_casting": "10C5",
            "gearbox_stamp": "{gearbox} 145",
            "axle_stamp": "{axle} 1203",
            "despatch_ledger": "{number}|4|{engine}|M|{body}|17|120555",
            "build_card": "{number}|4|M|{body}|{engine}|{gearbox}|{axle}|A|17|L2|090555",
        }
    ),
    bearer="frame",
    hidden=("frame_number",),
    plate="plate_brass",
    cores=(
        Core("engine", "engine_number", "engine_casting", "14J5", "10J4"),
        Core("gearbox", "gearbox_stamp"),
        Core("axle", "axle_stamp"),
        Core("body", "seat_body_number"),
    ),
    others=(
        {
            "number": "700122",
            "frame": "4 700122",
            "engine": "40063",
            "body": "0988",
            "gearbox": "21877",
            "axle": "32117",
        },
        {
            "number": "700157",
            "frame": "4 700157",
            "engine": "40031",
            "body": "0842",
            "gearbox": "22311",
            "axle": "32307",
        },
        {
            "number": "700131",
            "frame": "4 700131",
            "engine": "40056",
            "body": "1017",
            "gearbox": "22415",
            "axle": "31866",
        },
    ),
    near={
        "number": "700149",
        "frame": "4 700149",
        "engine": "40041",
        "body": "0981",
        "gearbox": "22069",
        "axle": "32038",
    },
    exchanged={
        "number": "700134",
        "frame": "4 700134",
        "engine": "40074",
        "body": "0913",
        "gearbox": "22046",
        "axle": "32063",
    },
)

SALOON = Car(
    book="tarvane-1952-1961",
    claim={
        "chassis_number": "600321",
        "model": "solent-saloon",
        "model_year": "1960",
        "works": "tarvane",
        "body_works": "ellery",
        "paint": "coach-black",
    },
    built="1960-06-14",
    values={"number": "600321", "engine": "14950"},
    readings=_clear(
        {
            "plate_aluminium": "{number}|12|60|E|{engine}|C|11|L1|H",
            "shell_wing_number": "E {number}",
            "shell_seat_number": "E {number}",
            "engine_number": "S {engine}",
            "engine_casting": "10D0",
            "gearbox_stamp": "25364 190",
            "axle_stamp": "35436 3062",
            "despatch_ledger": "{number}|6|{engine}|E||11|140660",
        }
    ),
    bearer="shell",
    hidden=("shell_wing_number", "shell_seat_number"),
    plate="plate_aluminium",
    cores=(
        Core("engine", "engine_number", "engine_casting", "14K0", "10K9"),
        Core("gearbox"),
        Core("axle"),
    ),
    others=(
        {"number": "600588", "engine": "15388"},
        {"number": "600127", "engine": "14921"},
        {"number": "590433", "engine": "14777"},
    ),
    near={"number": "600327", "engine": "14958"},
    exchanged={"number": "600231", "engine": "14590"},
)

NUMBERED = Car(
    book="numbered-parts",
    claim={
        "chassis_number": "600321",
        "model": "solent-saloon",
        "model_year": "1960",
        "works": "works",
        "package": "ts",
        "engine_type": "ts-engine",
        "paint": "silver",
        "trim": "tan-leather",
    },
    built="1960-06-14",
    values={
        "number": "600321",
        "tail": "00321",
        "body": "31874",
        "type": "TS",
        "day": "30050",
        "package": "T",
    },
    readings=_clear(
        {
            "number_plate": "6{number}",
            "body_plate": "{body}|{package}|17|L2|240",
            "wing_tail": "{tail}",
            "seat_tail": "{tail}",
            "engine_stamp": "{type} {day} {tail}",
            "block_casting": "20D0",
            "head_casting": "12D0",
            "gearbox_stamp": "210 {tail}",
            "axle_stamp": "0883",
            "owner_booklet": "{number}|{type}|{day}|050760",
            "build_sheet": "{body}|{type}|140660",
        }
    ),
    bearer="shell",
    hidden=("wing_tail", "seat_tail"),
    plate="number_plate",
    cores=(
        Core(
            "engine",
            "engine_stamp",
            "block_casting",
            "18K0",
            "12K9",
            "engine_stamp",
            "{type} 06040 {tail}",
        ),
        Core("gearbox", "gearbox_stamp"),
        Core("axle"),
    ),
    others=(
        {"number": "600588", "tail": "00588"},
        {"number": "600127", "tail": "00127"},
        {"number": "590433", "tail": "90433"},
    ),
    near={"number": "600327", "tail": "00327"},
    exchanged={"number": "600231", "tail": "00231"},
)

FRAME = Car(
    book="frame",
    claim={
        "car_number": "21874",
        "model": "tourer",
        "model_year": "1951",
        "works": "works",
        "paint": "blue",
    },
    built="1951-05-22",
    values={"number": "21874"},
    readings=_clear(
        {
            "number_plate": "{number}|12",
            "frame_number": "{number}",
            "body_number": "{number}",
            "engine_number": "{number}",
            "block_casting": "20C1",
            "gearbox_stamp": "171 {number}",
            "axle_stamp": "0851",
            "despatch_ledger": "{number}|12|220551",
        }
    ),
    bearer="frame",
    hidden=("frame_number",),
    plate="number_plate",
    cores=(
        Core("engine", "engine_number", "block_casting", "18J1", "20J0"),
        Core("gearbox", "gearbox_stamp"),
        Core("axle"),
        Core("body", "body_number"),
    ),
    others=_written("22316", "21502", "22871"),
    near={"number": "21879"},
    exchanged={"number": "21784"},
)

COACHBUILT = Car(
    book="coachbuilt",
    claim={
        "chassis_number": "30512",
        "model": "six",
        "model_year": "1935",
        "works": "works",
        "body_works": "second-coachworks",
    },
    built="1935-05-28",
    values={"number": "30512", "engine": "61877", "body": "2204"},
    readings=_clear(
        {
            "chassis_plate": "{number}|{engine}",
            "frame_number": "{number}",
            "chassis_week": "115",
            "seat_body_number": "{body}",
            "door_body_number": "{body}",
            "body_week": "205",
            "engine_number": "{engine}",
            "block_casting": "15A5",
            "despatch_ledger": "{number}|{engine}|S|{body}|280535",
        }
    ),
    bearer="frame",
    hidden=("frame_number",),
    plate="chassis_plate",
    cores=(
        Core("engine", "engine_number", "block_casting", "20J5", "15G4"),
        Core("body", "seat_body_number"),
    ),
    others=(
        {"number": "30877", "engine": "62310", "body": "1766"},
        {"number": "30455", "engine": "61402", "body": "2951"},
        {"number": "30963", "engine": "62748", "body": "2087"},
    ),
    near={"number": "30517", "engine": "61871", "body": "2209"},
    exchanged={"number": "30152", "engine": "68177", "body": "2024"},
)

ORDER = Car(
    book="order-number",
    claim={
        "car_number": "6503217",
        "model": "coupe",
        "model_year": "1965",
        "works": "works",
        "paint": "blue",
    },
    built="1965-05-20",
    values={"number": "6503217", "order": "241876", "week": "205"},
    readings=_clear(
        {
            "number_plate": "{number}",
            "shell_order": "{order}",
            "body_tag": "{order}|12|{week}",
            "gearbox_stamp": "175 {order}",
            "block_casting": "30C5",
            "archive_letter": "{number}|{order}|200565",
        }
    ),
    bearer="shell",
    hidden=("shell_order",),
    plate="number_plate",
    cores=(
        Core("engine", "", "block_casting", "16J5", "20J4"),
        Core("gearbox", "gearbox_stamp"),
    ),
    others=(
        {"number": "6505810", "order": "318245"},
        {"number": "6501974", "order": "207731"},
        {"number": "6507362", "order": "276690"},
    ),
    near={"number": "6503211", "order": "241873"},
    exchanged={"number": "6502317", "order": "241786"},
)

NO_NUMBERS = Car(
    book="no-numbers",
    claim={"car_number": "42310", "model": "saloon", "model_year": "1952", "works": "works"},
    built="1952-05-20",
    values={"number": "42310"},
    readings=_clear(
        {
            "number_plate": "{number}",
            "shell_number": "{number}",
            "block_casting": "24C2",
            "engine_day": "28042",
            "axle_stamp": "172",
            "delivery_note": "{number}|200552",
        }
    ),
    bearer="shell",
    hidden=("shell_number",),
    plate="number_plate",
    cores=(
        Core("engine", "", "block_casting", "16J2", "20J1", "engine_day", "10032"),
        Core("axle"),
    ),
    others=_written("43127", "41580", "43866"),
    near={"number": "42316"},
    exchanged={"number": "42130"},
)

LABELS = Car(
    book="labels",
    claim={
        "car_number": "823517",
        "model": "hatchback",
        "model_year": "1988",
        "works": "works",
        "paint": "white",
    },
    built="1988-05-17",
    values={"number": "823517"},
    readings=_clear(
        {
            "number_plate": "{number}",
            "door_plate": "{number}|12",
            "shell_number": "{number}",
            "bonnet_label": "{number}",
            "boot_lid_label": "{number}",
            "left_wing_label": "{number}",
            "right_wing_label": "{number}",
            "left_quarter_label": "{number}",
            "left_door_label": "{number}",
            "right_door_label": "{number}",
            "engine_number": "{number}",
            "delivery_note": "{number}|12|170588",
        }
    ),
    bearer="shell",
    hidden=("shell_number",),
    plate="number_plate",
    cores=(Core("engine", "engine_number"),),
    others=_written("817206", "831944", "809631"),
    near={"number": "823511"},
    exchanged={"number": "825317"},
)

STANDARD: Mapping[str, Car] = {
    "camaro": CAMARO,
    "mustang": MUSTANG,
    "sprint": SPRINT,
    "saloon": SALOON,
    "numbered": NUMBERED,
    "frame": FRAME,
    "coachbuilt": COACHBUILT,
    "order": ORDER,
    "no-numbers": NO_NUMBERS,
    "labels": LABELS,
}
"""The standard cars by the names under which situations and laws ask for them."""
