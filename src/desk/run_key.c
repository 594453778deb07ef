/* run_key.c: the pair of keys for sealed copies. */
#include "desk/run.h"

#include "keep/keytext.h"
#include "keep/sealing.h"

#include <string.h>

/* The line goes to standard output alone, so that it can be kept in a file. */
static void
tell(const struct desk *desk, const struct key *key)
{
	char text[KEYTEXT_SIZE];

	keytext_write(key, KEY_PUBLIC, text);
	fprintf(desk->talk, "The public key, for [backup] in station.ini of "
			    "every laptop (it is no secret):\n");
	fflush(desk->talk);
	fprintf(desk->out, "key = \"%s\"\n", text);
}

bool
run_key(struct desk *desk, const struct given *given, struct fault *why)
{
	const char *path = given->argument[0];
	struct key_pair pair;
	bool done;

	if (given_is(given, "show"))
		done = keytext_read_private(path, &pair.secret, why) &&
		       sealing_complete_pair(&pair, why);
	else
		done = sealing_make_pair(&pair, why) &&
		       keytext_write_private(path, &pair.secret, why);
	memset(&pair.secret, 0, sizeof pair.secret);
	if (!done)
		return false;
	if (!given_is(given, "show"))
		fprintf(desk->talk,
			"Private key: %s\n"
			"Keep it in the office and a second one in another "
			"safe place, never on a laptop that\n"
			"goes to a camp. Without it no sealed copy can be read "
			"any more.\n",
			path);
	tell(desk, &pair.open);
	return true;
}
