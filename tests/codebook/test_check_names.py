# ruff: noqa: E501 (rows and messages stand here as a person sees them)
"""Every name of a book leads somewhere, every id stands once."""


def test_a_works_that_the_book_does_not_have_is_marked_in_its_list(tiny):
    changed = tiny.change("models", "tarvane ellery", "tarvane elery")
    told = """\
tables/models.csv:2:44: the book has no works 'elery'
    solent-saloon,Solent saloon,closed,tarvane elery,,,invented,demo
                                               ^^^^^
expected 'ellery', which is the nearest"""
    assert changed.told() == told


def test_a_model_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("codes", "solent-sprint,invented", "solent-spritn,invented")
    told = """\
tables/codes.csv:5:42: the book has no model 'solent-spritn'
    trims,C,grey-cloth,grey cloth,1956,1957,,solent-spritn,invented,demo
                                             ^^^^^^^^^^^^^
expected 'solent-sprint', which is the nearest"""
    assert changed.told() == told


def test_a_body_family_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("models", "Solent Sprint,closed", "Solent Sprint,open")
    told = """\
tables/models.csv:3:29: the book has no body family 'open'
    solent-sprint,Solent Sprint,open,tarvane marrick,1956,,invented,demo
                                ^^^^
expected one of: closed"""
    assert changed.told() == told


def test_a_site_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("book", 'site = "rail"', 'site = "rails"')
    told = """\
book.toml:90:8: the book has no site 'rails'
    site = "rails"
           ^^^^^^^
expected 'rail', which is the nearest"""
    assert changed.told() == told


def test_the_site_of_a_feature_is_looked_up(tiny):
    changed = tiny.change(
        "features",
        "dab,rail,Which dab is beside the number?,white",
        "dab,rial,Which dab is beside the number?,white",
    )
    told = """\
tables/features.csv:3:5: the book has no site 'rial'
    dab,rial,Which dab is beside the number?,white=factory; none=doubtful,,,marrick,,invented,demo
        ^^^^
expected 'rail', which is the nearest"""
    assert changed.told() == told


def test_an_item_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("book", 'says = "trim"', 'says = "trimm"')
    told = """\
book.toml:78:10: the book has no item 'trimm'
      says = "trimm"
             ^^^^^^^
expected 'trim', which is the nearest"""
    assert changed.told() == told


def test_a_mistyped_table_is_told_from_both_sides(tiny):
    changed = tiny.change("book", 'table = "trims"', 'table = "trim"')
    told = """\
book.toml:81:11: the book has no table 'trim'
      table = "trim"
              ^^^^^^
expected 'trims', which is the nearest
tables/codes.csv:4:1: no field and no form of date reads the table 'trims'
    trims,L1,tan-leather,"leather, tan",1955,1957,,,invented,demo
    ^^^^^
expected 'trim', which is the nearest"""
    assert changed.told() == told


def test_a_form_of_date_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("book", 'date_form = "casting_day"', 'date_form = "casting_days"')
    told = """\
book.toml:109:15: the book has no form of date 'casting_days'
      date_form = "casting_days"
                  ^^^^^^^^^^^^^^
expected 'casting_day', which is the nearest"""
    assert changed.told() == told


def test_the_table_of_a_month_letter_is_looked_up(tiny):
    changed = tiny.change("book", 'table = "months"', 'table = "month"')
    told = """\
book.toml:45:47: the book has no table 'month'
      { part = "month_letter", width = 1, table = "month" },
                                                  ^^^^^^^
expected 'months', which is the nearest
tables/codes.csv:6:1: no field and no form of date reads the table 'months'
    months,A,1,January,,,,,invented,demo
    ^^^^^^
expected 'month', which is the nearest"""
    assert changed.told() == told


