/* test_attendance.c: time to attendance, against published curves. */
#include "counts/attendance.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Days of the data sets aml (Miller 1997) and lung (Loprinzi 1994) that come
 * with R's survival package; + = still awaited. */
static const char maintained[] = "9 13 13+ 18 23 28+ 31 34 45+ 48 161+";
static const char nonmaintained[] = "5 5 8 8 12 16+ 23 27 30 33 43 45";
static const char aml[] = "9 13 13+ 18 23 28+ 31 34 45+ 48 161+ "
			  "5 5 8 8 12 16+ 23 27 30 33 43 45";
static const char own[] = "3 5 5+ 7 9+ 12 14 14 20+ 30 31 45+ 60+";
/* clang-format off */
static const char lung[] =
	"5 11 11 11 12 13 13 15 26 30 31 53 53 54 59 60 60 61 62 65 65 "
	"71 79 81 81 88 88 92 92+ 93 95 95 105 105+ 107 107 110 116 "
	"118 122 131 132 132 135 142 144 145 145 147 153 156 156 163 "
	"163 163 166 166 167 170 173+ 174+ 175 175+ 176 177 177+ 179 "
	"179 180 181 181 182 183 185+ 186 188+ 189 191+ 192+ 194 196+ "
	"197 197+ 199 201 201 202 202+ 203+ 207 208 210 211+ 212 218 "
	"221+ 222 222+ 223 224+ 225+ 225+ 226 229 230 235+ 237+ 239 "
	"239 240+ 243+ 245 246 252+ 259+ 266+ 267 268 269 269+ 270 "
	"272+ 276+ 279+ 283 284 284+ 285 285 286 288 291 292+ 292+ 293 "
	"296+ 300+ 301 301+ 303 303+ 305 306 310 310 315+ 320 329 332+ "
	"337 340 345 348 350 351 353 353 356+ 361 363 363 364 364+ 371 "
	"371 376+ 382+ 384+ 387 390 394 404+ 413+ 426 428 429 433 442 "
	"444 444+ 450 455 457 458+ 460 473 477 511+ 511+ 519 520 524 "
	"524 529+ 533 543+ 550 551+ 558 559+ 567 574 583 588+ 613 624 "
	"641 643 654 655 687 689 705 707 728 731 735 740+ 765 791 806+ "
	"814 821+ 840+ 883 965+ 1010+ 1022+ ";
/* clang-format on */

static void
fill(struct attendance *attendance, const char *days)
{
	struct fault why;
	char *end;

	attendance_init(attendance);
	for (const char *at = days; *at != '\0';) {
		long day = strtol(at, &end, 10);
		bool came = *end != '+';

		cr_assert(attendance_add(attendance, (int)day, came, &why));
		at = came ? end : end + 1;
		while (*at == ' ')
			at++;
	}
}

/* Computed with R's survfit(), conf.type "log-log". */
Test(attendance, the_share_attended_agrees_with_r)
{
	static const struct {
		const char *days;
		int by;
		long at_risk;
		double share, error, low, high;
	} rows[] = {
		{maintained, 30, 5, 0.386363636363636, 0.152632331027312,
		 0.164700756749779, 0.734247959998714},
		{nonmaintained, 30, 4, 0.708333333333333, 0.138715169134987,
		 0.439113947328591, 0.927598391092228},
		{aml, 30, 9, 0.55831608005521, 0.109518069977657,
		 0.362907312540112, 0.772618831537457},
		{lung, 30, 219, 0.0438596491228072, 0.0135620698333643,
		 0.0238419847032822, 0.0799812405135267},
		{own, 30, 4, 0.643028846153846, 0.152886397979657,
		 0.366191560871163, 0.902406537300155},
		{"1 2 30+ 30+ 30+ 30+", 30, 4, 0.333333333333333,
		 0.192450089729875, 0.0955658356774836, 0.805383363193765},
		{"5 10 12+ 40+", 30, 1, 0.5, 0.25, 0.155138718809626,
		 0.942152917004855},
		/* Other days of the curve. */
		{maintained, 9, 11, 1 - 0.909090909090909, 0.0866784172041448,
		 1 - 0.986673822667823, 1 - 0.50808020576993},
		{maintained, 161, 1, 1 - 0.184090909090909, 0.153492745786294,
		 1 - 0.525014842726641, 1 - 0.0117384801231896},
		{nonmaintained, 43, 2, 1 - 0.0972222222222222,
		 0.0918663649675205, 1 - 0.34890386111075,
		 1 - 0.00574630569586383},
	};
	struct attendance attendance;
	struct attendance_share got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		fill(&attendance, rows[i].days);
		cr_assert(attendance_by(&attendance, rows[i].by, &got, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_leq(fabs(got.share - rows[i].share), 1e-13,
			      "row %zu: %.15g", i, got.share);
		cr_expect_leq(fabs(got.error - rows[i].error), 1e-13,
			      "row %zu: %.15g", i, got.error);
		cr_expect_eq(got.at_risk, rows[i].at_risk, "row %zu: %ld", i,
			     got.at_risk);
		cr_expect_eq(got.kind, ATTENDANCE_LOG_LOG, "row %zu", i);
		cr_expect_leq(fabs(got.interval.low - rows[i].low), 1e-12,
			      "row %zu: %.15g", i, got.interval.low);
		cr_expect_leq(fabs(got.interval.high - rows[i].high), 1e-12,
			      "row %zu: %.15g", i, got.interval.high);
	}
}

/* R's survfit(), log-log; 31 and 310 are the familiar medians of its printed
 * examples (from memory). Where half are left exactly, R takes the middle of
 * the flat stretch (25 and 2.5 in the last rows); this is the textbook's. */
Test(attendance, the_median_agrees_with_r_or_with_the_textbook)
{
	static const struct {
		const char *days;
		struct attendance_median is;
	} rows[] = {
		{maintained, {31, 13, -1}},
		{nonmaintained, {23, 5, 33}},
		{aml, {27, 13, 34}},
		{lung, {310, 284, 361}},
		{own, {14, 7, -1}},
		{"1 2 3 4 5", {3, 1, -1}},
		{"0 0 0 2 2", {0, 0, -1}},
		{"10+ 20+ 30+ 40+", {-1, -1, -1}},
		{"5 10 12+ 40+", {10, 5, -1}},
		{"1 2 3 4", {2, 1, -1}},
		{"1 2 30+ 30+ 30+ 30+", {-1, 1, -1}},
	};
	struct attendance attendance;
	struct attendance_median got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		fill(&attendance, rows[i].days);
		cr_assert(attendance_median(&attendance, &got, &why));
		cr_expect_eq(got.day, rows[i].is.day, "row %zu: %d", i,
			     got.day);
		cr_expect_eq(got.low, rows[i].is.low, "row %zu: low %d", i,
			     got.low);
		cr_expect_eq(got.high, rows[i].is.high, "row %zu: high %d", i,
			     got.high);
	}
}

