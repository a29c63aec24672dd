"""The bibliography."""

import pytest

from sandmix.language.sources import HOW_SURE, SOURCES


@pytest.mark.parametrize("source", SOURCES.values(), ids=lambda source: source.key)
def test_each_source_says_how_sure_it_is(source):
    assert source.how_sure in HOW_SURE
    assert source.citation.endswith(f"({HOW_SURE[source.how_sure]})")
    assert source.title in source.citation


def test_a_citation_names_author_title_place_and_year():
    assert SOURCES["vingas_zrimsek_1964"].citation == (
        "Vingas, G. J., and Zrimsek, A. H., Thermal stability of bentonites in foundry molding sands,"
        " Clays and Clay Minerals 13, 1964 (read in the source)"
    )


def test_trade_knowledge_is_marked_as_unsourced():
    assert "unsourced" in SOURCES["memory"].citation
