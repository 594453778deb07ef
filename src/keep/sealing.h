/* sealing.h: a file that only the holder of a private key can read. */
#ifndef SHOAL_KEEP_SEALING_H
#define SHOAL_KEEP_SEALING_H

#include "base/fault.h"
#include "keep/keytext.h"
#include "keep/safefile.h"
#include "keep/sealhead.h"

#include <stdbool.h>

/*
 * The only room that sees libsodium, which is loaded when first needed. In the
 * field there is no password: a copy is sealed to the programme's public key.
 *
 * A sealed file has, in this order:
 *   a line of text of 128 bytes: what it is, station, device, number of
 *     entries, bytes sealed, the check letters of the public key, and a mark
 *     over all that; so much can anybody read;
 *   the key of this one file, drawn at random, in a sealed box to the public
 *     key (crypto_box_seal);
 *   the file itself, encrypted with that key in pieces of 64 KiB
 *     (crypto_secretstream_xchacha20poly1305), each of which covers the line
 *     of text too, the last one marked as the last.
 *
 * A stream and not one sealed box around all, although a register of 90,000
 * people (some 60 MB) would fit in memory: so nothing grows with the file, no
 * memory is asked for, and none of what was unsealed lies about in it. Cut,
 * longer, altered or put together from two files it is refused, and so is
 * another key, each by its own sentence (FAULT_INPUT). libsodium that cannot be
 * loaded is FAULT_INTERNAL.
 */
struct key_pair {
	struct key open, secret;
};

bool sealing_make_pair(struct key_pair *pair, struct fault *why);

/* Works out the public key from the private one. */
bool sealing_complete_pair(struct key_pair *pair, struct fault *why);

/* Seals the file `from` into `to`, which is open and stays so; then syncs it
 * and reads it back from the disk, byte for byte. */
bool sealing_seal(const char *from, struct safefile *to,
		  const struct sealing_label *label, const struct key *key,
		  struct fault *why);

/* Reads the first line of a file. `*sealed` false: it is another kind of file,
 * and no fault. */
bool sealing_look(const char *path, bool *sealed, struct sealing_label *label,
		  struct fault *why);

/* Unseals the file `from` into `to`, which is open and stays so. On false what
 * was written there is of no use and to be dropped. */
bool sealing_unseal(const char *from, struct safefile *to,
		    const struct key_pair *pair, struct fault *why);

#endif
