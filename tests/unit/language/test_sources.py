"""The bibliography: what a row must name, and that it claims no more than is true."""

import pytest

from sandmix.language.sources import HOW_SURE, SOURCES

READ = [source for source in SOURCES.values() if source.how_sure == "read"]


@pytest.mark.parametrize("source", SOURCES.values(), ids=lambda source: source.key)
def test_each_citation_ends_with_how_sure_it_is(source):
    assert source.how_sure in HOW_SURE
    assert source.citation.endswith(f"({HOW_SURE[source.how_sure]})")
    assert source.title in source.citation


@pytest.mark.parametrize("source", READ, ids=lambda source: source.key)
def test_a_source_that_was_read_can_be_looked_up_and_holds_nothing_from_memory(source):
    assert source.author or source.where
    assert "memory" not in f"{source.title} {source.where}"


def test_a_citation_names_author_title_place_and_year():
    assert SOURCES["talbot_1988"].citation == (
        "Talbot, D. E. J., and Anyalebechi, P. N., Solubility of hydrogen in liquid aluminium, "
        "Materials Science and Technology 4, p. 1, abstract: measured from 670 to 850 °C, 1988 (read in the source)"
    )


def test_trade_knowledge_is_from_memory_and_unsourced():
    assert SOURCES["memory"].citation == "Trade knowledge (from memory, unsourced)"
