# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""Rows do not overlap, ranges leave out no year, each car has one identity bearer."""


def test_a_code_with_two_meanings_for_one_car_is_named(tiny):
    changed = tiny.add("codes", "types,SA,solent-sprint,again,1957,,,,invented,demo")
    told = """\
tables/codes.csv:9:7: the code 'SA' applies to cars to which tables/codes.csv:2 applies already
    types,SA,solent-sprint,again,1957,,,,invented,demo
          ^^
expected other years, works or models, or another name"""
    assert changed.told() == told


def test_two_features_of_one_name_for_one_car_are_named(tiny):
    changed = tiny.add("features", "dab,rail,x,a=factory; b=doubtful,,,,,invented,demo")
    told = """\
tables/features.csv:4:1: the feature 'dab' applies to cars to which tables/features.csv:2 applies already
    dab,rail,x,a=factory; b=doubtful,,,,,invented,demo
    ^^^
expected other years, works or models, or another name"""
    assert changed.told() == told


def test_two_rows_of_a_site_for_one_works_are_named(tiny):
    changed = tiny.add("sites", "rail,frame rail,above,pitting,none,12,,,,,,marrick,,invented,demo")
    told = """\
tables/sites.csv:5:1: the site 'rail' applies to cars to which tables/sites.csv:4 applies already
    rail,frame rail,above,pitting,none,12,,,,,,marrick,,invented,demo
    ^^^^
expected other years, works or models, or another name"""
    assert changed.told() == told


def test_a_range_that_leaves_out_a_year_is_named(tiny):
    changed = tiny.change(
        "series", "chassis_number,560001,560506,saloons of 1956,new,1956,1956,,,invented,demo\n", ""
    )
    told = """\
tables/series.csv:3:50: the ranges of 'chassis_number' leave out 1956
    chassis_number,570001,570471,saloons of 1957,new,1957,1957,,,invented,demo
                                                     ^^^^
expected a range for each year between, or the item listed as partial"""
    assert changed.told() == told


def test_ranges_that_share_numbers_for_one_car_are_named(tiny):
    changed = tiny.add("series", "chassis_number,550540,550600,x,new,1955,1955,,,invented,demo")
    told = """\
tables/series.csv:5:16: the range shares numbers of 'chassis_number' with tables/series.csv:2
    chassis_number,550540,550600,x,new,1955,1955,,,invented,demo
                   ^^^^^^
expected ranges that do not overlap for the same years, works and models"""
    assert changed.told() == told


def test_a_number_of_a_range_is_written_as_its_item_is(tiny):
    changed = tiny.add("series", "chassis_number,55054,55A600,x,new,1955,1955,,,invented,demo")
    told = """\
tables/series.csv:5:16: '55054' is not written as 'chassis_number' is
    chassis_number,55054,55A600,x,new,1955,1955,,,invented,demo
                   ^^^^^
expected 6 characters of '0123456789'
tables/series.csv:5:22: '55A600' is not written as 'chassis_number' is
    chassis_number,55054,55A600,x,new,1955,1955,,,invented,demo
                         ^^^^^^
expected 6 characters of '0123456789'"""
    assert changed.told() == told


def test_a_range_of_some_models_alone_names_them(tiny):
    header = (
        "item,first,last,meaning,supplied,alone,first_year,last_year,works,models,basis,source\n"
    )
    row = "chassis_number,550001,550540,x,new,yes,1955,1957,,{},invented,demo\n"
    assert tiny.table("series", header + row.format("solent-sprint")).told() == ""
    told = tiny.table("series", header + row.format("")).told()
    assert "the range is of some models alone, and names none" in told


def test_a_range_runs_forwards(tiny):
    open_ended = tiny.add("series", "chassis_number,559000,,x,new,1955,1955,,,invented,demo")
    assert open_ended.told() == ""
    changed = tiny.add("series", "chassis_number,559000,558000,x,new,1955,1955,,,invented,demo")
    told = """\
tables/series.csv:5:23: the last, '558000', comes before the first, '559000'
    chassis_number,559000,558000,x,new,1955,1955,,,invented,demo
                          ^^^^^^
expected '559000' or later"""
    assert changed.told() == told


def test_an_exception_of_a_number_is_written_as_the_number_is(tiny):
    changed = tiny.change("exceptions", "550003", "55003")
    told = """\
tables/exceptions.csv:2:30: '55003' is not written as 'chassis_number' is
    pilots,chassis_number,550001,55003,three pilot cars,1955,1955,,,invented,demo
                                 ^^^^^
expected 6 characters of '0123456789'"""
    assert changed.told() == told


def test_only_numbers_have_ranges(tiny):
    changed = tiny.add("series", "trim,L1,L2,x,new,,,,,invented,demo")
    told = """\
tables/series.csv:5:1: 'trim' is an item of kind code
    trim,L1,L2,x,new,,,,,invented,demo
    ^^^^
expected an item of kind number"""
    assert changed.told() == told


def test_a_car_of_which_no_assembly_bears_the_identity_is_named(tiny):
    changed = tiny.change(
        "book", "identity_bearer = true", 'identity_bearer = true\nmodels = ["solent-saloon"]'
    ).change("book", 'carried = "frame rail"', 'carried = "frame rail"\nmodels = ["solent-saloon"]')
    told = """\
book.toml:3:6: no assembly bears the identity of 1956 to 1957 (solent-sprint)
    id = "tarvane-1955-1957"
         ^^^^^^^^^^^^^^^^^^^
expected an assembly with identity_bearer = true for each car"""
    assert changed.told() == told


def test_two_assemblies_that_bear_the_identity_of_one_car_are_no_fault(tiny):
    """A frame and a body that both bear the number are two questions; a third is a fault."""
    changed = tiny.change(
        "book",
        "[[date_form]]",
        '[[assembly]]\nid = "shell"\nname = "shell"\nkind = "shell"\nidentity_bearer = true\nmodels = ["solent-sprint"]\nbasis = "invented"\nsource = "demo"\n\n[[date_form]]',
    )
    assert changed.told() == ""
