/* test_card.c: the card of a policy, as text and as a page. */
#include "paper/card.h"

#include "base/embedded.h"
#include "base/text.h"
#include "clinic/describe.h"
#include "keep/policyfile.h"
#include "paper/cardhtml.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* A card of the compiled-in policy, and all that it points to. */
struct desk_card {
	struct policy policy;
	char mark[POLICY_MARK_SIZE];
	struct wording wording;
	struct grid grid;
	struct card card;
};

static void
hear(void *context, const struct fault *one)
{
	(void)context;
	cr_expect(false, "%s", one->sentence);
}

static struct desk_card *
open_card(void)
{
	struct desk_card *all = calloc(1, sizeof *all);
	struct fault why;

	cr_assert_not_null(all);
	cr_assert(policyfile_read_bytes(
		"policy.ini", (const char *)embedded_policy,
		embedded_policy_size, &all->policy, hear, NULL, &why));
	cr_assert(wording_read(&all->wording, NULL, "en", hear, NULL, &why));
	policy_fingerprint(&all->policy, all->mark);
	grid_fill(&all->policy, &all->grid);
	all->card = (struct card){&all->policy, all->mark, day_none(),
				  &all->wording, NULL};
	cr_assert(day_read("2026-03-10", &all->card.printed_on, &why));
	return all;
}

typedef void card_write(const struct card *card, FILE *out);

static char *
written(const struct card *card, card_write *write)
{
	char *text = NULL;
	size_t size;
	FILE *out = open_memstream(&text, &size);

	cr_assert_not_null(out);
	write(card, out);
	fclose(out);
	return text;
}

static int
times(const char *text, const char *part)
{
	int count = 0;

	for (; (text = strstr(text, part)) != NULL; text += strlen(part))
		count++;
	return count;
}

Test(card, the_text_has_every_rule_once_within_its_columns)
{
	struct desk_card *all = open_card();
	char *text = written(&all->card, card_write_text), part[200];

	for (int i = 0; i < all->policy.rule_count; i++) {
		snprintf(part, sizeof part,
			 "\n - %s: ", all->policy.rule[i].name);
		/* A rule and the word of a finding may have one name. */
		cr_expect_eq(times(text, part), 1, "%s", part);
	}
	for (char *line = text; *line != '\0'; line += strcspn(line, "\n") + 1)
		cr_expect_leq(strcspn(line, "\n"), (size_t)CARD_COLUMNS,
			      "%.90s", line);
	cr_expect_not_null(strstr(text, all->mark));
	cr_expect_not_null(strstr(text, "not yet approved by an eye doctor"));
	cr_expect_not_null(strstr(text, "Screening, not a diagnosis."));
	free(text);
	free(all);
}

Test(card, every_finding_that_a_rule_names_can_be_understood)
{
	struct desk_card *all = open_card();
	char *text = written(&all->card, card_write_text);
	char name[DESCRIBE_FINDING_SIZE], part[200];

	for (int i = 0; i < FINDING_COUNT; i++) {
		bool used = (describe_findings(&all->policy) &
			     finding_bit((enum finding)i)) != 0;
		const char *about = finding_about((enum finding)i);

		describe_finding((enum finding)i, name);
		snprintf(part, sizeof part, "\n - %s: %s\n", name, about);
		cr_expect_eq(strstr(text, part) != NULL,
			     used && strcmp(name, about) != 0, "%s", part);
	}
	free(text);
	free(all);
}

Test(card, the_approval_is_told_with_its_day)
{
	struct desk_card *all = open_card();
	struct fault why;
	char *text;

	text_copy(all->policy.approved_by, sizeof all->policy.approved_by,
		  "Dr Adira Moru");
	cr_assert(day_read("2026-03-02", &all->policy.approved_on, &why));
	text = written(&all->card, card_write_text);
	cr_expect_not_null(strstr(text, "\nApproved by Dr Adira Moru on "
					"2026-03-02\n"));
	cr_expect_null(strstr(text, "not yet approved"));
	free(text);
	free(all);
}

Test(card, the_grid_has_a_row_for_every_depth)
{
	static const char *const lines[] = {"\n depth  no symptom       halo "
					    "spells      eye pain         "
					    "pressure 24 mmHg\n",
					    "\n   0 %  7 days           7 days "
					    "          2 days           "
					    "7 days\n",
					    "\n  40 %  no, 12 months    30 "
					    "days          14 days          "
					    "30 days\n",
					    "\n     x  30 days          7 days "
					    "          2 days           "
					    "30 days\n",
					    "\nage 60 (rules with an age "
					    "limit, of which there is 1, do "
					    "not hold then),\n"};
	struct desk_card *all = open_card();
	char *text;

	all->card.grid = &all->grid;
	text = written(&all->card, card_write_grid);
	for (size_t i = 0; i < COUNT(lines); i++)
		cr_expect_not_null(strstr(text, lines[i]), "row %zu: %s", i,
				   text);
	free(text);
	free(all);
}

/* The names of the elements that are open, innermost last. */
struct open_elements {
	char name[16][16];
	int depth;
};

static void
meet_tag(struct open_elements *open, const char *tag)
{
	bool closes = tag[1] == '/';
	char name[16];

	snprintf(name, sizeof name, "%.*s",
		 (int)strcspn(tag + 1 + closes, " >"), tag + 1 + closes);
	if (tag[1] == '!' || strcmp(name, "meta") == 0)
		return;
	if (!closes) {
		cr_assert_lt(open->depth, 16);
		memcpy(open->name[open->depth++], name, sizeof name);
		return;
	}
	cr_assert_gt(open->depth, 0, "%.20s", tag);
	cr_expect_str_eq(open->name[--open->depth], name, "%.20s", tag);
}

Test(card, the_page_is_whole_escaped_and_on_its_own)
{
	static const char *const never[] = {
		"<script", "http",	  "src=",  "url(",
		"@import", "<b>bold</b>", "onload"};
	struct desk_card *all = open_card();
	struct open_elements open = {.depth = 0};
	char *text, part[200];

	text_copy(all->policy.name, sizeof all->policy.name,
		  "<b>bold</b> & 'quoted' \"name\"");
	text_copy(all->policy.approved_by, sizeof all->policy.approved_by,
		  "<img/onerror=x>");
	all->card.grid = &all->grid;
	text = written(&all->card, card_write_html);
	for (size_t i = 0; i < COUNT(never); i++)
		cr_expect_null(strstr(text, never[i]), "%s", never[i]);
	cr_expect_null(strstr(text, "<img"));
	cr_expect_not_null(strstr(text, "&lt;b&gt;bold&lt;/b&gt; &amp; "));
	for (int i = 0; i < all->policy.rule_count; i++) {
		snprintf(part, sizeof part,
			 "<p><b>%s</b>: ", all->policy.rule[i].name);
		cr_expect_eq(times(text, part), 1, "%s", part);
	}
	for (const char *at = strchr(text, '<'); at != NULL;
	     at = strchr(at + 1, '<'))
		meet_tag(&open, at);
	cr_expect_eq(open.depth, 0);
	cr_expect_eq(times(text, "<tr>"), 1 + GRID_ROWS);
	free(text);
	free(all);
}

Test(card, the_page_without_a_grid_has_no_table)
{
	struct desk_card *all = open_card();
	char *text = written(&all->card, card_write_html);

	cr_expect_null(strstr(text, "<table"));
	cr_expect_null(strstr(text, card_signature()));
	free(text);
	free(all);
}
