/* dialog.h: questions about one record, line by line, then a summary. */
#ifndef SHOAL_DESK_DIALOG_H
#define SHOAL_DESK_DIALOG_H

#include "base/fault.h"
#include "desk/ask.h"

#include <stdio.h>

/* How it ended. */
enum dialog_end {
	DIALOG_SAVE,  /* the summary was seen, and is to be kept */
	DIALOG_DROP,  /* nothing of it is to be kept */
	DIALOG_LEAVE, /* "<" at the very first question */
	DIALOG_ENDED  /* end of input; nothing of it is to be kept */
};

enum { DIALOG_TITLE_SIZE = 100, DIALOG_SHOWN_SIZE = 700 };

/*
 * What is asked. Questions are numbered from 0; `form` is the caller's, handed
 * to each. A function that has no answer to give may be NULL where it says so.
 */
struct dialog_kind {
	int count;
	const char *drops; /* "the person" */
	/* The question asked after this one as things stand (-1: the first),
	 * `count` when none is left; the one asked before it, or itself. */
	int (*next)(const void *form, int question);
	int (*back)(const void *form, int question);
	/* Asked as things stand, and not answered yet. */
	bool (*is_open)(const void *form, int question);
	/* It has choices with number keys. */
	bool (*is_keyed)(int question);
	void (*title)(int question, char *title);
	void (*show)(const void *form, int question, char *shown);
	void (*choices)(int question, int columns, FILE *out);
	void (*help)(int question, int columns, FILE *out);
	/* Takes an answer; `*last` is then the last question that it answers,
	 * most often the same. */
	bool (*answer)(void *form, int question, const char *text, int *last,
		       struct fault *why);
	void (*after)(void *form, int question);
	/* The last question on the summary's line that begins with this one,
	 * and what stands on that line (both or neither NULL: a line for each
	 * question). */
	int (*line_end)(int question);
	void (*line)(const void *form, int question, char *label, char *shown);
	/* Writes what follows from the answers; true when they may be kept. */
	bool (*judge)(void *form);
};

/*
 * Asks the questions in their order and ends with the summary, where each line
 * can be corrected before anything is kept. `from_summary` begins there.
 */
enum dialog_end dialog(const struct asker *asker,
		       const struct dialog_kind *kind, void *form,
		       bool from_summary);

#endif
