"""What one code book knows, for a machine: items with all values, marks, pieces, features."""

from typing import Any

from witnessmark.answers.picked import cited, picked
from witnessmark.codebook import CarContext, CodeBook, Feature, Item, Mark
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.pieces import pieces_of
from witnessmark.examination import values_of


def render_book(
    book: CodeBook, context: CarContext, sha256: str, asked: tuple[Mark, ...] = ()
) -> dict[str, Any]:
    """The book, or the part of it that holds for such a car; of the marks those that are asked
    for, if any are, and what to look at there."""
    marks = asked or book.marks_for(context)
    features = features_of(book, context)
    sites = {mark.site for mark in asked} or {each.site for each in features}
    return {
        **picked(book, "id", "title", "maker", "version"),
        "sha256": sha256,
        **picked(book, "first_year", "last_year"),
        "year": context.model_year,
        "models": [each.id for each in book.models_for(context)],
        "works": [each.id for each in book.works_for(context)],
        "items": [_item_outline(book, item, context) for item in book.items],
        "marks": [_mark_outline(each) for each in marks],
        "pieces": _piece_outlines(book, context),
        "features": [_feature_outline(each) for each in features if each.site in sites],
        "remarks": [
            picked(each, "about", "sentence") | cited(each.citation)
            for each in book.remarks
            if each.applies.covers(context)
        ],
    }


def _piece_outlines(book: CodeBook, context: CarContext) -> list[dict[str, Any]]:
    """The pieces as they are weighed, and those that are told alone."""
    found = pieces_of(book, context)
    weighed = {piece.id: piece for piece in found.pieces}
    told = [piece for piece in declared_pieces(book, context) if piece.id not in weighed]
    return [
        {
            **picked(piece, "id", "name", "kind", "assembly"),
            "marks": [picked(each, "mark", "surface") for each in found.marks_on(piece.id)],
            **picked(piece, "sold_in_service", "service_numbers", "stage"),
            **cited(piece.citation),
        }
        for piece in (*weighed.values(), *told)
    ]


def _item_outline(book: CodeBook, item: Item, context: CarContext) -> dict[str, Any]:
    return picked(item, "id", "name", "kind") | {"values": list(values_of(book, item.id, context))}


def _feature_outline(feature: Feature) -> dict[str, Any]:
    return {
        **picked(feature, "id", "site", "prompt"),
        "outcomes": [{"outcome": each.id, "look": each.look} for each in feature.outcomes],
        **picked(feature.applies, "works", "models"),
        **cited(feature.citation),
    }


def _mark_outline(mark: Mark) -> dict[str, Any]:
    of_field = ("id", "name", "says", "widths", "alphabet", "part", "optional")
    return {
        **picked(mark, "id", "name", "local_name"),
        "aliases": [alias.name for alias in mark.aliases],
        **picked(mark, "kind", "assembly", "site", "how_made", "windows"),
        **picked(mark.applies, "first_year", "last_year", "works", "models"),
        **cited(mark.citation),
        "fields": [picked(field, *of_field) for field in mark.fields],
    }


def declared_pieces(book: CodeBook, context: CarContext) -> list[Piece]:
    """What the book says of pieces of such a car."""
    return [piece for piece in book.pieces if piece.applies.covers(context)]


def features_of(book: CodeBook, context: CarContext) -> list[Feature]:
    """The features of such a car, in the order of the book's sites."""
    order = {site: place for place, site in enumerate(dict.fromkeys(s.id for s in book.sites))}
    found = [each for each in book.features if each.applies.covers(context)]
    return sorted(found, key=lambda each: order.get(each.site, len(order)))
