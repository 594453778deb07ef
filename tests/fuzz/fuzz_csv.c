/* fuzz_csv.c: what is read as CSV is written so that it reads the same, and
 * nothing that is not text comes through.
 *
 * seeds: tests/fuzz/seeds/csv tests/fuzz/seeds/people tests/fuzz/seeds/sheet
 * options: -max_len=800
 */
#include "fuzz.h"
#include "keep/csv.h"

/* Writes the rows that it sees. */
static bool
see(void *context, const struct csv_row *row, struct fault *why)
{
	FILE *out = context;

	(void)why;
	for (size_t i = 0; i < row->count; i++) {
		FUZZ_HOLD(text_is_utf8(row->value[i], strlen(row->value[i])));
		csv_write_value(out, row->value[i], i == 0);
	}
	csv_end_row(out);
	return true;
}

/* The rows as they are written again; NULL when the bytes are refused. */
static char *
written(const void *bytes, size_t length, bool resaved, size_t *size)
{
	struct fault why = {FAULT_NONE, ""};
	FILE *in = length == 0
			   ? fopen("/dev/null", "re")
			   : fmemopen((void *)(uintptr_t)bytes, length, "r");
	char *rows = NULL;
	FILE *out = open_memstream(&rows, size);
	bool done;

	FUZZ_HOLD(in != NULL && out != NULL);
	done = resaved ? csv_read_resaved(in, see, out, &why)
		       : csv_read(in, see, out, &why);
	fclose(in);
	fclose(out);
	if (done)
		return rows;
	fuzz_sentence(&why, FAULT_INPUT);
	free(rows);
	return NULL;
}

static void
check(const uint8_t *bytes, size_t length, bool resaved)
{
	size_t size, again_size;
	char *rows = written(bytes, length, resaved, &size), *again;

	if (rows == NULL)
		return;
	/* The one text that no file can begin with: a mark there is dropped. */
	if (size >= 3 && memcmp(rows, "\xef\xbb\xbf", 3) == 0) {
		free(rows);
		return;
	}
	again = written(rows, size, false, &again_size);
	FUZZ_HOLD(again != NULL && size == again_size &&
		  memcmp(rows, again, size) == 0);
	free(rows);
	free(again);
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
	check(bytes, length, false);
	check(bytes, length, true);
	return 0;
}
