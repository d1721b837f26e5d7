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
tables/features.csv:3:42: 'white' is not an outcome with its look
    dab,rail,Which dab is beside the number?,white; none=doubtful,,,marrick,,invented,demo
                                             ^^^^^
expected such as 'as factory=factory; none=doubtful'"""
    assert changed.told() == told


def test_an_outcome_stands_once(tiny):
    changed = tiny.change("features", "white=factory", "none=factory")
    told = """\
tables/features.csv:3:56: the outcome 'none' is here a second time
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


def also(tiny, conditions):
    """The tiny book's rule with further conditions."""
    rules = tiny.tables["rules"].replace("if_values,", "if_values,also,")
    rules = rules.replace("solent-sprint,body_works", f"solent-sprint,{conditions},body_works")
    return tiny.table("rules", rules)


def test_a_rule_can_ask_for_more_than_one_thing(tiny):
    [rule] = also(tiny, "trim=tan-leather grey-cloth; model_year=1956").book().rules
    assert [(each.item, sorted(each.values)) for each in rule.also] == [
        ("trim", ["grey-cloth", "tan-leather"]),
        ("model_year", ["1956"]),
    ]
    assert rule.items == {"model", "trim", "model_year", "body_works"}


def test_a_further_condition_names_values_that_the_book_has(tiny):
    told = also(tiny, "trim=tan-leather grey-clohth").told()
    assert (
        told
        == """\
tables/rules.csv:2:96: nothing in the book says 'grey-clohth' for 'trim'
    no-ellery-sprint,Ellery never bodied the Sprint,forbidden,model,solent-sprint,trim=tan-leather grey-clohth,body_works,ellery,firm,,,,,invented,demo
                                                                                                   ^^^^^^^^^^^
expected 'grey-cloth', which is the nearest"""
    )


def test_a_further_condition_is_an_item_with_its_values(tiny):
    assert "'trim' is not an item with its values" in also(tiny, "trim").told()
    assert "the book has no item 'trimm'" in also(tiny, "trimm=grey-cloth").told()
    assert "'chassis_number' is an item of kind number" in also(tiny, "chassis_number=1").told()


def ranges(tiny, *conditions, last="550540"):
    """Two ranges of the same numbers and cars, with these conditions."""
    rows = [
        f"chassis_number,550001,{last},{each},x,new,1955,1957,,,invented,demo\n"
        for each in conditions
    ]
    header = (
        "item,first,last,also,meaning,supplied,first_year,last_year,works,models,basis,source\n"
    )
    return tiny.table("series", header + "".join(rows))


def test_ranges_may_share_numbers_where_a_code_tells_them_apart(tiny):
    apart = ranges(tiny, "trim=grey-cloth", "trim=tan-leather")
    assert apart.told() == ""
    assert [sorted(each.also[0].values) for each in apart.book().series] == [
        ["grey-cloth"],
        ["tan-leather"],
    ]
    shared = ranges(tiny, "trim=grey-cloth", "trim=tan-leather grey-cloth")
    assert "the range shares numbers" in shared.told()
    assert "the range shares numbers" in ranges(tiny, "trim=grey-cloth", "").told()
    # Where they end is not known, but that both begin there is.
    assert "the range shares numbers" in ranges(tiny, "", "", last="").told()


def test_a_condition_of_a_range_is_a_code_that_the_book_has(tiny):
    assert "nothing in the book says 'gray'" in ranges(tiny, "trim=gray").told()
    assert "'trim' is not an item with its values" in ranges(tiny, "trim").told()
    number = ranges(tiny, "chassis_number=550001").told()
    assert "'chassis_number' is an item of kind number" in number


def test_a_condition_of_a_known_car_is_a_code_that_the_book_has(tiny):
    header = "id,item,first,last,dated,date_first,also,meaning,basis,source\n"
    point = "car,chassis_number,550001,,built,1955,{},x,invented,demo\n"

    def told(also):
        return tiny.table("points", header + point.format(also)).told()

    assert told("trim=grey-cloth") == ""
    assert "nothing in the book says 'gray'" in told("trim=gray")


def test_an_item_stands_in_a_rule_once(tiny):
    assert "the row already names 'model'" in also(tiny, "model=solent-saloon").told()
    twice = "trim=grey-cloth; trim=tan-leather"
    assert "the row already names 'trim'" in also(tiny, twice).told()


def test_only_an_item_of_codes_can_have_many(tiny):
    changed = tiny.change(
        "book",
        'name = "chassis number"\nkind = "number"',
        'name = "chassis number"\nkind = "number"\nmany = true',
    )
    told = changed.told()
    assert "'chassis_number' is an item of kind number" in told
    assert "expected many = true for codes of the book's own" in told


def test_a_rule_requires_nothing_of_many_codes_and_may_forbid_or_ask_for_one(tiny):
    """What a set lacks says nothing, so that nothing can be required of it."""
    many = tiny.change(
        "book", 'name = "trim"\nkind = "code"', 'name = "trim"\nkind = "code"\nmany = true'
    )
    rule = "a,Words,{},{},{},{},{},firm,,,,,invented,demo"
    asked = ("trim", "tan-leather", "model", "solent-sprint")
    assert not many.add("rules", rule.format("allowed", *asked)).told()
    required = ("model", "solent-sprint", "trim", "tan-leather")
    assert not many.add("rules", rule.format("forbidden", *required)).told()
    told = many.add("rules", rule.format("allowed", *required)).told()
    assert "'trim' has many codes, and what it lacks says nothing" in told
    assert "expected kind = forbidden, or the item as if_item" in told
