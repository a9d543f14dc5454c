-- +goose Up
-- Who may reach the book over a network. Package account keeps these; they are no part
-- of what was entered, and no seal covers them. Times are RFC 3339 in UTC.
CREATE TABLE account (
  n        INTEGER PRIMARY KEY AUTOINCREMENT,
  name     TEXT    NOT NULL UNIQUE,
  role     TEXT    NOT NULL,
  customer TEXT    NOT NULL, -- of an owner: whose jobs they see
  hash     TEXT    NOT NULL, -- of the password, with salt and parameters
  epoch    INTEGER NOT NULL, -- sessions begun under an earlier one have ended
  disabled INTEGER NOT NULL,
  made     TEXT    NOT NULL
) STRICT;

CREATE TABLE token (
  n         INTEGER PRIMARY KEY AUTOINCREMENT,
  account   INTEGER NOT NULL,
  hash      BLOB    NOT NULL UNIQUE, -- SHA-256 of the token
  purpose   TEXT    NOT NULL,
  role      TEXT    NOT NULL,
  made      TEXT    NOT NULL,
  ends      TEXT    NOT NULL, -- empty: never
  used      TEXT    NOT NULL, -- day of the last use, empty: never
  withdrawn TEXT    NOT NULL  -- empty: not
) STRICT;

CREATE TABLE session (
  hash TEXT PRIMARY KEY, -- of the token that the browser holds
  data BLOB NOT NULL,
  ends TEXT NOT NULL
) STRICT;
CREATE INDEX session_ends ON session (ends);

-- What happened at the door. Rows are only ever added.
CREATE TABLE sign_in (
  n       INTEGER PRIMARY KEY AUTOINCREMENT,
  at      TEXT NOT NULL,
  what    TEXT NOT NULL,
  name    TEXT NOT NULL, -- of the account; empty where nobody has the one that was typed
  address TEXT NOT NULL,
  detail  TEXT NOT NULL
) STRICT;
