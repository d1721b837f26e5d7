"""The addresses of these pages."""

from witnessmark.web.route import Route, Who

ROUTES: tuple[Route, ...] = (
    Route("books", "books", "books.view:page"),
    Route("book_search", "books/search", "books.view:search"),
    Route("book_bring", "books/bring", "books.own_view:bring", Who.OWNER, Who.OWNER),
    Route("book_aside", "books/aside/<case:name>", "books.own_view:aside", Who.OWNER, Who.OWNER),
    Route("book", "books/of/<case:book>", "books.view:book_page"),
    Route("book_coverage", "books/of/<case:book>/coverage", "books.view:coverage"),
    Route("book_whole", "books/of/<case:book>/whole", "books.view:whole"),
    Route("book_mark", "books/of/<case:book>/marks/<str:mark>", "books.view:mark"),
    Route("book_item", "books/of/<case:book>/items/<str:item>", "books.view:item"),
    Route("book_table", "books/of/<case:book>/tables/<str:table>", "books.table_view:page"),
    Route(
        "book_propose",
        "books/of/<case:book>/propose/<str:stem>",
        "books.propose_view:page",
        Who.READER,
        Who.READER,
    ),
    Route(
        "book_import",
        "books/of/<case:book>/import",
        "books.import_view:page",
        Who.OWNER,
        Who.OWNER,
    ),
)
