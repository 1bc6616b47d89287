"""What is wrong with the bar typed for a new part, and how a part without a name is called."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.errors import InputError, named
from strapwright.pages.form import field_at, form_text, open_form, sentence_for
from strapwright.pages.page_statements import key_name, table_name
from strapwright.shop_files.reading_job import read_job

_TRIAL = ["4 in", "up 90", "4 in"]


def name_of_part(typed: str, jobs: int) -> str:
    """Return the name of a new part: as typed, else a number after those of the store.

    Parameters
    ----------
    typed
        What stands in the field.
    jobs
        How many jobs there are.
    """
    return typed.strip() or f"part {jobs + 1}"


def bar_wrong(typed: Mapping[str, str], units: str) -> dict[str, str]:
    """Return what is wrong with the bar of a new part, by reading it in a trial part.

    Parameters
    ----------
    typed
        What stands in the fields.
    units
        Of the new part.

    Returns
    -------
    dict
        Name of a field -> what is wrong with it; empty where nothing is.
    """
    text = f'format = 1\nunits = "{units}"\n\n[part]\nname = "trial"\nshape = {_TRIAL}\n'
    form = open_form(text, "bar", typed)
    try:
        read_job(form_text(text, form))
    except InputError as error:
        field = field_at(form, error.where)
        name = "bar.thickness" if field is None else field.name
        said = (
            named(error.marked[0], key_name, table_name)
            if field is None
            else sentence_for(field, error, units)
        )
        return {name: said}
    return {}
