-- A record is its line; the other columns find it, and say what the line says.
CREATE TABLE record (
    device TEXT NOT NULL,
    seq INTEGER NOT NULL,
    kind TEXT NOT NULL,
    v INTEGER NOT NULL,
    -- the round that it is part of
    round_device TEXT,
    round_seq INTEGER,
    line TEXT NOT NULL,
    PRIMARY KEY (device, seq)
) STRICT;

CREATE INDEX record_of_round ON record (round_device, round_seq, kind) WHERE round_device IS NOT NULL;

-- Records that say something else in a place that is taken: kept, passed on, never replayed.
CREATE TABLE apart (
    device TEXT NOT NULL,
    seq INTEGER NOT NULL,
    line TEXT NOT NULL
) STRICT;

CREATE INDEX apart_in_order ON apart (device, seq);

-- What this file is called as a device that writes records.
CREATE TABLE own (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
