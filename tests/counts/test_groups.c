/* Counts added up by a key. */
#include "counts/groups.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

struct seen {
	char keys[400];
	long long screened;
};

static bool
see(void *context, const char *key, const struct sums *sums, struct fault *why)
{
	struct seen *seen = context;

	(void)why;
	strncat(seen->keys, key, 20);
	strncat(seen->keys, " ", 2);
	seen->screened += sums->count[0];
	return true;
}

Test(groups, keys_come_sorted_by_their_bytes_and_can_be_added_to_after)
{
	struct tally_counts counts = {.screened = 3, .late_entries = 1};
	struct seen seen = {"", 0};
	struct groups groups;
	struct fault why;

	groups_init(&groups);
	cr_assert_null(groups_find(&groups, "b"));
	cr_assert(groups_visit(&groups, see, &seen, &why));
	cr_expect_str_eq(seen.keys, "");
	cr_assert(groups_add(&groups, "b", &counts, 1, &why));
	cr_assert(groups_add(&groups, "a", &counts, 1, &why));
	cr_assert(groups_add(&groups, "B", &counts, 1, &why));
	cr_assert(groups_visit(&groups, see, &seen, &why));
	cr_expect_str_eq(seen.keys, "B a b ");
	cr_expect_eq(seen.screened, 9);
	cr_assert(groups_add(&groups, "a", &counts, -1, &why));
	cr_assert(groups_add(&groups, "b", &counts, 1, &why));
	cr_expect_eq(groups_find(&groups, "a")->count[0], 0);
	cr_expect_eq(groups_find(&groups, "b")->count[0], 6);
	cr_expect_eq(groups_find(&groups, "b")->count[GROUPS_COUNTS - 1], 2);
	cr_assert_null(groups_find(&groups, "c"));
	groups_release(&groups);
}

Test(groups, many_keys_keep_their_own_sums)
{
	enum { KEYS = 3000 };
	struct groups groups;
	struct fault why;
	char key[20];

	groups_init(&groups);
	for (int i = 0; i < 2 * KEYS; i++) {
		struct tally_counts counts = {.screened = i % KEYS};

		snprintf(key, sizeof key, "key %d", i % KEYS);
		cr_assert(groups_add(&groups, key, &counts, 1, &why));
	}
	cr_expect_eq(groups.count, KEYS);
	for (int i = 0; i < KEYS; i++) {
		snprintf(key, sizeof key, "key %d", i);
		cr_expect_eq(groups_find(&groups, key)->count[0], 2 * i,
			     "key %d", i);
	}
	groups_release(&groups);
}
