-- +goose Up
-- The revisions are the book: everything else can be made from them again. They
-- are only ever added to. Times are RFC 3339 in UTC.
CREATE TABLE revision (
  n          INTEGER PRIMARY KEY, -- 1, 2, 3 and so on, without a gap
  id         TEXT    NOT NULL UNIQUE,
  sent       BLOB    NOT NULL, -- SHA-256 of the change as it was sent
  kind       TEXT    NOT NULL,
  job        TEXT    NOT NULL,
  subject    TEXT    NOT NULL,
  path       TEXT    NOT NULL,
  value      TEXT    NOT NULL,
  seen       TEXT    NOT NULL,
  base       INTEGER NOT NULL,
  device     TEXT    NOT NULL,
  seq        INTEGER NOT NULL,
  who        TEXT    NOT NULL,
  instrument TEXT    NOT NULL,
  made       TEXT    NOT NULL, -- by the clock of the device
  kept       TEXT    NOT NULL, -- by the clock of the book
  outcome    TEXT    NOT NULL,
  against    INTEGER NOT NULL, -- the revision it is in conflict with, or 0
  place      INTEGER NOT NULL, -- the splice of the text: at this byte
  cut        TEXT    NOT NULL, -- this was cut
  put        TEXT    NOT NULL, -- and this was put
  state      TEXT    NOT NULL, -- of the part, after it
  digest     BLOB    NOT NULL, -- SHA-256 of the part's text, after it
  hash       BLOB    NOT NULL  -- SHA-256 of the hash before and of all of the above
) STRICT;
CREATE INDEX revision_subject ON revision (subject, n);
CREATE INDEX revision_job ON revision (job, n);
CREATE INDEX revision_kept ON revision (kept, n);
CREATE UNIQUE INDEX revision_device ON revision (device, seq) WHERE seq > 0;

-- The parts as they are now.
CREATE TABLE part (
  n         INTEGER PRIMARY KEY, -- the revision that began it, which is its place in the job
  key       TEXT    NOT NULL UNIQUE,
  job       TEXT    NOT NULL,
  kind      TEXT    NOT NULL,
  file      TEXT    NOT NULL, -- of a job and of a file beside it: its name
  name      TEXT    NOT NULL, -- of an opening its id, of a job its name
  title     TEXT    NOT NULL, -- of an opening its name
  text      TEXT    NOT NULL,
  state     TEXT    NOT NULL,
  last      INTEGER NOT NULL, -- its latest revision
  changed   INTEGER NOT NULL, -- the latest that changed its text or state
  conflicts INTEGER NOT NULL  -- how many are open
) STRICT;
CREATE INDEX part_order ON part (job, kind, state, n, changed);
CREATE INDEX part_conflicts ON part (n) WHERE conflicts > 0;
CREATE INDEX part_name ON part (job, kind, name);

CREATE TABLE conflict (
  n       INTEGER PRIMARY KEY, -- the revision that was not carried out
  subject TEXT    NOT NULL,
  path    TEXT    NOT NULL,
  against INTEGER NOT NULL,
  settled INTEGER NOT NULL -- the revision that resolved it, or 0
) STRICT;
CREATE INDEX conflict_subject ON conflict (subject, settled);

-- What somebody who can reckon says of an opening, for lists. It is no part of
-- what was entered and can be reckoned again.
CREATE TABLE summary (
  part    INTEGER PRIMARY KEY,
  as_of   INTEGER NOT NULL, -- the revision of the book that it was reckoned at
  state   TEXT    NOT NULL,
  missing INTEGER NOT NULL,
  due     TEXT    NOT NULL,
  detail  TEXT    NOT NULL
) STRICT;
CREATE INDEX summary_state ON summary (state, part);
CREATE INDEX summary_due ON summary (due, part) WHERE due <> '';

CREATE VIRTUAL TABLE words USING fts5 (
  name, title, text, notes,
  content = '', contentless_delete = 1, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3'
);
