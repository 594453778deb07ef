/* backup.c: a copy of the register on a stick, read back before it counts. */
#include "keep/backup.h"

#include "base/text.h"
#include "keep/scrub.h"
#include "keep/sealing.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* --- where ---------------------------------------------------------------- */

static bool
name_in_folder(struct backup *backup, const struct book *book,
	       const char *folder, struct day today, struct fault *why)
{
	char name[60], day[DAY_SIZE];

	day_write(today, day);
	snprintf(name, sizeof name, "backup-%04u-%s.%s",
		 (unsigned)book->station % 10000, day,
		 backup->is_sealed ? "sealed" : "db");
	return safefile_join(backup->path, sizeof backup->path, folder, name,
			     why);
}

/* The folders of the register and of the copy, looked at by what they are and
 * not by how they are written. */
static bool
compare_places(struct backup *backup, const struct book *book,
	       struct fault *why)
{
	char there[STOREFILE_PATH_SIZE], here[STOREFILE_PATH_SIZE];
	struct stat one, other;

	text_copy(here, sizeof here, book->store.path);
	text_copy(there, sizeof there, backup->path);
	*strrchr(here, '/') = '\0';
	*strrchr(there, '/') = '\0';
	if (stat(here[0] == '\0' ? "/" : here, &one) != 0 ||
	    stat(there[0] == '\0' ? "/" : there, &other) != 0)
		return fault_set(why, FAULT_OUTPUT,
				 "the folder of the copy cannot be looked at: "
				 "%s",
				 strerror(errno));
	backup->on_same_disk = one.st_dev == other.st_dev;
	if (!backup->on_same_disk || one.st_ino != other.st_ino)
		return true;
	return fault_set(why, FAULT_INPUT,
			 "a copy in the station's own folder is lost together "
			 "with it; name a file on a stick or another disk");
}

static bool
check_file_there(struct backup *backup, struct fault *why)
{
	struct stat status;

	backup->care = SAFEFILE_FIRST;
	if (lstat(backup->path, &status) != 0)
		return errno == ENOENT ||
		       fault_set(why, FAULT_OUTPUT,
				 "'%.*s' cannot be looked at: %s",
				 STOREFILE_SHOWN, backup->path,
				 strerror(errno));
	backup->care = SAFEFILE_SYNCED;
	return S_ISREG(status.st_mode) ||
	       fault_set(why, FAULT_INPUT,
			 "'%.*s' is there and is no plain file; name another "
			 "one",
			 STOREFILE_SHOWN, backup->path);
}

bool
backup_place(struct backup *backup, const struct book *book, const char *name,
	     bool sealed, struct day today, struct fault *why)
{
	char wanted[STOREFILE_PATH_SIZE];
	size_t length = strlen(name);
	struct stat status;

	backup->is_sealed = sealed;
	if (length == 0 || strcmp(name, "-") == 0 ||
	    !text_copy(wanted, sizeof wanted, name))
		return fault_set(why, FAULT_INPUT,
				 "a copy needs the name of a file or folder; "
				 "it does not go to standard output");
	if (stat(name, &status) == 0 && S_ISDIR(status.st_mode)) {
		if (!name_in_folder(backup, book, name, today, why))
			return false;
		text_copy(wanted, sizeof wanted, backup->path);
	} else if (name[length - 1] == '/') {
		return fault_set(why, FAULT_OUTPUT,
				 "the folder '%.*s' is not there",
				 STOREFILE_SHOWN, name);
	}
	if (!storefile_resolve(wanted, backup->path, why)) {
		why->kind = FAULT_OUTPUT;
		return false;
	}
	return compare_places(backup, book, why) &&
	       check_file_there(backup, why);
}

/* --- what is there already ------------------------------------------------ */

static bool
is_older_copy(const struct book *book, const struct book *old,
	      struct fault *why)
{
	struct copy_difference difference;
	struct book here;
	bool done;

	if (old->station != book->station)
		return fault_set(why, FAULT_INPUT, "it is of station %04d",
				 old->station);
	if (strcmp(old->device, book->device) != 0)
		return fault_set(why, FAULT_INPUT,
				 "it is of another laptop, or of before this "
				 "register was restored or mended");
	done = register_open_copy(&here, book->store.path, why) &&
	       copies_compare(&here, old, &difference, why);
	register_close(&here);
	if (!done || difference.only_there == 0)
		return done;
	return fault_set(why, FAULT_INPUT,
			 "it has %lld entr%s that this register has not",
			 difference.only_there,
			 difference.only_there == 1 ? "y" : "ies");
}

