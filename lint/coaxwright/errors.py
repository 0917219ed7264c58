"""The one family of errors that a user can meet.

::

    CoaxwrightError
    ├── source.ReadError            a file is not readable as the data we accept
    ├── design.QuantityError        a text is not a quantity of its dimension   (also ValueError)
    ├── design.NotUnderstood        a design breaks the schema: all problems of a file together
    ├── catalogue.CatalogueError    a catalogue file or entry is wrong
    ├── rules.RulesetError          a ruleset file, an edition or a rule name is wrong
    ├── findings.PunchListError     a file is not a punch list: all problems of it together
    ├── amend.ChangedMeanwhile      a file is no longer what it was when it was read
    ├── review.RepositoryError      git, the repository, the revision or a file of it cannot be had
    ├── review.SelectionError       a rule or topic is named that there is not
    ├── review.why.NoSuchSubject    a rule is asked of nothing that has the tag
    └── review.NothingToReview      no design was found, or settings leave all of them out
"""

from __future__ import annotations


class CoaxwrightError(Exception):
    """Something a user can mend; its text is complete and needs no traceback."""
