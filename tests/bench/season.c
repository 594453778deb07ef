/* season.c: a season of made-up tallies, in many files and in one. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <zlib.h>

/*
 * usage: season STATIONS DAYS FOLDER FILE
 *
 * Writes a tally per station and day of 2026 (at most 9999 and 365) under
 * FOLDER, in a folder per station, and every 28th once more under
 * FOLDER/copies, as sent twice; and the rows of all, without the copies, under
 * one header into FILE. The same arguments give the same bytes. Prints how many
 * files and how many rows. Shares no code with the program: its own checks.
 */
enum {
	SITES = 100,
	SEXES = 4,
	BANDS = 6,
	KINDS = SEXES * BANDS,
	DEPTHS = 8,
	LINE = 512,
	PATH = 4096,
	ONE_IN = 28
};

static const char header[] =
	"schema,programme,site,station,device,date,revision,state,policy,sex,"
	"age_band,screened,same_day,urgent,routine,no_referral,depth_0,"
	"depth_5,depth_15,depth_25,depth_40,depth_75,depth_100,not_gradable,"
	"with_symptoms,late_entries,row,rows,day_total,check\n";

/* One row's people: by urgency, by depth with not graded, and the two that
 * are some of them. */
struct kind {
	int place; /* sex and age band */
	int urgency[4], depth[DEPTHS];
	int screened, symptoms, late;
};

struct season {
	uint64_t seed;
	const char *folder;
	FILE *all;
	long files, rows;
};

/* Knuth's 64-bit linear congruential generator (MMIX; constants from
 * memory); the upper bits. */
static int
below(struct season *season, int limit)
{
	season->seed =
		season->seed * 6364136223846793005U + 1442695040888963407U;
	return (int)((season->seed >> 33) % (unsigned)limit);
}

static void
fail(const char *what)
{
	perror(what);
	exit(1);
}

static void
make_folder(const char *path)
{
	if (mkdir(path, 0700) != 0)
		fail(path);
}

static void
write_date(int day, char *date, size_t size)
{
	static const int days[12] = {31, 28, 31, 30, 31, 30,
				     31, 31, 30, 31, 30, 31};
	int month = 0;

	while (day >= days[month])
		day -= days[month++];
	snprintf(date, size, "2026-%02d-%02d", month + 1, day + 1);
}

static void
write_device(int station, char *device)
{
	unsigned long letters = (unsigned long)station * 48271 % 308915776;

	for (int i = 5; i >= 0; i--) {
		device[i] = (char)('A' + letters % 26);
		letters /= 26;
	}
	device[6] = '\0';
}

/* Seven letters over the values, joined by the byte 0x1F. No value here holds
 * a comma, so that the row's text has them all. */
static void
write_check(char *row, char *check)
{
	char values[LINE];
	unsigned long crc;
	size_t length = strlen(row);

	memcpy(values, row, length + 1);
	for (size_t i = 0; i < length; i++)
		if (values[i] == ',')
			values[i] = '\x1f';
	crc = crc32(0, (const Bytef *)values, (uInt)length);
	for (int i = 6; i >= 0; i--) {
		check[i] = (char)('A' + crc % 26);
		crc /= 26;
	}
	check[7] = '\0';
}

static void
make_kind(struct season *season, struct kind *kind)
{
	memset(kind->urgency, 0, sizeof kind->urgency);
	memset(kind->depth, 0, sizeof kind->depth);
	kind->screened = 1 + below(season, 12);
	kind->symptoms = kind->late = 0;
	for (int i = 0; i < kind->screened; i++) {
		int often = below(season, 20);

		kind->urgency[often == 0  ? 0
			      : often < 3 ? 1
			      : often < 7 ? 2
					  : 3]++;
		kind->depth[often == 10 && below(season, 4) == 0
				    ? 7
				    : 6 - below(season, DEPTHS) *
						      below(season, DEPTHS) /
						      DEPTHS]++;
		kind->symptoms += often < 2;
		kind->late += often == 19;
	}
}

/* The kinds of people of one day, in the order of the format: by sex, then by
 * age band. */
