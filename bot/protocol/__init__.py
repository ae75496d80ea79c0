"""What is measured: protocol definitions as data, and the record of one test.

`definition` holds the shapes, `released` the definitions that clinics use,
`check` proves a definition sound, `record` holds what was measured.
Pure: no third party, no clock, no input or output.
"""
