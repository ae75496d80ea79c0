"""When a test is booked: what people say, what their clock means, and when to remind them.

The seams are `phrases` (words into a day and a time), `zones` (a clock into a zone, a time there
into an instant) and `plan` (a booking into its reminders). Pure: the present is always an
argument; zone rules come from the standard library's `zoneinfo`.

Under `phrases`, one step a module: `words`, `english`, `spanish` and `lexicon` (the vocabulary),
`tokens` (text into units), `clocks`, `days` and `grammar` (every way to read them, as `facts`),
`dates` and `hours` (what those can mean from today).
"""
