/* copyfacts.c: what a copy of the register holds, in lines. */
#include "desk/copyfacts.h"

#include "desk/desk.h"

void
copyfacts_write(const struct copy_facts *facts, FILE *out)
{
	char number[REFNUM_SIZE], words[DESK_DAY_WORDS_SIZE];

	fprintf(out, " station %04d, people %lld, entries %lld\n",
		facts->station, facts->people, facts->entries);
	refnum_write(facts->last, number);
	if (number[0] != '\0')
		fprintf(out, " last number %s\n", number);
	if (!day_is_none(facts->last_day)) {
		desk_day_words(facts->last_day, words);
		fprintf(out, " last day of screening %s\n", words);
	}
}
