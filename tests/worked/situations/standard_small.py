"""The standard cars of the small invented books: every mark clear and as it should be."""

from tests.worked.situations.car import Car, Core, clear, written

TOURER = {
    "car_number": "21874",
    "model": "tourer",
    "model_year": "1951",
    "works": "works",
    "paint": "blue",
}

FRAME = Car(
    book="frame",
    claim=TOURER,
    built="1951-05-22",
    values={"number": "21874"},
    readings=clear(
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
        Core("engine", "engine_number", cast="block_casting", late="18J1", early="20J0"),
        Core("gearbox", "gearbox_stamp"),
        Core("axle"),
        Core("body", "body_number"),
    ),
    others=written("22316", "21502", "22871"),
    near={"number": "21879"},
    exchanged={"number": "21784"},
)

PAN = Car(
    book="pan",
    claim=TOURER,
    built="1951-05-22",
    values={"number": "21874", "engine": "412783"},
    readings=clear(
        {
            "pan_number": "{number}",
            "number_plate": "{number}|12",
            "engine_number": "{engine}",
            "gearbox_stamp": "171",
            "certificate": "{number}|{engine}|120651",
        }
    ),
    bearer="pan",
    hidden=("pan_number",),
    plate="number_plate",
    cores=(Core("engine", "engine_number"), Core("gearbox")),
    others=(
        {"number": "22316", "engine": "409127"},
        {"number": "21502", "engine": "431550"},
        {"number": "22871", "engine": "405936"},
    ),
    near={"number": "21879", "engine": "412788"},
    exchanged={"number": "21784", "engine": "412738"},
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
    readings=clear(
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
        Core("engine", "engine_number", cast="block_casting", late="20J5", early="15G4"),
        Core("body", "seat_body_number", ("door_body_number",)),
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
    readings=clear(
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
        Core("engine", cast="block_casting", late="16J5", early="20J4"),
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
    readings=clear(
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
        Core(
            "engine",
            cast="block_casting",
            late="16J2",
            early="20J1",
            stamp="engine_day",
            before_cast="10032",
        ),
        Core("axle"),
    ),
    others=written("43127", "41580", "43866"),
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
    readings=clear(
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
    others=written("817206", "831944", "809631"),
    near={"number": "823511"},
    exchanged={"number": "825317"},
)