/* With nobody or everybody the log-log interval is 0/0. 0.434 and 0.722 are
 * Wilson's limits for 0 and 5 of 5 and 10 of 10. */
Test(attendance, nobody_or_everybody_has_wilsons_interval_or_none)
{
	static const struct {
		const char *days;
		int by;
		double share;
		enum attendance_interval kind;
		double low, high;
	} rows[] = {
		{"0 0 0 2 2", 30, 1, ATTENDANCE_WILSON, 0.565517535216825, 1},
		{"31 40+ 50 60 70", 30, 0, ATTENDANCE_WILSON, 0,
		 0.434482464783175},
		{"30+ 40+ 50 60 70", 30, 0, ATTENDANCE_WILSON, 0,
		 0.434482464783175},
		{"10+ 20+ 30+ 40+", 30, 0, ATTENDANCE_NO_INTERVAL, 0, 0},
		{"3 5+ 9", 30, 1, ATTENDANCE_NO_INTERVAL, 0, 0},
	};
	struct attendance attendance;
	struct attendance_share got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		fill(&attendance, rows[i].days);
		cr_assert(attendance_by(&attendance, rows[i].by, &got, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_eq(got.share, rows[i].share, "row %zu", i);
		cr_expect(got.error == 0 && !signbit(got.error) &&
				  !signbit(got.share),
			  "row %zu", i);
		cr_expect_eq(got.kind, rows[i].kind, "row %zu: %d", i,
			     (int)got.kind);
		cr_expect_leq(fabs(got.interval.low - rows[i].low), 1e-12,
			      "row %zu", i);
		cr_expect_leq(fabs(got.interval.high - rows[i].high), 1e-12,
			      "row %zu", i);
	}
}

Test(attendance, what_was_not_followed_is_not_estimated)
{
	static const struct {
		const char *days;
		int by;
		const char *sentence;
	} rows[] = {
		{"", 30, "nobody was counted"},
		{"1 5+ 12+", 30,
		 "nobody was followed for 30 days yet; the longest is 12"},
		{"1 5+ 12+", 13,
		 "nobody was followed for 13 days yet; the longest is 12"},
		{"3+", -1, "day -1 is out of range; allowed are 0 to 1096"},
		{"3+", 1097, "day 1097 is out of range; allowed are 0 to 1096"},
	};
	struct attendance attendance;
	struct attendance_median median;
	struct attendance_share got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		fill(&attendance, rows[i].days);
		cr_expect_not(attendance_by(&attendance, rows[i].by, &got,
					    &why),
			      "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
	}
	attendance_init(&attendance);
	cr_expect_not(attendance_median(&attendance, &median, &why));
	cr_expect_not(attendance_add(&attendance, -2, true, &why));
	cr_expect_str_eq(why.sentence, "2 days before the referral cannot be; "
				       "allowed is the day of the referral or "
				       "later");
	cr_expect_eq(attendance.people, 0);
}

/* Beyond the last day that is kept, who came counts as awaited so far. */
Test(attendance, years_later_is_later)
{
	struct attendance attendance;
	struct attendance_median median;
	struct attendance_share got;
	struct fault why;

	fill(&attendance, "5 1096 1097 1097+ 90000");
	cr_assert(attendance_by(&attendance, 1096, &got, &why));
	cr_expect_leq(fabs(got.share - 0.4), 1e-15);
	cr_expect_eq(got.at_risk, 4);
	cr_assert(attendance_median(&attendance, &median, &why));
	cr_expect_eq(median.day, ATTENDANCE_NOT_REACHED);
}