static int
make_day(struct season *season, struct kind kind[KINDS])
{
	int count = 0;

	for (int place = 0; place < KINDS; place++) {
		int sex = place / BANDS, band = place % BANDS;
		int rare = (sex > 1) + (band == BANDS - 1);

		if (below(season, 100) >= (rare > 0 ? 1 : 58))
			continue;
		kind[count].place = place;
		make_kind(season, &kind[count++]);
	}
	if (count == 0) {
		kind[0].place = 2;
		make_kind(season, &kind[count++]);
	}
	return count;
}

static void
write_row(const char *head, const struct kind *kind, int row, int rows,
	  int total, char *line)
{
	static const char *const sex[SEXES] = {"F", "M", "X", "unknown"};
	static const char *const band[BANDS] = {"0-39",	 "40-49", "50-59",
						"60-69", "70+",	  "unknown"};
	char *end = line;
	char check[8];

	end += snprintf(end, LINE, "%s,%s,%s,%d", head,
			sex[kind->place / BANDS], band[kind->place % BANDS],
			kind->screened);
	for (int i = 0; i < 4; i++)
		end += snprintf(end, 12, ",%d", kind->urgency[i]);
	for (int i = 0; i < DEPTHS; i++)
		end += snprintf(end, 12, ",%d", kind->depth[i]);
	end += snprintf(end, 80, ",%d,%d,%d,%d,%d", kind->symptoms, kind->late,
			row, rows, total);
	write_check(line, check);
	snprintf(end, 12, ",%s\n", check);
}

static void
write_file(const char *path, const char *rows)
{
	FILE *out = fopen(path, "w");

	if (out == NULL)
		fail(path);
	fputs(header, out);
	fputs(rows, out);
	if (fclose(out) != 0)
		fail(path);
}

static void
write_tally(struct season *season, int station, const char *date,
	    const char *rows)
{
	char path[PATH];

	snprintf(path, sizeof path, "%s/%04d/tally-%04d-%s-r1.csv",
		 season->folder, station, station, date);
	write_file(path, rows);
	fputs(rows, season->all);
	if (season->files++ % ONE_IN != 0)
		return;
	snprintf(path, sizeof path, "%s/copies/tally-%04d-%s-r1.csv",
		 season->folder, station, date);
	write_file(path, rows);
}

static void
make_tally(struct season *season, int station, int day)
{
	char head[200], date[32], device[8], rows[KINDS * LINE], *end = rows;
	struct kind kind[KINDS];
	int count = make_day(season, kind), total = 0;

	write_date(day, date, sizeof date);
	write_device(station, device);
	snprintf(head, sizeof head,
		 "shoal-tally-1,Lantern Valley Eye Programme,Camp site %03d,"
		 "%04d,%s,%s,1,closed,VYZXCS",
		 station % SITES, station, device, date);
	for (int i = 0; i < count; i++)
		total += kind[i].screened;
	for (int i = 0; i < count; i++) {
		write_row(head, &kind[i], i + 1, count, total, end);
		end += strlen(end);
	}
	season->rows += count;
	write_tally(season, station, date, rows);
}

int
main(int argc, char *argv[])
{
	struct season season = {.seed = 2026};
	char path[PATH];
	long stations, days;

	if (argc != 5)
		return 2;
	stations = strtol(argv[1], NULL, 10);
	days = strtol(argv[2], NULL, 10);
	if (stations < 1 || stations > 9999 || days < 1 || days > 365)
		return 2;
	season.folder = argv[3];
	season.all = fopen(argv[4], "w");
	if (season.all == NULL)
		fail(argv[4]);
	fputs(header, season.all);
	make_folder(season.folder);
	snprintf(path, sizeof path, "%s/copies", season.folder);
	make_folder(path);
	for (int station = 1; station <= stations; station++) {
		snprintf(path, sizeof path, "%s/%04d", season.folder, station);
		make_folder(path);
		for (int day = 0; day < days; day++)
			make_tally(&season, station, day);
	}
	if (fclose(season.all) != 0)
		fail(argv[4]);
	printf("%ld %ld\n", season.files + (season.files + ONE_IN - 1) / ONE_IN,
	       season.rows);
	return 0;
}
