"""One test as a FHIR R4 document: what a care team's own system can take in.

The seam is `bundle(case)`. What machines read (codes, displays, question texts) is the same in
every language; what people read (title of a section, narrative, conclusion, notes) is in the
language asked for. The same case gives the same bytes.

A document, not a collection: it has a stated subject, author and order of reading, an identifier
and a time of its own, and text that a person can read without any program that knows the codes.
A collection is only a heap of resources, and says none of that. A transaction would tell the
receiver what to do with its own data, which is not for the sender to say.
"""

from bot.reports.fhir.case import Case
from bot.reports.fhir.document import bundle

__all__ = ["Case", "bundle"]
