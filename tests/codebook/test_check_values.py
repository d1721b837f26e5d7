# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""Rules, codes, lags and outcomes say only what can be said."""


def test_a_code_that_says_a_model_says_one_of_the_book(tiny):
    changed = tiny.add("codes", "types,SD,solent-coupe,x,,,,,invented,demo")
    told = """\
tables/codes.csv:9:10: nothing in the book says 'solent-coupe' for 'model'
    types,SD,solent-coupe,x,,,,,invented,demo
             ^^^^^^^^^^^^
expected 'solent-sprint', which is the nearest"""
    assert changed.told() == told


def test_a_rule_speaks_of_values_that_something_says(tiny):
    changed = tiny.change("rules", "solent-sprint,body_works", "solent-spirt,body_works")
    told = """\
tables/rules.csv:2:65: nothing in the book says 'solent-spirt' for 'model'
    no-ellery-sprint,Ellery never bodied the Sprint,forbidden,model,solent-spirt,body_works,ellery,firm,,,,,invented,demo
                                                                    ^^^^^^^^^^^^
expected 'solent-sprint', which is the nearest"""
    assert changed.told() == told


def test_a_rule_joins_codes_and_no_numbers(tiny):
    changed = tiny.change(
        "rules", "forbidden,model,solent-sprint", "forbidden,chassis_number,solent-sprint"
    )
    told = """\
tables/rules.csv:2:59: 'chassis_number' is an item of kind number
    no-ellery-sprint,Ellery never bodied the Sprint,forbidden,chassis_number,solent-sprint,body_works,ellery,firm,,,,,invented,demo
                                                              ^^^^^^^^^^^^^^
expected an item of kind code"""
    assert changed.told() == told


def test_a_lag_stands_between_dates(tiny):
    changed = tiny.change("lags", "casting_date,build_date", "trim,build_date")
    told = """\
tables/lags.csv:2:13: 'trim' is an item of kind code
    cast-to-car,trim,build_date,20,60,240,,,,,invented,demo
                ^^^^
expected an item of kind date"""
    assert changed.told() == told


def test_the_days_of_a_lag_are_in_order(tiny):
    changed = tiny.change("lags", "20,60,240", "60,20,240")
    told = """\
tables/lags.csv:2:37: 60, 20 and 240 days are not in order
    cast-to-car,casting_date,build_date,60,20,240,,,,,invented,demo
                                        ^^
expected least_days no more than usual_days, no more than most_days, and least below most"""
    assert changed.told() == told


def test_a_lag_needs_some_days_between_least_and_most(tiny):
    changed = tiny.change("lags", "20,60,240", "60,60,60")
    told = """\
tables/lags.csv:2:37: 60, 60 and 60 days are not in order
    cast-to-car,casting_date,build_date,60,60,60,,,,,invented,demo
                                        ^^
expected least_days no more than usual_days, no more than most_days, and least below most"""
    assert changed.told() == told


def test_an_outcome_counts_as_one_of_three_looks(tiny):
    changed = tiny.change("features", "white=factory", "white=good")
    told = """\
tables/features.csv:3:48: 'good' is not a look
    dab,rail,Which dab is beside the number?,white=good; none=doubtful,,,marrick,,invented,demo
                                                   ^^^^
expected one of: factory, doubtful, disturbed"""
    assert changed.told() == told


def test_an_outcome_needs_its_look(tiny):
    changed = tiny.change("features", "white=factory", "white")
    told = """\
tables/features.csv:3:42: 'white' is no outcome with a look
    dab,rail,Which dab is beside the number?,white; none=doubtful,,,marrick,,invented,demo
                                             ^^^^^
expected such as 'as factory=factory; none=doubtful'"""
    assert changed.told() == told


def test_an_outcome_stands_once(tiny):
    changed = tiny.change("features", "white=factory", "none=factory")
    told = """\
tables/features.csv:3:56: the outcome 'none' stands here a second time
    dab,rail,Which dab is beside the number?,none=factory; none=doubtful,,,marrick,,invented,demo
                                                           ^^^^^^^^^^^^^
expected each outcome once"""
    assert changed.told() == told


def test_a_standing_item_keeps_its_kind(tiny):
    changed = tiny.change(
        "book",
        'id = "trim"\nname = "trim"\nkind = "code"',
        'id = "trim"\nname = "trim"\nkind = "code"\n\n[[item]]\nid = "build_date"\nname = "day of despatch"\nkind = "code"',
    )
    told = """\
book.toml:30:8: 'build_date' is an item of kind code
    kind = "code"
           ^^^^^^
expected kind = 'date'
tables/lags.csv:2:26: 'build_date' is an item of kind code
    cast-to-car,casting_date,build_date,20,60,240,,,,,invented,demo
                             ^^^^^^^^^^
expected an item of kind date"""
    assert changed.told() == told


def test_one_number_identifies_the_car(tiny):
    changed = tiny.change("book", "identification = true\n", "")
    told = """\
book.toml:3:6: no item of kind number with identification = true
    id = "tarvane-1955-1957"
         ^^^^^^^^^^^^^^^^^^^
expected one item, the number by which the maker names the car"""
    assert changed.told() == told
