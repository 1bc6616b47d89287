"""Bend order and coming off.

:func:`strapwright.ordering.order_search.find_order` and
:func:`strapwright.ordering.freeing.coming_off.comes_off` are the ways in; values are in
:mod:`~strapwright.ordering.order_values` and :mod:`~strapwright.ordering.order_results`.
"""
