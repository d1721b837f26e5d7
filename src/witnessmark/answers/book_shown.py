"""What one code book knows, for a machine: items with all values, marks, pieces, features."""

from typing import Any

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
        "id": book.id,
        "title": book.title,
        "maker": book.maker,
        "version": book.version,
        "sha256": sha256,
        "first_year": book.first_year,
        "last_year": book.last_year,
        "year": context.model_year,
        "models": [each.id for each in book.models_for(context)],
        "works": [each.id for each in book.works_for(context)],
        "items": [_item_outline(book, item, context) for item in book.items],
        "marks": [_mark_outline(each) for each in marks],
        "pieces": _piece_outlines(book, context),
        "features": [_feature_outline(each) for each in features if each.site in sites],
        "remarks": [
            {
                "about": each.about,
                "sentence": each.sentence,
                "basis": each.citation.basis.value,
                "source": each.citation.source,
            }
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
            "id": piece.id,
            "name": piece.name,
            "kind": piece.kind.value,
            "assembly": piece.assembly,
            "marks": [
                {"mark": each.mark, "surface": each.surface} for each in found.marks_on(piece.id)
            ],
            "sold_in_service": piece.sold_in_service,
            "service_numbers": piece.service_numbers.value,
            "stage": piece.stage.value if piece.stage else None,
            "basis": piece.citation.basis.value,
            "source": piece.citation.source,
        }
        for piece in (*weighed.values(), *told)
    ]


def _item_outline(book: CodeBook, item: Item, context: CarContext) -> dict[str, Any]:
    outline: dict[str, Any] = {"id": item.id, "name": item.name, "kind": item.kind.value}
    return outline | {"values": list(values_of(book, item.id, context))}


def _feature_outline(feature: Feature) -> dict[str, Any]:
    return {
        "id": feature.id,
        "site": feature.site,
        "prompt": feature.prompt,
        "outcomes": [{"outcome": each.id, "look": each.look} for each in feature.outcomes],
        "works": sorted(feature.applies.works),
        "models": sorted(feature.applies.models),
        "basis": feature.citation.basis.value,
        "source": feature.citation.source,
    }


def _mark_outline(mark: Mark) -> dict[str, Any]:
    return {
        "id": mark.id,
        "name": mark.name,
        "local_name": mark.local_name,
        "aliases": [alias.name for alias in mark.aliases],
        "kind": mark.kind.value,
        "assembly": mark.assembly,
        "site": mark.site,
        "how_made": mark.how_made.value,
        "windows": mark.windows,
        "first_year": mark.applies.first_year,
        "last_year": mark.applies.last_year,
        "works": sorted(mark.applies.works),
        "models": sorted(mark.applies.models),
        "basis": mark.citation.basis.value,
        "source": mark.citation.source,
        "fields": [
            {
                "id": field.id,
                "name": field.name,
                "says": field.says,
                "widths": list(field.widths),
                "alphabet": field.alphabet,
                "part": field.part,
                "optional": field.optional,
            }
            for field in mark.fields
        ],
    }


def declared_pieces(book: CodeBook, context: CarContext) -> list[Piece]:
    """What the book says of pieces of such a car."""
    return [piece for piece in book.pieces if piece.applies.covers(context)]


def features_of(book: CodeBook, context: CarContext) -> list[Feature]:
    """The features of such a car, in the order of the book's sites."""
    order = {site: place for place, site in enumerate(dict.fromkeys(s.id for s in book.sites))}
    found = [each for each in book.features if each.applies.covers(context)]
    return sorted(found, key=lambda each: order.get(each.site, len(order)))
