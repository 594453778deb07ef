/* collate.c: which of many batches count. */
#include "counts/collate.h"

#include <stdlib.h>
#include <string.h>

enum { ENTRIES_FIRST = 1024, DEVICE_LETTERS = 6 };

void
collate_init(struct collate *collate, bool grows)
{
	memset(collate, 0, sizeof *collate);
	collate->grows = grows;
}

void
collate_release(struct collate *collate)
{
	free(collate->entry);
	free(collate->slot);
	collate_init(collate, false);
}

/* --- finding -------------------------------------------------------------- */

static uint32_t
key_of(const struct collate_entry *entry)
{
	return (uint32_t)entry->day << 14 | (uint32_t)entry->station;
}

/* The slot of a key, or the free one for it. A station's days come one after
 * the other as a rule: eight of them stand side by side. */
static struct collate_slot *
find_slot(const struct collate *collate, uint32_t key)
{
	uint32_t day = key >> 14;
	uint32_t hash = key & ~(7U << 14);
	size_t slot;

	hash = (hash ^ (hash >> 16)) * 0x85ebca6bU;
	hash = (hash ^ (hash >> 13)) * 8 + (day & 7);
	slot = hash & (collate->slots - 1);
	while (collate->slot[slot].entry != 0 && collate->slot[slot].key != key)
		slot = (slot + 1) & (collate->slots - 1);
	return &collate->slot[slot];
}

/* Puts entry `index` into its slot when no other has an equal or higher
 * revision. */
static bool
put_in_slot(struct collate *collate, size_t index)
{
	const struct collate_entry *entry = &collate->entry[index];
	uint32_t key = key_of(entry);
	struct collate_slot *slot = find_slot(collate, key);

	if (slot->entry != 0 &&
	    collate->entry[slot->entry - 1].revision >= entry->revision)
		return false;
	slot->key = key;
	slot->entry = (uint32_t)index + 1;
	return true;
}

static void
fill_slots(struct collate *collate)
{
	memset(collate->slot, 0, collate->slots * sizeof *collate->slot);
	for (size_t i = 0; i < collate->count; i++)
		if (!collate->entry[i].dropped)
			put_in_slot(collate, i);
}

/* --- taking note ---------------------------------------------------------- */

/* What is moved lands where it stood or as many slots further on as there were:
 * two walks through the memory. */
static bool
grow_slots(struct collate *collate)
{
	struct collate_slot *old = collate->slot;
	size_t count = collate->slots;
	size_t slots = count == 0 ? ENTRIES_FIRST : count * 2;
	struct collate_slot *slot = calloc(slots, sizeof *slot);

	if (slot == NULL)
		return false;
	collate->slot = slot;
	collate->slots = slots;
	for (size_t i = 0; i < count; i++)
		if (old[i].entry != 0)
			*find_slot(collate, old[i].key) = old[i];
	free(old);
	return true;
}

/* Room for one more entry; slots stay at most half full. */
static bool
make_room(struct collate *collate)
{
	size_t room = collate->room == 0 ? ENTRIES_FIRST : collate->room * 2;

	if (collate->count == collate->room) {
		struct collate_entry *entry =
			realloc(collate->entry, room * sizeof *entry);

		if (entry == NULL)
			return false;
		collate->entry = entry;
		collate->room = room;
	}
	return (collate->count + 1) * 2 <= collate->slots ||
	       grow_slots(collate);
}

static unsigned
device_number(const char *letters)
{
	unsigned number = 0;

	for (int i = 0; i < DEVICE_LETTERS; i++)
		number = 26 * number + (unsigned)(letters[i] - 'A');
	return number;
}

static void
device_letters(unsigned number, char *letters)
{
	letters[DEVICE_LETTERS] = '\0';
	for (int i = DEVICE_LETTERS - 1; i >= 0; i--) {
		letters[i] = (char)('A' + number % 26);
		number /= 26;
	}
}

bool
collate_add(struct collate *collate, const struct batch *batch, unsigned file,
	    long long place, bool *adds, struct fault *why)
{
	struct collate_entry *entry;

	if (collate->count >= UINT32_MAX - 1 || !make_room(collate))
		return fault_set(why, FAULT_INTERNAL,
				 "no memory for another file's counts");
	entry = &collate->entry[collate->count++];
	memset(entry, 0, sizeof *entry);
	entry->mark = batch->mark;
	entry->place = place;
	entry->file = file;
	entry->day = (unsigned)batch->date.number & 0x1ffff;
	entry->device = device_number(batch->device) & 0x1fffffff;
	entry->station = (unsigned)batch->station & 0x3fff;
	entry->revision = (unsigned)batch->revision & 0x3fffffff;
	entry->people = (unsigned)batch->people;
	entry->known = (unsigned)batch->known;
	*adds = put_in_slot(collate, collate->count - 1);
	entry->added = *adds;
	return true;
}

void
collate_drop(struct collate *collate, size_t first)
{
	for (size_t i = first; i < collate->count; i++)
		collate->entry[i].dropped = collate->dropped = true;
}

/* --- settling ------------------------------------------------------------- */

