/* test_template.c: a page with {{names}} to be filled in. */
#include "paper/template.h"

#include <criterion/criterion.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Knows "a" and "b"; what it writes holds braces itself. */
static bool
fill(const void *context, const char *name, FILE *out)
{
	if (strcmp(name, "a") == 0) {
		if (out != NULL)
			fputs(context, out);
		return true;
	}
	if (strcmp(name, "b") == 0) {
		if (out != NULL)
			fputs("{{a}}", out);
		return true;
	}
	return false;
}

static bool
write_to(const char *text, char *page, size_t size, struct fault *why)
{
	FILE *out = fmemopen(page, size, "w");
	bool done;

	cr_assert_not_null(out);
	done = template_write(text, fill, "one", out, why);
	fclose(out);
	return done;
}

Test(template, names_are_filled_in_and_all_else_is_kept)
{
	static const struct row {
		const char *text;
		const char *page;
	} rows[] = {
		{"", ""},
		{"no name", "no name"},
		{"{{a}}", "one"},
		{"x{{a}}y{{a}}z", "xoneyonez"},
		{"p { margin: 0 } @media x { p { margin: 0 } }", "p { margin: "
								 "0 } @media x "
								 "{ p { "
								 "margin: 0 } "
								 "}"},
		{"}} {", "}} {"},
		{"{{b}}", "{{a}}"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		char page[256] = "";
		struct fault why = {FAULT_NONE, ""};

		cr_expect(write_to(rows[i].text, page, sizeof page, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_str_eq(page, rows[i].page, "row %zu", i);
	}
}

Test(template, a_name_nobody_fills_is_a_fault_before_anything_is_written)
{
	static const struct row {
		const char *text;
		const char *sentence;
	} rows[] = {
		{"x{{a}}{{c}}", "the template asks for 'c', which nothing "
				"fills in"},
		{"x{{a", "the template has a '{{' without a name of 1 to 47 "
			 "bytes and '}}'"},
		{"x{{}}", "the template has a '{{' without a name of 1 to 47 "
			  "bytes and '}}'"},
		{"x{{aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa}}",
		 "the template has a '{{' without a name of 1 to 47 bytes and "
		 "'}}'"},
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		char page[256] = "";
		struct fault why = {FAULT_NONE, ""};

		cr_expect_not(write_to(rows[i].text, page, sizeof page, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INTERNAL, "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_str_eq(page, "", "row %zu", i);
	}
}
