"""Runs in a book: checked with their places."""

RUNS = "id,model_year,first_day,last_day,meaning,works,models,basis,source\n"
WITHIN = 'id = "casting_day"\nwithin = "run"\n'


def with_run(tiny, row):
    """The tiny book with one run, and a form that is read within it."""
    return tiny.change("book", 'id = "casting_day"\n', WITHIN).table("runs", RUNS + row + "\n")


def test_a_run_is_read(tiny):
    book = with_run(tiny, "r55,1955,1954-09-01,1955-08-31,cars of 1955,,,invented,demo").book()
    (run,) = book.runs
    assert (str(run.first), str(run.last), run.applies.first_year) == (
        "1954-09-01",
        "1955-08-31",
        1955,
    )
    assert next(f for f in book.date_forms if f.id == "casting_day").within_run


def test_a_form_within_runs_of_which_there_are_none_is_named(tiny):
    told = tiny.change("book", 'id = "casting_day"\n', WITHIN).told()
    assert "asks for runs, and tables/runs.csv has none" in told


def test_a_run_of_another_year_than_the_books_is_named(tiny):
    told = with_run(tiny, "r70,1970,1969-09-01,1970-08-31,x,,,invented,demo").told()
    assert told.startswith("tables/runs.csv:2:5: ")
    assert "1970" in told


def test_a_run_that_ends_before_it_begins_is_named(tiny):
    told = with_run(tiny, "r55,1955,1955-09-01,1955-08-31,x,,,invented,demo").told()
    assert told.startswith("tables/runs.csv:2:21: ")


def test_a_day_that_is_none_is_named(tiny):
    told = with_run(tiny, "r55,1955,1955-02-30,1955-08-31,x,,,invented,demo").told()
    assert told.startswith("tables/runs.csv:2:10: 'first_day' is '1955-02-30' here")
    assert "expected a date such as 1952-01-01" in told


def test_two_runs_of_one_id_are_named(tiny):
    row = "r55,1955,1954-09-01,1955-08-31,x,,,invented,demo"
    assert "r55" in with_run(tiny, f"{row}\n{row}").told()


REMARKS = "id,about,sentence,first_year,last_year,works,models,basis,source\n"
POINTS = (
    "id,item,first,last,dated,date_first,date_last,date_code,meaning,"
    "first_year,last_year,works,models,basis,source\n"
)


def test_a_remark_is_about_something_that_the_book_has(tiny):
    sound = "a,plate_brass,said,,,,,invented,demo\nb,book,said,,,,,invented,demo\n"
    mark = tiny.book().marks[0].id
    book = tiny.table("remarks", REMARKS + sound.replace("plate_brass", mark)).book()
    assert [r.id for r in book.remarks_on(book.marks[0])] == ["a"]
    told = tiny.table("remarks", REMARKS + "a,bumper,said,,,,,invented,demo\n").told()
    assert told.startswith("tables/remarks.csv:2:3: ")


def test_a_known_car_is_found_by_its_number(tiny):
    row = "a,chassis_number,700101,700103,built,1954-05,1954-06-02,,pilot cars,,,,,invented,demo\n"
    book = tiny.table("points", POINTS + row).book()
    assert [p.id for p in book.points_at("chassis_number", "700102")] == ["a"]
    assert book.points_at("chassis_number", "700104") == ()
    assert book.points_at("chassis_number", "70010") == ()


def test_a_date_of_a_known_car_that_is_none_is_named(tiny):
    row = "a,chassis_number,700101,,built,May 1954,,,pilot cars,,,,,invented,demo\n"
    told = tiny.table("points", POINTS + row).told()
    assert told.startswith("tables/points.csv:2:32: ")
    assert "expected a year, a month or a day: 1955, 1955-03 or 1955-03-14" in told


DISPUTED = "table,code,value,meaning,disputed,first_year,last_year,works,models,basis,source\n"


def test_sources_that_disagree_about_a_code_stand_side_by_side(tiny):
    rows = (
        "trims,C1,tan-cloth,tan cloth,{0},,,,,invented,demo\n"
        "trims,C1,grey-cloth,grey cloth,{0},,,,,invented,demo\n"
    )
    assert tiny.table("codes-more", DISPUTED + rows.format("yes")).told() == ""
    assert "applies to cars" in tiny.table("codes-more", DISPUTED + rows.format("")).told()


def test_a_table_that_is_known_to_be_incomplete_may_lack_years(tiny):
    gap = tiny.change("codes", 'tan-leather,"leather, tan",1955', 'tan-leather,"leather, tan",1956')
    assert "has nothing for" in gap.told()
    known = gap.change("book", 'table = "trims"', 'table = "trims"\n  incomplete = true')
    assert known.told() == ""
