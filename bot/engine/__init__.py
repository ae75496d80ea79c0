"""What happens next: a pure machine over events, conversations and effects.

The seam is `advance(context, conversation, event) -> Transition` and `next_deadline(conversation)`.
No clock, no input or output, no chance, no async: the same history gives the same state.
"""
