/* wording.h: the words of the papers, one file per language. */
#ifndef SHOAL_PAPER_WORDING_H
#define SHOAL_PAPER_WORDING_H

#include "base/fault.h"
#include "keep/inifile.h"

#include <stdbool.h>

/*
 * Everything that a patient, a clinic or somebody with a form reads on paper
 * comes from a wording file. Several are compiled in. The English one is the
 * table of what there is: any other must hold each of its keys and no other,
 * and each text exactly the {placeholders} that the English one has. Anything
 * else is a fault at load, so that no paper is ever printed with a hole. A
 * wording-LL.ini in the station's folder takes the place of a compiled-in one,
 * or adds a language.
 */
struct wording {
	struct ini ini; /* holds the texts */
};

/*
 * Reads `folder`/wording-LL.ini, or without such a file (or with a NULL folder)
 * the compiled-in one. `language` is two or three small letters. FAULT_POLICY
 * when refused; each fault is told to `hear`.
 */
bool wording_read(struct wording *wording, const char *folder,
		  const char *language, fault_hear *hear, void *context,
		  struct fault *why);

/* The text of a key, written "section.key", its placeholders not filled in.
 * NULL when there is no such key: a test holds the program to the English
 * file, so that every key it asks for is there. */
const char *wording_text(const struct wording *wording, const char *key);

/* Written from right to left. */
bool wording_is_rtl(const struct wording *wording);

/* A clinician's name stands under reviewed_by. */
bool wording_is_reviewed(const struct wording *wording);

/* The languages compiled in, "" behind the last. */
const char *wording_language(size_t index);

/*
 * Copies the name of the placeholder at `text`, which begins with '{', and
 * returns what follows its '}'; NULL when it does not end or is too long.
 * `name` holds WORDING_NAME_SIZE bytes.
 */
enum { WORDING_NAME_SIZE = 32 };

const char *wording_placeholder(const char *text, char *name);

#endif
