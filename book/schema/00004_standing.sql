-- +goose Up
-- How the live openings stand in lists: the state of their summary, and whether something was changed since it was
-- made. It follows from parts and summaries and is kept beside them, since to count a large book, or to find
-- what nobody reckoned yet, went through all of it each time.
CREATE TABLE standing (
  part  INTEGER PRIMARY KEY,
  job   TEXT    NOT NULL,
  state TEXT    NOT NULL, -- of the summary, empty where there is none
  stale INTEGER NOT NULL  -- 1 where there is none, or an old one
) STRICT;
CREATE INDEX standing_stale ON standing (part) WHERE stale = 1;
CREATE INDEX standing_stale_job ON standing (job, part) WHERE stale = 1;

-- How many there are of each, in each job.
CREATE TABLE tally (
  job   TEXT    NOT NULL,
  state TEXT    NOT NULL,
  n     INTEGER NOT NULL,
  PRIMARY KEY (job, state)
) STRICT, WITHOUT ROWID;

-- +goose StatementBegin
CREATE TRIGGER tally_in AFTER INSERT ON standing BEGIN
  INSERT INTO tally VALUES (NEW.job, NEW.state, 1) ON CONFLICT (job, state) DO UPDATE SET n = n + 1;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER tally_out AFTER DELETE ON standing BEGIN
  UPDATE tally SET n = n - 1 WHERE job = OLD.job AND state = OLD.state;
  DELETE FROM tally WHERE job = OLD.job AND state = OLD.state AND n = 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER tally_over AFTER UPDATE OF state ON standing WHEN OLD.state <> NEW.state BEGIN
  INSERT INTO tally VALUES (NEW.job, NEW.state, 1) ON CONFLICT (job, state) DO UPDATE SET n = n + 1;
  UPDATE tally SET n = n - 1 WHERE job = OLD.job AND state = OLD.state;
  DELETE FROM tally WHERE job = OLD.job AND state = OLD.state AND n = 0;
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER opening_in AFTER INSERT ON part WHEN NEW.kind = 'opening' AND NEW.state = 'live' BEGIN
  INSERT INTO standing VALUES (NEW.n, NEW.job, coalesce((SELECT state FROM summary WHERE part = NEW.n), ''), 1);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER opening_over AFTER UPDATE ON part WHEN NEW.kind = 'opening' BEGIN
  DELETE FROM standing WHERE part = NEW.n AND NEW.state <> 'live';
  INSERT INTO standing SELECT NEW.n, NEW.job, coalesce((SELECT state FROM summary WHERE part = NEW.n), ''), 1
    WHERE NEW.state = 'live' AND NOT EXISTS (SELECT 1 FROM standing WHERE part = NEW.n);
  UPDATE standing SET stale = 1 WHERE part = NEW.n AND stale = 0 AND OLD.last <> NEW.last;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER opening_out AFTER DELETE ON part BEGIN
  DELETE FROM standing WHERE part = OLD.n;
END;
-- +goose StatementEnd
-- What stands around the openings is shared by all of them.
-- +goose StatementBegin
CREATE TRIGGER shared_in AFTER INSERT ON part WHEN NEW.kind <> 'opening' BEGIN
  UPDATE standing SET stale = 1 WHERE job = NEW.job AND stale = 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER shared_over AFTER UPDATE ON part WHEN NEW.kind <> 'opening' AND OLD.changed <> NEW.changed BEGIN
  UPDATE standing SET stale = 1 WHERE job = NEW.job AND stale = 0;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER summary_in AFTER INSERT ON summary BEGIN
  UPDATE standing SET state = NEW.state, stale = NEW.as_of < max(
    (SELECT last FROM part WHERE n = NEW.part),
    (SELECT max(changed) FROM part WHERE part.job = standing.job AND kind <> 'opening')) WHERE part = NEW.part;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER summary_over AFTER UPDATE ON summary BEGIN
  UPDATE standing SET state = NEW.state, stale = NEW.as_of < max(
    (SELECT last FROM part WHERE n = NEW.part),
    (SELECT max(changed) FROM part WHERE part.job = standing.job AND kind <> 'opening')) WHERE part = NEW.part;
END;
-- +goose StatementEnd

INSERT INTO standing SELECT p.n, p.job, coalesce(s.state, ''), coalesce(s.as_of, 0) < max(p.last, shared.changed)
  FROM part p JOIN (SELECT job, max(changed) AS changed FROM part WHERE kind <> 'opening' GROUP BY job) shared ON shared.job = p.job
  LEFT JOIN summary s ON s.part = p.n WHERE p.kind = 'opening' AND p.state = 'live';