static struct collate_entry *
find_best(const struct collate *collate, const struct collate_entry *entry)
{
	return &collate->entry[find_slot(collate, key_of(entry))->entry - 1];
}

const struct collate_entry *
collate_best(const struct collate *collate, const struct collate_entry *entry)
{
	return find_best(collate, entry);
}

const struct collate_entry *
collate_find(const struct collate *collate, unsigned station, struct day day)
{
	const struct collate_entry key = {.station = station & 0x3fff,
					  .day = (unsigned)day.number &
						 0x1ffff};
	uint32_t place = 0;

	if (collate->slots > 0)
		place = find_slot(collate, key_of(&key))->entry;
	return place == 0 ? NULL : &collate->entry[place - 1];
}

/* A register that goes on from a copy keeps the first four letters. */
static unsigned
family(unsigned device)
{
	return device / (26 * 26);
}

static void
note_device(struct collate *collate, const struct collate_entry *entry)
{
	unsigned *device = collate->device[entry->station % COLLATE_STATIONS];

	if (device[0] == 0)
		device[0] = entry->device + 1U;
	else if (family(device[0] - 1) != family(entry->device) &&
		 device[1] == 0)
		device[1] = entry->device + 1U;
}

void
collate_device(const struct collate_entry *entry, char *letters)
{
	device_letters(entry->device, letters);
}

bool
collate_two_devices(const struct collate *collate, unsigned station, char *one,
		    char *other)
{
	const unsigned *device = collate->device[station % COLLATE_STATIONS];

	if (device[1] == 0)
		return false;
	device_letters(device[0] - 1, one);
	device_letters(device[1] - 1, other);
	return true;
}

/* Revisions of two registers of one station do not follow each other. */
static bool
is_against(const struct collate_entry *entry, const struct collate_entry *best)
{
	return entry->device != best->device ||
	       (entry->revision == best->revision && entry->mark != best->mark);
}

static bool
has_as_much(const struct collate_entry *one, const struct collate_entry *entry)
{
	return one->people >= entry->people && one->known >= entry->known;
}

/* Whether something later than the entry stands for it: a file of its own
 * register, or one of a register that went on from a copy with nothing missing,
 * as far as counts can tell. That a later one has less is a correction. */
static bool
is_held(const struct collate *collate, const struct collate_entry *entry)
{
	for (size_t i = 0; i < collate->count; i++) {
		const struct collate_entry *other = &collate->entry[i];

		if (key_of(other) == key_of(entry) && !other->dropped &&
		    other->revision > entry->revision &&
		    (other->device == entry->device ||
		     has_as_much(other, entry)))
			return true;
	}
	return false;
}

/* Whether the best one takes the place of one of another register. */
static bool
goes_on(const struct collate *collate, const struct collate_entry *best,
	const struct collate_entry *entry)
{
	return collate->grows && entry->device != best->device &&
	       entry->revision < best->revision &&
	       (has_as_much(best, entry) || is_held(collate, entry));
}

/* The best one is marked when another of its revision differs. */
static void
find_conflict(const struct collate *collate, const struct collate_entry *entry)
{
	struct collate_entry *best = find_best(collate, entry);

	if (goes_on(collate, best, entry))
		return;
	if (is_against(entry, best))
		best->status = LEDGER_CONFLICT;
	if (entry->device != best->device)
		best->copies = true;
}

static void
give_status(const struct collate *collate, struct collate_entry *entry)
{
	const struct collate_entry *best = find_best(collate, entry);
	bool two_devices =
		collate->device[entry->station % COLLATE_STATIONS][1] != 0;

	if (!two_devices && !best->copies && entry->revision < best->revision)
		entry->status = LEDGER_SUPERSEDED;
	else if (two_devices || best->status == LEDGER_CONFLICT)
		entry->status = LEDGER_CONFLICT;
	else if (entry != best)
		entry->status = LEDGER_SAME;
}

/* All counted at first: a zero. Three walks, since the best of a day is known
 * only after the first, and conflicts only after the second. */
void
collate_settle(struct collate *collate)
{
	if (collate->dropped)
		fill_slots(collate);
	memset(collate->device, 0, sizeof collate->device);
	for (size_t i = 0; i < collate->count; i++) {
		collate->entry[i].status = LEDGER_COUNTED;
		collate->entry[i].copies = false;
		if (!collate->entry[i].dropped)
			note_device(collate, &collate->entry[i]);
	}
	for (size_t i = 0; i < collate->count; i++)
		if (!collate->entry[i].dropped)
			find_conflict(collate, &collate->entry[i]);
	for (size_t i = 0; i < collate->count; i++)
		if (!collate->entry[i].dropped)
			give_status(collate, &collate->entry[i]);
}

bool
collate_counts(const struct collate_entry *entry)
{
	return !entry->dropped && entry->status == LEDGER_COUNTED;
}

void
collate_pair(struct collate *collate)
{
	for (size_t i = collate->count; i-- > 0;) {
		struct collate_entry *entry = &collate->entry[i], *best;

		if (entry->dropped || entry->status != LEDGER_CONFLICT)
			continue;
		best = find_best(collate, entry);
		if (best->copies ? entry->device != best->device
				 : is_against(entry, best))
			best->place = (long long)i;
	}
}