def test_an_assembly_that_the_book_does_not_have_is_named(tiny):
    changed = tiny.change("book", 'assembly = "frame"', 'assembly = "fram"')
    told = """\
book.toml:89:12: the book has no assembly 'fram'
    assembly = "fram"
               ^^^^^^
expected 'frame', which is the nearest"""
    assert changed.told() == told


def test_the_home_of_an_item_is_looked_up(tiny):
    changed = tiny.change(
        "book", 'name = "trim"\nkind = "code"', 'name = "trim"\nkind = "code"\nhome = "body"'
    )
    told = """\
book.toml:26:8: the book has no assembly 'body'
    home = "body"
           ^^^^^^
expected one of: frame"""
    assert changed.told() == told


def test_the_items_of_a_lag_are_looked_up(tiny):
    changed = tiny.change("lags", "casting_date,build_date", "casting_date,built")
    told = """\
tables/lags.csv:2:26: the book has no item 'built'
    cast-to-car,casting_date,built,20,60,240,,,,,invented,demo
                             ^^^^^
expected 'build_date', which is the nearest"""
    assert changed.told() == told


def test_the_items_of_a_rule_are_looked_up(tiny):
    changed = tiny.change("rules", "body_works,ellery", "coachbuilder,ellery")
    told = """\
tables/rules.csv:2:79: the book has no item 'coachbuilder'
    no-ellery-sprint,Ellery never bodied the Sprint,forbidden,model,solent-sprint,coachbuilder,ellery,firm,,,,,invented,demo
                                                                                  ^^^^^^^^^^^^
expected one of: chassis_number, trim, casting_date, model, model_year, works, body_works, build_date"""
    assert changed.told() == told


def test_the_item_of_a_series_is_looked_up(tiny):
    changed = tiny.change("exceptions", "pilots,chassis_number", "pilots,chassis")
    told = """\
tables/exceptions.csv:2:8: the book has no item 'chassis'
    pilots,chassis,550001,550003,three pilot cars,1955,1955,,,invented,demo
           ^^^^^^^
expected 'chassis_number', which is the nearest"""
    assert changed.told() == told


def test_what_a_settlement_speaks_of_is_a_mark_or_assembly(tiny):
    changed = tiny.change("settlements", "frame_number", "frame_nr")
    told = """\
tables/settlements.csv:2:25: the book has no mark or assembly 'frame_nr'
    laboratory,a laboratory,frame_nr,"examines the rail in place, without acid",240,,,,,invented,demo
                            ^^^^^^^^
expected 'frame_number', which is the nearest"""
    assert changed.told() == told


def test_an_id_that_stands_twice_is_named(tiny):
    changed = tiny.add("models", "solent-saloon,Solent again,closed,tarvane,,,invented,demo")
    told = """\
tables/models.csv:4:1: the model 'solent-saloon' is here again (first in line 2)
    solent-saloon,Solent again,closed,tarvane,,,invented,demo
    ^^^^^^^^^^^^^
expected another id"""
    assert changed.told() == told


def test_a_field_that_stands_twice_in_a_mark_is_named(tiny):
    changed = tiny.change("book", 'id = "cast"', 'id = "chassis"')
    told = """\
book.toml:104:8: the field 'chassis' is here again (first in line 97)
      id = "chassis"
           ^^^^^^^^^
expected another id"""
    assert changed.told() == told


def test_the_id_of_the_book_is_the_name_of_its_folder(tiny):
    changed = tiny.change("book", 'id = "tarvane-1955-1957"', 'id = "tarvane-1955"')
    told = """\
book.toml:3:6: the id 'tarvane-1955' is not the name of the folder
    id = "tarvane-1955"
         ^^^^^^^^^^^^^^
expected id = 'tarvane-1955-1957'"""
    assert changed.told() == told


def test_a_file_that_is_no_table_of_a_book_is_named(tiny):
    changed = tiny.table("work", "id\n")
    told = """\
tables/work.csv: 'work.csv' is not a table of a code book
expected 'works.csv', which is the nearest"""
    assert changed.told() == told