static bool
is_older_sealed(const struct book *book, const char *path, struct fault *why)
{
	struct sealing_label label;
	struct copy_facts here;
	struct book source;
	bool sealed, done;

	if (!sealing_look(path, &sealed, &label, why))
		return false;
	if (!sealed || label.station != book->station ||
	    strcmp(label.device, book->device) != 0)
		return fault_set(why, FAULT_INPUT,
				 "it is no sealed copy of this register");
	done = register_open_copy(&source, book->store.path, why) &&
	       copies_read_facts(&source, &here, why);
	register_close(&source);
	return done && (label.entries <= here.entries ||
			fault_set(why, FAULT_INPUT, "it has more entries"));
}

static bool
may_be_replaced(const struct backup *backup, const struct book *book,
		struct fault *why)
{
	char reason[FAULT_SENTENCE_SIZE];
	struct book old;
	bool done;

	if (backup->care == SAFEFILE_FIRST)
		return true;
	if (backup->is_sealed) {
		done = is_older_sealed(book, backup->path, why);
	} else {
		done = register_open_copy(&old, backup->path, why) &&
		       is_older_copy(book, &old, why);
		register_close(&old);
	}
	if (done)
		return true;
	text_copy(reason, sizeof reason, why->sentence);
	return fault_set(why, FAULT_INPUT,
			 "'%.*s' is there and stays: only an older copy of "
			 "this register is replaced (%.180s); name another "
			 "file",
			 STOREFILE_SHOWN, backup->path, reason);
}

/* --- making --------------------------------------------------------------- */

static bool
copy_into(const struct book *book, const char *target,
	  struct copy_counts *before, struct fault *why)
{
	struct book source = {.form = book->form};
	bool done = store_open(&source.store, book->store.path, why) &&
		    copies_count(&source, before, why);

	store_close(&source.store);
	if (!done || copies_make(book->store.path, target, why))
		return done;
	why->kind = FAULT_OUTPUT;
	return false;
}

static bool
match(const struct book *book, const struct copy_counts *before,
      const char *path, struct fault *why)
{
	struct book source = {.form = book->form};
	bool done = store_open(&source.store, book->store.path, why) &&
		    copies_match(&source, before, path, why);

	store_close(&source.store);
	return done;
}

static bool
check_copy(const char *path, struct copy_facts *facts, struct fault *why)
{
	struct book copy;
	bool done = register_open_copy(&copy, path, why) &&
		    copies_check(&copy, why) &&
		    copies_read_facts(&copy, facts, why);

	register_close(&copy);
	return done;
}

static bool
fill(struct safefile *file, const struct book *book, struct copy_counts *before,
     struct copy_facts *facts, struct fault *why)
{
	return copy_into(book, file->temporary, before, why) &&
	       safefile_settle(file, why) &&
	       check_copy(file->temporary, facts, why) &&
	       match(book, before, file->temporary, why);
}

bool
backup_write(struct backup *backup, const struct book *book, struct fault *why)
{
	struct copy_counts before;
	struct safefile file;

	if (!may_be_replaced(backup, book, why) ||
	    !safefile_open(&file, backup->path, why))
		return false;
	if (!fill(&file, book, &before, &backup->facts, why)) {
		storefile_drop(&file);
		return false;
	}
	if (!safefile_commit(&file, backup->care, why))
		return false;
	safefile_forget(backup->path);
	return match(book, &before, backup->path, why);
}

static bool
seal(struct backup *backup, const struct book *book, const char *plain,
     const struct key *key, struct fault *why)
{
	struct sealing_label label = {book->station, "", backup->facts.entries};
	struct safefile sealed;

	text_copy(label.device, sizeof label.device, book->device);
	if (!safefile_open(&sealed, backup->path, why))
		return false;
	if (sealing_seal(plain, &sealed, &label, key, why))
		return safefile_commit(&sealed, backup->care, why);
	safefile_drop(&sealed);
	return false;
}

bool
backup_write_sealed(struct backup *backup, const struct book *book,
		    const struct key *key, struct fault *why)
{
	char place[STOREFILE_PATH_SIZE + sizeof ".copy"];
	struct copy_counts before;
	struct safefile plain;
	bool done;

	snprintf(place, sizeof place, "%s.copy", book->store.path);
	if (!may_be_replaced(backup, book, why) ||
	    !safefile_open(&plain, place, why))
		return false;
	done = fill(&plain, book, &before, &backup->facts, why) &&
	       seal(backup, book, plain.temporary, key, why);
	done = scrub_file(plain.temporary,
			  done ? why : &(struct fault){FAULT_NONE, ""}) &&
	       done;
	storefile_drop(&plain);
	return done;
}
