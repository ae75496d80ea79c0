"""A synthetic cohort: people whose true course is known take tests, and the findings are counted.

`population` holds the groups of people and their figures with sources, `people` draws a person,
`courses` says what is true at each moment, `preparation` what a day changes, `devices` what a
display shows of it, `messages` what is typed and understood, `taking` makes the record of a test,
`truth` says which lines the true numbers reach, `tallies` counts, `figures` turns counts into
shares, `export` into plain data. All of these are pure but for the chance (`random.Random`) handed
to them. `trials` takes people through them all, `running` shares the work out over processes, and
`showing` prints.

No person's data is in it. The groups are named by what their numbers do; that says nothing about
why, and their shares are not those of any population.
"""
