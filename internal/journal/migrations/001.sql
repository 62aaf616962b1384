-- Times are microseconds since 1970 in UTC; yes and no are 1 and 0.

CREATE TABLE talks (
    id    TEXT   NOT NULL PRIMARY KEY,
    turns BIGINT NOT NULL,
    begun BIGINT NOT NULL,
    last  BIGINT NOT NULL,
    title TEXT   NOT NULL,
    due   BIGINT -- NULL where nothing is
);
CREATE INDEX talks_due ON talks (due) WHERE due IS NOT NULL;
CREATE INDEX talks_last ON talks (last);

CREATE TABLE lines (
    talk  TEXT   NOT NULL REFERENCES talks (id),
    turn  BIGINT NOT NULL,
    ref   TEXT   NOT NULL,
    asks  BIGINT NOT NULL, -- the bits of an unsigned number
    at    BIGINT NOT NULL,
    say   TEXT   NOT NULL,
    title TEXT   NOT NULL,
    event TEXT   NOT NULL, -- JSON
    PRIMARY KEY (talk, turn)
);
CREATE UNIQUE INDEX lines_ref ON lines (talk, ref) WHERE ref <> '';

-- A note may come without its talk, from a sheet.
CREATE TABLE notes (
    id      TEXT   NOT NULL PRIMARY KEY,
    talk    TEXT   NOT NULL,
    kind    TEXT   NOT NULL,
    at      BIGINT NOT NULL,
    problem TEXT   NOT NULL,
    cause   TEXT   NOT NULL,
    helped  BIGINT NOT NULL,
    words   TEXT   NOT NULL, -- folded, to look in
    note    TEXT   NOT NULL  -- JSON, the whole of it
);
CREATE INDEX notes_talk ON notes (talk);
CREATE INDEX notes_at ON notes (at);
CREATE INDEX notes_problem ON notes (problem, cause);

-- Notes that were taken out, so that their talk does not bring them back.
CREATE TABLE forgotten (
    id TEXT NOT NULL PRIMARY KEY
);

CREATE TABLE numbers (
    kind TEXT   NOT NULL PRIMARY KEY,
    last BIGINT NOT NULL
);
