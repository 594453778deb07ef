/* Tests of keep/batchfile: yields are read with the same care as tallies. */
#include "keep/batchfile.h"

#include "tallycase.h"

static const char yield_header[] =
	"schema,programme,site,station,device,month,revision,as_of,"
	"hidden_quadrants,policy,urgency,rule,depth,people,attended,elsewhere,"
	"not_attended,unknown,in_time,open,suspect,closure,closure_glaucoma,"
	"closed,not_derivable,cost,sees_well,too_far,no_companion,"
	"other_illness,not_understood,died,other,not_known,chosen,row,rows,"
	"month_total,check";

/* A month of two rows. */
static void
yield_begin(struct casetable *table)
{
	static const char head[] = "shoal-yield-1,Lantern Valley,Mavi "
				   "school,0014,QWERTZ,"
				   "2026-03-01,999999,2026-05-02,2,VYZXCS";

	table->rows = 0;
	case_split(yield_header, table);
	case_add(table, head,
		 "routine,shallow,25,9,4,1,2,2,1,1,1,0,1,1,0,1,0,0,0,0,0,1,0,0,"
		 "0,1,2,12");
	case_add(table, head,
		 "no_referral,none,100,3,1,0,0,2,0,1,0,0,0,0,0,0,0,0,0,0,0,0,0,"
		 "0,2,2,2,12");
}

struct reading {
	struct batchfile *file;
	int batches, people, unknown, chosen, quadrants, revision;
	struct refusal refusal;
};

static bool
see(void *context, const struct batch *batch, long long place,
    struct fault *why)
{
	struct reading *reading = context;
	const struct yieldgather *yield = &reading->file->of.yield.gather;

	(void)why;
	reading->batches++;
	if (!batchfile_holds_yields(reading->file))
		return true;
	cr_expect(batch == &yield->batch && place < 0);
	reading->revision = batch->revision;
	for (int i = 0; i < batch->count; i++) {
		reading->people += yield->row[i].counts.people;
		reading->unknown += yield->row[i].counts.unknown;
		reading->chosen += yield->row[i].chosen;
		reading->quadrants = yield->row[i].hidden_quadrants;
	}
	return true;
}

static void
reading_begin(struct reading *reading, const struct batch_kind *kind)
{
	memset(reading, 0, sizeof *reading);
	reading->file = malloc(sizeof *reading->file);
	cr_assert_not_null(reading->file);
	batchfile_begin(reading->file, kind);
}

static enum tallyfile_end
read_text(struct reading *reading, const char *text, size_t length)
{
	FILE *bytes = tmpfile();
	enum tallyfile_end end;
	struct fault why;

	cr_assert_not_null(bytes);
	fwrite(text, 1, length, bytes);
	fflush(bytes);
	reading->batches = reading->people = 0;
	reading->unknown = reading->chosen = 0;
	reading->refusal.column = "";
	end = batchfile_read(reading->file, fileno(bytes), (long long)length,
			     false, see, reading, &reading->refusal, &why);
	fclose(bytes);
	return end;
}

Test(batchfile, a_yield_saved_again_is_the_same_yield)
{
	static const struct casestyle styles[] = {
		{"", ',', "\n", false, "", false},
		{"sep=;\r\n", ';', "\r\n", true, "", false},
		{"\xef\xbb\xbf", '\t', "\r\n", false, "\t\t", true},
		{"", ',', "\n", true, ",", true}};
	char text[CASE_SIZE];
	struct casetable table;
	struct reading reading;

	yield_begin(&table);
	reading_begin(&reading, &yieldgather_kind);
	for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
		size_t length = case_write(&table, &styles[i], text);

		cr_expect_eq(read_text(&reading, text, length), TALLYFILE_READ,
			     "row %zu: %s", i, reading.refusal.fault.sentence);
		cr_expect(reading.batches == 1 && reading.people == 12 &&
				  reading.unknown == 4 && reading.chosen == 2 &&
				  reading.quadrants == 2 &&
				  reading.revision == 999999,
			  "row %zu", i);
	}
	free(reading.file);
}

/* A station whose policy has no [gonioscopy] derives no class. */
Test(batchfile, hidden_quadrants_may_be_empty_and_nothing_else)
{
	char text[CASE_SIZE];
	struct casetable table;
	struct reading reading;

	reading_begin(&reading, &yieldgather_kind);
	yield_begin(&table);
	for (int i = 0; i < table.columns - 1; i++) {
		size_t length;
		bool may = strcmp(table.value[0][i], "hidden_quadrants") == 0;

		yield_begin(&table);
		for (int row = 1; row < table.rows; row++) {
			table.value[row][i][0] = '\0';
			case_sign(&table, row);
		}
		length = case_write(&table, &case_own, text);
		cr_expect_eq(read_text(&reading, text, length),
			     may ? TALLYFILE_READ : TALLYFILE_REFUSED, "%s",
			     table.value[0][i]);
		cr_expect(!may || reading.quadrants == FIELD_BLANK);
		cr_expect(may || strcmp(reading.refusal.column,
					table.value[0][i]) == 0,
			  "%s: %s", table.value[0][i], reading.refusal.column);
	}
	free(reading.file);
}

Test(batchfile, every_prefix_of_a_yield_is_refused)
{
	char text[CASE_SIZE];
	struct casetable table;
	struct reading reading;
	size_t length;

	yield_begin(&table);
	length = case_write(&table, &case_own, text);
	reading_begin(&reading, &yieldgather_kind);
	for (size_t i = 0; i + 1 < length; i++)
		cr_assert_eq(read_text(&reading, text, i), TALLYFILE_REFUSED,
			     "%zu of %zu bytes", i, length);
	free(reading.file);
}

Test(batchfile, every_digit_and_letter_of_a_yield_changed_is_refused)
{
	char text[CASE_SIZE];
	struct casetable table;
	struct reading reading;
	size_t length;

	yield_begin(&table);
	length = case_write(&table, &case_own, text);
	reading_begin(&reading, &yieldgather_kind);
	for (size_t i = strlen(yield_header) + 1; i < length; i++) {
		static const char others[] = "019Aa ";
		char was = text[i];

		for (size_t j = 0;
		     strchr(",\n", was) == NULL && j < sizeof others - 1; j++) {
			text[i] = others[j];
			cr_assert(was == others[j] ||
					  read_text(&reading, text, length) ==
						  TALLYFILE_REFUSED,
				  "byte %zu, '%c' made '%c', was read", i, was,
				  others[j]);
		}
		text[i] = was;
	}
	free(reading.file);
}

/* Each is named, with what to do, where the other is wanted. */
Test(batchfile, tallies_and_yields_are_told_apart)
{
	char text[CASE_SIZE];
	struct casetable table;
	struct reading reading;

	case_begin(&table);
	reading_begin(&reading, &yieldgather_kind);
	cr_expect_eq(read_text(&reading, text,
			       case_write(&table, &case_own, text)),
		     TALLYFILE_REFUSED);
	cr_expect(reading.refusal.passed_over);
	cr_expect_str_eq(reading.refusal.fault.sentence, "it is a tally; "
							 "'shoal collate' "
							 "without --yields "
							 "adds tallies up");
	free(reading.file);
	yield_begin(&table);
	reading_begin(&reading, &gather_kind);
	cr_expect_eq(read_text(&reading, text,
			       case_write(&table, &case_own, text)),
		     TALLYFILE_REFUSED);
	cr_expect(reading.refusal.passed_over);
	cr_expect_str_eq(reading.refusal.fault.sentence, "it is a yield; "
							 "'shoal collate "
							 "--yields' adds "
							 "yields up");
	free(reading.file);
}
