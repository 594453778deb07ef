/* groups.c: counts added up by a key. */
#include "counts/groups.h"

#include "base/memory.h"

#include <assert.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct group {
	size_t key;	  /* where it begins in the text */
	const char *name; /* the same, only while they are sorted */
	uint32_t hash;
	unsigned place; /* in order of making: where its sums stand */
	long long rows; /* added, less those taken back */
};

static_assert(sizeof(struct tally_counts) == GROUPS_COUNTS * sizeof(int),
	      "the sums hold every count of a tally");

/* A table of zeros is one of tallies. */
static size_t
width_of(const struct groups *groups)
{
	return GROUPS_COUNTS + groups->wider;
}

void
groups_init(struct groups *groups)
{
	groups_init_wide(groups, GROUPS_COUNTS);
}

void
groups_init_wide(struct groups *groups, size_t width)
{
	memset(groups, 0, sizeof *groups);
	groups->wider = width - GROUPS_COUNTS;
}

void
groups_release(struct groups *groups)
{
	free(groups->group);
	free(groups->sum);
	free(groups->slot);
	free(groups->text);
	groups_init_wide(groups, width_of(groups));
}

/* FNV-1a, http://www.isthe.com/chongo/tech/comp/fnv/ (from memory). */
static uint32_t
hash_of(const char *key)
{
	uint32_t hash = 2166136261U;

	for (; *key != '\0'; key++)
		hash = (hash ^ (unsigned char)*key) * 16777619U;
	return hash;
}

/* The slot of the key, or the free one where it would go. */
static size_t
find_slot(const struct groups *groups, const char *key, uint32_t hash)
{
	size_t slot = hash & (groups->slots - 1);

	while (groups->slot[slot] != 0) {
		const struct group *group =
			&groups->group[groups->slot[slot] - 1];

		if (group->hash == hash &&
		    strcmp(groups->text + group->key, key) == 0)
			break;
		slot = (slot + 1) & (groups->slots - 1);
	}
	return slot;
}

/* All slots are free before. */
static void
fill_slots(struct groups *groups)
{
	for (size_t i = 0; i < groups->count; i++) {
		size_t at = groups->group[i].hash & (groups->slots - 1);

		while (groups->slot[at] != 0)
			at = (at + 1) & (groups->slots - 1);
		groups->slot[at] = (unsigned)i + 1;
	}
}

/* Slots stay at most half full. */
static bool
grow_slots(struct groups *groups)
{
	size_t slots = groups->slots == 0 ? 128 : groups->slots * 2;
	unsigned *slot;

	if (groups->count * 2 < groups->slots)
		return true;
	slot = calloc(slots, sizeof *slot);
	if (slot == NULL)
		return false;
	free(groups->slot);
	groups->slot = slot;
	groups->slots = slots;
	fill_slots(groups);
	return true;
}

static bool
make_room(struct groups *groups, size_t length)
{
	return groups->count < UINT32_MAX - 1 &&
	       memory_grow((void **)&groups->group, &groups->room,
			   groups->count + 1, sizeof *groups->group) &&
	       memory_grow((void **)&groups->sum, &groups->sums,
			   (groups->count + 1) * width_of(groups),
			   sizeof *groups->sum) &&
	       memory_grow((void **)&groups->text, &groups->size,
			   groups->used + length + 1, 1) &&
	       grow_slots(groups);
}

static struct group *
make(struct groups *groups, const char *key, uint32_t hash)
{
	size_t length = strlen(key);
	struct group *group;

	if (!make_room(groups, length))
		return NULL;
	group = &groups->group[groups->count];
	memset(group, 0, sizeof *group);
	memset(groups->sum + groups->count * width_of(groups), 0,
	       width_of(groups) * sizeof *groups->sum);
	group->place = (unsigned)groups->count;
	group->key = groups->used;
	group->hash = hash;
	memcpy(groups->text + groups->used, key, length + 1);
	groups->used += length + 1;
	groups->slot[find_slot(groups, key, hash)] = (unsigned)++groups->count;
	return group;
}

/* Rows of one kind come one after the other, as a rule. */
static struct group *
find_or_make(struct groups *groups, const char *key)
{
	struct group *group = NULL;
	uint32_t hash;

	if (groups->last > 0) {
		group = &groups->group[groups->last - 1];
		if (strcmp(groups->text + group->key, key) == 0)
			return group;
		group = NULL;
	}
	hash = hash_of(key);
	if (groups->count > 0) {
		unsigned place = groups->slot[find_slot(groups, key, hash)];

		if (place != 0)
			group = &groups->group[place - 1];
	}
	if (group == NULL)
		group = make(groups, key, hash);
	if (group != NULL)
		groups->last = (size_t)(group - groups->group) + 1;
	return group;
}

static const long long *
sums_of(const struct groups *groups, const struct group *group)
{
	return groups->sum + group->place * width_of(groups);
}

static const struct sums *
as_tally(const long long *sum)
{
	return (const struct sums *)(const void *)sum;
}

const struct sums *
groups_find(const struct groups *groups, const char *key)
{
	unsigned place;

	if (groups->count == 0)
		return NULL;
	place = groups->slot[find_slot(groups, key, hash_of(key))];
	return place == 0
		       ? NULL
		       : as_tally(sums_of(groups, &groups->group[place - 1]));
}

bool
groups_add(struct groups *groups, const char *key,
	   const struct tally_counts *counts, int sign, struct fault *why)
{
	return groups_add_wide(groups, key, (const int *)(const void *)counts,
			       sign, why);
}

bool
groups_add_wide(struct groups *groups, const char *key, const int *count,
		int sign, struct fault *why)
{
	struct group *group = find_or_make(groups, key);
	size_t width = width_of(groups);
	long long *sum;

	if (group == NULL)
		return fault_set(why, FAULT_INTERNAL,
				 "no memory for another group of counts");
	group->rows += sign;
	sum = groups->sum + group->place * width;
	for (size_t i = 0; i < width; i++)
		sum[i] += (long long)sign * count[i];
	return true;
}

static int
compare_groups(const void *one, const void *other)
{
	const struct group *a = one, *b = other;

	return strcmp(a->name, b->name);
}

/* Sorting moves the groups, so the slots are filled anew. */
static void
sort(struct groups *groups)
{
	for (size_t i = 0; i < groups->count; i++)
		groups->group[i].name = groups->text + groups->group[i].key;
	qsort(groups->group, groups->count, sizeof *groups->group,
	      compare_groups);
	memset(groups->slot, 0, groups->slots * sizeof *groups->slot);
	fill_slots(groups);
	groups->last = 0;
}

bool
groups_visit_wide(struct groups *groups, groups_see_wide *see, void *context,
		  struct fault *why)
{
	if (groups->count > 0)
		sort(groups);
	for (size_t i = 0; i < groups->count; i++) {
		const struct group *group = &groups->group[i];

		if (group->rows != 0 && !see(context, groups->text + group->key,
					     sums_of(groups, group), why))
			return false;
	}
	return true;
}

struct visit_of_tallies {
	groups_see *see;
	void *context;
};

static bool
see_tally(void *context, const char *key, const long long *sum,
	  struct fault *why)
{
	const struct visit_of_tallies *visit = context;

	return visit->see(visit->context, key, as_tally(sum), why);
}

bool
groups_visit(struct groups *groups, groups_see *see, void *context,
	     struct fault *why)
{
	struct visit_of_tallies visit = {see, context};

	return groups_visit_wide(groups, see_tally, &visit, why);
}
