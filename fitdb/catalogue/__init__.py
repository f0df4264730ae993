"""The only room that knows SQL: what parts, interfaces, boards and remedies there are, in SQLite or PostgreSQL.

session      opening a catalogue: engine, migrations, shipped tables on first use
tables       the tables themselves; the two laws of readings stand there as constraints
read         from the tables to model values; `book` is everything a front door needs but the parts
write        saving one part against the version that was seen
exchange     export and import as directories of CSV
asked        what a person asked, looked up: ids, part files, readings of one's own
rows         how a model value stands in rows, and how it is built back; shared by files and database
seed         the shipped tables as one checked value; seed_sheets (headings), seed_files (reading them),
             seed_parts (interfaces and parts), seed_checks (what must hold between tables)
seeding      shipped tables into a catalogue, and new ones over old ones
paths        where migrations and shipped tables lie
"""
