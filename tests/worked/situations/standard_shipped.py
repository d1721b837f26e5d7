"""The standard cars of the shipped books: every mark clear, undisturbed and as it should be.

The serials of the two real makers' cars are invented.
"""

from tests.worked.situations.car import Car, Core, clear, written

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
    readings=clear(
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
            cast="block_cast_date",
            late="F179",
            early="F078",
            stamp="engine_pad",
            before_cast="V0114{suffix}",
            head="head_cast_date",
            late_head="F151",
            of_another={"engine_pad": "V0203{suffix}"},
        ),
        Core("gearbox", "partial_number_gearbox", of_another={"muncie_1969": "P9A23B"}),
        Core("axle"),
    ),
    others=written("571902", "604411", "533086", partial=PARTIAL),
    near=written("594719", partial=PARTIAL)[0],
    exchanged=written("594178", partial=PARTIAL)[0],
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
    readings=clear(
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
            "engine",
            "engine_stamp",
            cast="block_date",
            late="8F12",
            early="7F05",
            stamp="engine_assembly_date",
            before_cast="7M20",
            head="head_date",
            late_head="0F12",
        ),
        Core("gearbox", "gearbox_stamp", cast="gearbox_date", late="8F12", early="7F05"),
    ),
    others=written("151977", "127340", "166081", whole=WHOLE, stamped=STAMPED),
    near=written("138407", whole=WHOLE, stamped=STAMPED)[0],
    exchanged=written("138042", whole=WHOLE, stamped=STAMPED)[0],
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
    readings=clear(
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
        Core("engine", "engine_number", cast="engine_casting", late="14J5", early="10J4"),
        Core("gearbox", "gearbox_stamp"),
        Core("axle", "axle_stamp"),
        Core("body", "seat_body_number", ("wing_body_number", "bulkhead_body_number")),
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

NUMBERED = Car(
    book="tarvane-1952-1961",
    claim={
        "chassis_number": "600321",
        "model": "solent-saloon",
        "model_year": "1960",
        "works": "tarvane",
        "body_works": "ellery",
        "package": "ts",
        "engine_type": "ts-engine",
        "paint": "pine-green",
        "trim": "tan-leather",
    },
    built="1960-06-14",
    values={
        "number": "600321",
        "tail": "00321",
        "body": "20874",
        "type": "TS",
        "day": "30050",
        "package": "T",
    },
    readings=clear(
        {
            "plate_aluminium": "{number}|12|60|E|_|C|14|L2|H",
            "body_plate": "{body}|{package}|240",
            "shell_wing_tail": "E {tail}",
            "shell_seat_tail": "E {tail}",
            "engine_stamp": "{type} {day} {tail}",
            "engine_casting": "20D0",
            "head_casting": "12D0",
            "gearbox_tail": "210 {tail}",
            "axle_day": "3075",
            "despatch_ledger": "{number}|6|_|E|_|14|140660",
            "owner_booklet": "{number}|{type}|{day}|050760",
            "build_sheet": "{body}|{type}|14|L2",
        }
    ),
    bearer="shell",
    hidden=("shell_wing_tail", "shell_seat_tail"),
    plate="plate_aluminium",
    cores=(
        Core(
            "engine",
            "engine_stamp",
            cast="engine_casting",
            late="18K0",
            early="12K9",
            stamp="engine_stamp",
            before_cast="{type} 06040 {tail}",
            plainer={"type": "SA"},
            head="head_casting",
            late_head="12H2",
        ),
        Core("gearbox", "gearbox_tail"),
        Core("axle"),
    ),
    others=(
        {"number": "600588", "tail": "00588"},
        {"number": "600127", "tail": "00127"},
        {"number": "590533", "tail": "90533"},
    ),
    near={"number": "600327", "tail": "00327"},
    exchanged={"number": "600231", "tail": "00231"},
)

BEETLE = Car(
    book="volkswagen-1950-1979",
    claim={
        "chassis_number": "0345612",
        "model": "beetle",
        "model_year": "1967",
        "engine_letters": "h",
    },
    built="1967-02-14",
    values={"number": "117 345 612", "engine": "H 0512347"},
    readings=clear(
        {
            "pan_number_1965": "{number}",
            "type_plate_1965": "113|{number}",
            "engine_lettered": "{engine}",
            "gearbox_stamp": "AC 02027",
            "works_certificate_1965": "{number}|{engine}|14.02.1967|20.02.1967",
            "registration_paper_1965": "{number}|{engine}|03.04.1967",
        }
    ),
    bearer="pan",
    hidden=("pan_number_1965",),
    plate="type_plate_1965",
    cores=(Core("engine", "engine_lettered"), Core("gearbox")),
    others=(
        {"number": "117 402 918", "engine": "H 0561203"},
        {"number": "117 287 440", "engine": "H 0448126"},
        {"number": "116 534 871", "engine": "H 0471839"},
    ),
    near={"number": "117 345 642", "engine": "H 0512342"},
    exchanged={"number": "117 354 612", "engine": "H 0521347"},
)

JAGUAR = Car(
    book="jaguar-1948-1974",
    claim={"chassis_number": "850512", "model": "e-type-38-open", "model_year": "1962"},
    built="1962-11-14",
    values={"number": "850512", "engine": "R5123-9", "tub": "R4872", "gearbox": "EB4021JS"},
    readings=clear(
        {
            "front_frame_number_38": "{number}",
            "data_plate_38": "{number}|{engine}|{tub}|{gearbox}",
            "tub_tag_38": "{tub}",
            "engine_stamp": "{engine}",
            "head_stamp": "{engine}",
            "gearbox_case": "{gearbox}",
            "gearbox_cover": "{gearbox}",
            "certificate_38": "{number}|{engine}|{tub}|{gearbox}|Opalescent Dark Blue|Red"
            "|14.11.1962|26.11.1962",
            "log_book_38": "{number}|{engine}|03.12.1962",
        }
    ),
    bearer="front_frame",
    hidden=("front_frame_number_38",),
    plate="data_plate_38",
    cores=(
        Core("engine", "engine_stamp", beside=("head_stamp",)),
        Core("gearbox", "gearbox_case", beside=("gearbox_cover",)),
        Core("tub", "tub_tag_38"),
    ),
    others=(
        {"number": "850731", "engine": "R7811-9", "tub": "R5190", "gearbox": "EB5207JS"},
        {"number": "850288", "engine": "R2907-9", "tub": "R2644", "gearbox": "EB2176JS"},
        {"number": "850866", "engine": "R9034-9", "tub": "R6021", "gearbox": "EB6633JS"},
    ),
    near={"number": "850542", "engine": "R5128-9", "tub": "R4812", "gearbox": "EB4027JS"},
    exchanged={"number": "850152", "engine": "R5213-9", "tub": "R4782", "gearbox": "EB4201JS"},
)
