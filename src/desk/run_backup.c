/* run_backup.c: a copy of the register on a stick. */
#include "desk/run.h"

#include "keep/backup.h"

/* What a copy holds, as restore says it too: this way round a copy of the
 * wrong laptop or of long ago is noticed. */
static void
tell_facts(const struct copy_facts *facts, FILE *out)
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

bool
run_backup(struct desk *desk, const struct given *given, struct fault *why)
{
	struct backup backup;

	if (!backup_place(&backup, &desk->book, given->argument[0], false,
			  desk->today, why) ||
	    !backup_write(&backup, &desk->book, why))
		return fault_at(why, "no copy was made");
	fprintf(desk->out, "Copied and read back: %s\n", backup.path);
	tell_facts(&backup.facts, desk->out);
	if (backup.on_same_disk)
		fprintf(desk->out, "This is the same disk as the register's: "
				   "copy it to a "
				   "stick as well.\n");
	else
		fprintf(desk->out, "You may pull out the stick.\n");
	return true;
}
