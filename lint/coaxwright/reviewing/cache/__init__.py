"""Results that are kept from one run to the next, so that what has not changed is not judged again.

A result is found again by everything that can change it: the content of the design and of all files that it includes
or names and where their names lead, what is asked of it, and the program with its rulesets, its catalogue, the
interpreter and every package beside it. What could not be read is never kept, nor is a review that is incomplete.

``answers`` keeps whole reports, which are given without a rule or a model being imported, so nothing but ``stored`` and
``results`` may import more than the standard library here. ``results`` keeps what was found in each design.
"""
