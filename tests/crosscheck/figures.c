/* figures.c: the program's arithmetic as lines of text, to compare with R.
 *
 * Each line of standard input is a word and whole numbers; each answer is a
 * line of figures, "-" for what is not estimable:
 *   wilson X N              low high
 *   kappa K CELLS...        for no, linear, quadratic weights: kappa error
 *   ratios TP FP FN TN      positive: ratio low high; negative: the same
 *   sample S1 R1 U1 S0 R0 U0  sensitivity error; specificity error
 *   area K DISEASED... HEALTHY...  area error
 *   attended DAY N (DAY CAME)...  share error low high; median low high
 */
#include "counts/accuracy.h"
#include "counts/agreement.h"
#include "counts/attendance.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBERS_MOST = 4000 };

struct numbers {
	int count;
	long value[NUMBERS_MOST];
};

static void
read_numbers(char *text, struct numbers *numbers)
{
	char *end = text;

	numbers->count = 0;
	while (numbers->count < NUMBERS_MOST) {
		long value = strtol(text, &end, 10);

		if (end == text)
			return;
		numbers->value[numbers->count++] = value;
		text = end;
	}
}

static void
print(bool known, int count, const double *figures)
{
	for (int i = 0; i < count; i++)
		if (known)
			printf("%.17g ", figures[i]);
		else
			printf("- ");
}

static void
print_estimate(bool known, const struct accuracy_estimate *estimate, bool all)
{
	const double figures[] = {estimate->value, estimate->error};
	const double limits[] = {estimate->interval.low,
				 estimate->interval.high};

	print(known, all ? 1 : 2, figures);
	if (all)
		print(known, 2, limits);
}

static void
answer_wilson(const long *value)
{
	struct rates_interval limits = {0, 0};
	struct fault none;
	bool known =
		rates_wilson(value[0], value[1], rates_z_95, &limits, &none);

	print(known, 2, (const double[]){limits.low, limits.high});
}

static void
answer_kappa(const long *value)
{
	struct agreement_table table;
	struct fault none;

	agreement_init(&table, (int)value[0]);
	for (int i = 0; i < table.grades * table.grades; i++)
		table.count[i / table.grades][i % table.grades] = value[i + 1];
	for (int i = 0; i < AGREEMENT_WEIGHTS; i++) {
		struct accuracy_estimate kappa = {0};
		bool known = agreement_kappa(&table, (enum agreement_weights)i,
					     &kappa, &none);

		print_estimate(known, &kappa, false);
	}
}

static void
answer_ratios(const long *value)
{
	struct accuracy_table table = {value[0], value[1], value[2], value[3]};
	struct fault none;

	for (int i = 0; i < 2; i++) {
		struct accuracy_estimate ratio = {0};
		bool known = accuracy_likelihood(&table, i == 0, &ratio, &none);

		print_estimate(known, &ratio, true);
	}
}

static void
answer_sample(const long *value)
{
	struct accuracy_sample sample = {{value[0], value[1], value[2]},
					 {value[3], value[4], value[5]}};
	struct fault none;

	for (int i = 0; i < 2; i++) {
		struct accuracy_estimate share = {0};
		bool known = accuracy_corrected(&sample,
						i == 0 ? ACCURACY_SENSITIVITY
						       : ACCURACY_SPECIFICITY,
						&share, &none);

		print_estimate(known, &share, false);
	}
}

static void
answer_area(const long *value)
{
	long long diseased[NUMBERS_MOST], healthy[NUMBERS_MOST];
	struct accuracy_estimate area = {0};
	struct fault none;
	int grades = (int)value[0];
	bool known;

	for (int i = 0; i < grades; i++) {
		diseased[i] = value[1 + i];
		healthy[i] = value[1 + grades + i];
	}
	known = accuracy_area(diseased, healthy, grades, &area, &none);
	print_estimate(known, &area, false);
}

static void
answer_attended(const long *value)
{
	struct attendance attendance;
	struct attendance_share share;
	struct attendance_median median = {-1, -1, -1};
	struct fault none;
	bool known;

	attendance_init(&attendance);
	for (long i = 0; i < value[1]; i++)
		attendance_add(&attendance, (int)value[2 + 2 * i],
			       value[3 + 2 * i] == 1, &none);
	known = attendance_by(&attendance, (int)value[0], &share, &none);
	print(known, 2, (const double[]){share.share, share.error});
	print(known && share.kind == ATTENDANCE_LOG_LOG, 2,
	      (const double[]){share.interval.low, share.interval.high});
	attendance_median(&attendance, &median, &none);
	printf("%d %d %d ", median.day, median.low, median.high);
}

static const struct {
	const char *word;
	void (*answer)(const long *value);
} answers[] = {
	{"wilson", answer_wilson}, {"kappa", answer_kappa},
	{"ratios", answer_ratios}, {"sample", answer_sample},
	{"area", answer_area},	   {"attended", answer_attended},
};

int
main(void)
{
	static char line[NUMBERS_MOST * 8];
	static struct numbers numbers;

	while (fgets(line, sizeof line, stdin) != NULL) {
		size_t word = strcspn(line, " ");

		read_numbers(line + word, &numbers);
		for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++)
			if (strncmp(line, answers[i].word, word) == 0)
				answers[i].answer(numbers.value);
		putchar('\n');
	}
	return 0;
}
