"""New records from few answers: which questions a kind asks, and the record they make.

Answers are text, as typed at a prompt, given as an option, or written in a file. `draft` turns
them into plain data ready for `write_record`; it does no more than the answers say, and what
nobody was asked is `unknown` or left out.
"""

from builder.editing.drafts.drafting import DRAFTED_KINDS, draft, questions_of, read_one
from builder.editing.drafts.question import AnswerError, Answers, Question

__all__ = [
    "DRAFTED_KINDS",
    "AnswerError",
    "Answers",
    "Question",
    "draft",
    "questions_of",
    "read_one",
]
