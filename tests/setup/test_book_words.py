"""Which jobs get the book in use from their page, instead of a box to type it in."""

import pytest

import draw

READERS = [job["name"] for job in draw.description()["jobs"] if draw.book_words(job)]


def test_every_job_that_asks_for_the_book_gets_it_except_those_with_a_way_of_their_own() -> None:
    asking = {job["name"] for job in draw.description()["jobs"] for entry in job["asks"] if entry["word"] == "book"}
    assert asking == {*READERS, *draw.OWN_BOOK_PAGE}
    assert "tin" in READERS


@pytest.mark.parametrize("name", READERS)
def test_their_pages_have_no_box_for_it_and_print_no_book_in_the_example(name: str) -> None:
    job = draw.job_named(name)
    page = str(draw.page(name))
    assert 'data-field="book"' not in page
    assert 'data-field="now"' not in page
    assert "data-book-words" in page
    assert not {"The book", "Now"} & {label for label, _ in draw.given(job)}
