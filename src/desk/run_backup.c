/* run_backup.c: a copy of the register on a stick. */
#include "desk/run.h"

#include "desk/copyfacts.h"
#include "desk/unfinished.h"
#include "keep/backup.h"

/* From the file given, else from station.ini. */
static bool
find_key(const struct desk *desk, const char *path, struct key *key,
	 struct fault *why)
{
	if (path != NULL)
		return keytext_read_file(path, key, why);
	if (desk->station.public_key[0] != '\0')
		return keytext_read(desk->station.public_key, KEY_PUBLIC, key,
				    why);
	return fault_set(why, FAULT_POLICY,
			 "there is no key under [backup] in station.ini; "
			 "'shoal key' makes one, or name a file with --key "
			 "FILE");
}

static bool
write_copy(const struct desk *desk, const struct given *given,
	   struct backup *backup, struct fault *why)
{
	const char *path = given_value(given, "key");
	bool sealed = path != NULL || given_is(given, "to-key");
	struct key key;

	if (sealed && !find_key(desk, path, &key, why))
		return false;
	if (!backup_place(backup, &desk->book, given->argument[0], sealed,
			  desk->today, why))
		return false;
	return sealed ? backup_write_sealed(backup, &desk->book, &key, why)
		      : backup_write(backup, &desk->book, why);
}

static void
tell_seal(const struct backup *backup, FILE *out)
{
	if (backup->is_sealed)
		fprintf(out, "Sealed: only who has the private key can read "
			     "it.\n");
	else
		fprintf(out, "It holds names: keep it as safe as the "
			     "laptop.\n");
}

bool
run_backup(struct desk *desk, const struct given *given, struct fault *why)
{
	struct backup backup;

	if (!write_copy(desk, given, &backup, why))
		return fault_at(why, "no copy was made");
	fprintf(desk->out, "Copied and read back: %s\n", backup.path);
	copyfacts_write(&backup.facts, desk->out);
	tell_seal(&backup, desk->out);
	if (backup.on_same_disk)
		fprintf(desk->out, "This is the same disk as the register's: "
				   "copy it to a "
				   "stick as well.\n");
	else
		fprintf(desk->out, "You may pull out the stick.\n");
	fflush(desk->out);
	unfinished_tell(desk);
	return true;
}
