/* book.h: the file of the register: its tables, how it is made and opened. */
#ifndef SHOAL_KEEP_BOOK_H
#define SHOAL_KEEP_BOOK_H

#include "base/fault.h"
#include "keep/store.h"

/*
 * One SQLite file, register.db, in the station's folder, with five tables to
 * which rows are only added (triggers refuse anything else):
 *
 *   station        the station's code and device, as name and value
 *   policy_text    the policies that judged somebody, by fingerprint
 *   visit          one row per entry: its number, the entry that it revises
 *                  and why, and the columns of visit_fields
 *   tally_written  the revisions of the daily tallies
 *   reply          the clinic's replies, one row per entry as in visit, with
 *                  the columns of reply_fields
 *
 * (`register` is a word of C, so the open register is called a book.)
 */
struct book {
	struct store store;
	char device[7]; /* six letters A-Z, drawn at random by create */
	int station;	/* 1 to 9999 */
	int form;	/* schema version of the file; see schema.h */
	int hold;	/* see hold.h */
};

/* BOOK_ALONE: as BOOK_WRITE, and refused while another program writes. */
enum book_use { BOOK_READ, BOOK_WRITE, BOOK_ALONE };

enum { BOOK_DEVICE_LETTERS = 6 };

/* Makes register.db in a folder that has none. A file of that name, whatever
 * it holds, is refused untouched, and so is a left-over journal of that
 * name. */
bool register_create(const char *folder, int station, struct fault *why);

/* Writes an empty register of the newest form into an empty file; its device
 * is drawn as by register_draw_device. */
bool register_fill(const char *path, int station, const char *family,
		   struct fault *why);

/*
 * Opens it. Checked: a regular file that is no link, SQLite's own header, the
 * application id, a form (schema version) that this program knows, its length,
 * exactly that form's tables, and (BOOK_WRITE) quick_check and that the folder
 * and file can be written. A missing, empty, truncated, damaged or newer file
 * is said as such and never treated as a new empty book. What a killed program
 * left half saved is undone, also when opened for reading; on a medium that
 * cannot be written such a file is refused. A file of an older form is read as
 * it is, with nothing in the tables that it does not have, and brought up to
 * date when opened for writing (upgrade.h). On false the book is closed.
 */
bool register_open(struct book *book, const char *folder, enum book_use use,
		   struct fault *why);

/* Opens for reading a copy of a register under whatever name, and checks it in
 * the same way. */
bool register_open_copy(struct book *book, const char *path, struct fault *why);
void register_close(struct book *book);

/*
 * Draws the letters of a device. Those of a register that goes on from a copy
 * of another keep the first four of that one (`family`; NULL = none): so a
 * total tells a station that went on from a copy, where only the days that
 * both have tell of a conflict, from a code given to two laptops.
 */
bool register_draw_device(const char *family, char *device, struct fault *why);

/*
 * Several saves as one: begin, saves, then commit or undo. Begin takes the
 * write lock (up to 5 seconds' wait for another program). A commit that
 * fails has undone all; undo is harmless then.
 */
bool register_begin(struct book *book, struct fault *why);
bool register_commit(struct book *book, struct fault *why);
void register_undo(struct book *book);

#endif
