-- tally.sql: a table for daily tallies, for SQLite and PostgreSQL alike.
--
-- A folder of tallies is loaded with one command; again with another folder
-- adds to it. The first makes the file year.db, the second needs a database
-- that is there, here one named year:
--
--     sqlite3 year.db '.read config/tally.sql' '.import --csv "|grep -rhv --include=tally-*.csv ^schema, tallies" tally'
--     psql -d year -f config/tally.sql -c "\copy tally from program 'grep -rhv --include=tally-*.csv ^schema, tallies' csv"
--
-- The database holds the rows to their sums and takes none twice. It does not
-- verify `check`, and does not know of two tallies that contradict each other:
-- let shoal collate look over the folder first, and load what it counted.

CREATE TABLE IF NOT EXISTS tally (
	schema varchar(15) NOT NULL CHECK (schema = 'shoal-tally-1'),
	programme varchar(120) NOT NULL,
	site varchar(120) NOT NULL,
	station char(4) NOT NULL,
	device char(6) NOT NULL,
	date date NOT NULL,
	revision integer NOT NULL,
	state varchar(6) NOT NULL CHECK (state IN ('open', 'closed')),
	policy char(6) NOT NULL,
	sex varchar(7) NOT NULL CHECK (sex IN ('F', 'M', 'X', 'unknown')),
	age_band varchar(11) NOT NULL,
	screened integer NOT NULL,
	same_day integer NOT NULL,
	urgent integer NOT NULL,
	routine integer NOT NULL,
	no_referral integer NOT NULL,
	depth_0 integer NOT NULL,
	depth_5 integer NOT NULL,
	depth_15 integer NOT NULL,
	depth_25 integer NOT NULL,
	depth_40 integer NOT NULL,
	depth_75 integer NOT NULL,
	depth_100 integer NOT NULL,
	not_gradable integer NOT NULL,
	with_symptoms integer NOT NULL CHECK (with_symptoms <= screened),
	late_entries integer NOT NULL CHECK (late_entries <= screened),
	row integer NOT NULL CHECK (row <= rows),
	rows integer NOT NULL,
	day_total integer NOT NULL CHECK (screened <= day_total),
	"check" char(7) NOT NULL,
	PRIMARY KEY (station, date, revision, row),
	CHECK (screened = same_day + urgent + routine + no_referral),
	CHECK (screened = depth_0 + depth_5 + depth_15 + depth_25 + depth_40
		+ depth_75 + depth_100 + not_gradable)
);

-- Of one station and date the highest revision alone: what is to be summed.
DROP VIEW IF EXISTS tally_counted;
CREATE VIEW tally_counted AS
SELECT * FROM tally WHERE revision = (
	SELECT max(revision) FROM tally other
	WHERE other.station = tally.station AND other.date = tally.date);
