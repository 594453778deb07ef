/* sealing.c: a file that only the holder of a private key can read. */
#include "keep/sealing.h"

#include "base/library.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/* --- the library ---------------------------------------------------------- */

/* clang-format off */
#define SODIUM_FUNCTIONS(FUNCTION) \
	FUNCTION(sodium_init) FUNCTION(sodium_memzero) \
	FUNCTION(crypto_box_keypair) FUNCTION(crypto_scalarmult_base) \
	FUNCTION(crypto_box_seal) FUNCTION(crypto_box_seal_open) \
	FUNCTION(crypto_secretstream_xchacha20poly1305_keygen) \
	FUNCTION(crypto_secretstream_xchacha20poly1305_init_push) \
	FUNCTION(crypto_secretstream_xchacha20poly1305_push) \
	FUNCTION(crypto_secretstream_xchacha20poly1305_init_pull) \
	FUNCTION(crypto_secretstream_xchacha20poly1305_pull)
/* clang-format on */

/* Each under its own type from the header. */
struct sodium {
#define SODIUM_MEMBER(name) __typeof__ (&(name))(name);
	SODIUM_FUNCTIONS(SODIUM_MEMBER)
#undef SODIUM_MEMBER
};

/* The library, which stays loaded until the program ends; NULL is a fault. The
 * pointers are the only thing here that outlives a call, and are the same
 * whoever asks. */
static const struct sodium *
load(struct fault *why)
{
	static struct sodium found;
	void *library;
	bool all = true;

	if (found.crypto_secretstream_xchacha20poly1305_pull != NULL)
		return &found;
	library = library_open("libsodium.so.23");
#define SODIUM_LOOK_UP(name) \
	all = all && library_find(library, #name, &found.name);
	SODIUM_FUNCTIONS(SODIUM_LOOK_UP)
#undef SODIUM_LOOK_UP
	if (all && found.sodium_init() >= 0)
		return &found;
	fault_set(why, FAULT_INTERNAL,
		  "copies cannot be sealed or unsealed without the library "
		  "libsodium; install the package libsodium23");
	return NULL;
}

/* --- keys ----------------------------------------------------------------- */

_Static_assert((int)KEY_BYTES == (int)crypto_box_PUBLICKEYBYTES, "struct key "
								 "holds a "
								 "public key");
_Static_assert((int)KEY_BYTES == (int)crypto_box_SECRETKEYBYTES, "struct key "
								 "holds a "
								 "private key");

bool
sealing_make_pair(struct key_pair *pair, struct fault *why)
{
	const struct sodium *sodium = load(why);

	if (sodium == NULL)
		return false;
	return sodium->crypto_box_keypair(pair->open.bytes,
					  pair->secret.bytes) == 0 ||
	       fault_set(why, FAULT_INTERNAL, "no keys could be drawn");
}

bool
sealing_complete_pair(struct key_pair *pair, struct fault *why)
{
	const struct sodium *sodium = load(why);

	if (sodium == NULL)
		return false;
	return sodium->crypto_scalarmult_base(pair->open.bytes,
					      pair->secret.bytes) == 0 ||
	       fault_set(why, FAULT_INPUT, "this is no private key");
}

enum {
	PIECE = 65536,
	STREAM_KEY = crypto_secretstream_xchacha20poly1305_KEYBYTES,
	STREAM_HEAD = crypto_secretstream_xchacha20poly1305_HEADERBYTES,
	STREAM_MORE = crypto_secretstream_xchacha20poly1305_ABYTES,
	BOX_SIZE = STREAM_KEY + crypto_box_SEALBYTES
};

bool
sealing_look(const char *path, bool *sealed, struct sealing_label *label,
	     struct fault *why)
{
	FILE *in = sealhead_open(path, why);
	char line[SEALHEAD_SIZE + 1];
	struct sealhead head;
	bool done;

	if (in == NULL)
		return false;
	done = sealhead_take(in, path, line, sealed, &head, why);
	fclose(in);
	if (done && *sealed)
		*label = head.label;
	return done;
}

/* --- sealing -------------------------------------------------------------- */

/* What stands before the pieces, and the stream as it begins: run twice, it
 * gives the same bytes twice. */
struct stream {
	const struct sodium *sodium;
	crypto_secretstream_xchacha20poly1305_state state;
	char line[SEALHEAD_SIZE + 1];
	unsigned char box[BOX_SIZE], stream_head[STREAM_HEAD];
	long long size;
};

/* Written to a file, or held against one. */
struct sink {
	FILE *out, *same;
};

static bool
give(const struct sink *sink, const void *bytes, size_t count)
{
	unsigned char there[PIECE + STREAM_MORE];

	if (sink->out != NULL)
		return fwrite(bytes, 1, count, sink->out) == count;
	return fread(there, 1, count, sink->same) == count &&
	       memcmp(there, bytes, count) == 0;
}

static size_t
piece_of(long long left)
{
	return left < PIECE ? (size_t)left : (size_t)PIECE;
}

/* Leaves `stream` as it is. */
static bool
run(const struct stream *stream, FILE *in, const struct sink *sink)
{
	crypto_secretstream_xchacha20poly1305_state state = stream->state;
	unsigned char plain[PIECE], piece[PIECE + STREAM_MORE];
	long long left = stream->size;
	bool last = false;

	if (!give(sink, stream->line, SEALHEAD_SIZE) ||
	    !give(sink, stream->box, BOX_SIZE) ||
	    !give(sink, stream->stream_head, STREAM_HEAD))
		return false;
	while (!last) {
		size_t count = piece_of(left);

		if (fread(plain, 1, count, in) != count)
			return false;
		left -= (long long)count;
		last = left == 0;
		stream->sodium->crypto_secretstream_xchacha20poly1305_push(
			&state, piece, NULL, plain, count,
			(const unsigned char *)stream->line, SEALHEAD_SIZE,
			last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL
			     : crypto_secretstream_xchacha20poly1305_TAG_MESSAGE);
		if (!give(sink, piece, count + STREAM_MORE))
			return false;
	}
	return true;
}

static bool
begin(struct stream *stream, FILE *in, const struct sealing_label *label,
      const struct key *key, struct fault *why)
{
	unsigned char drawn[STREAM_KEY];
	struct sealhead head = {.label = *label};
	struct stat status;

	memset(stream, 0, sizeof *stream);
	stream->sodium = load(why);
	if (stream->sodium == NULL)
		return false;
	if (fstat(fileno(in), &status) != 0)
		return fault_set(why, FAULT_INPUT, "it cannot be read: %s",
				 strerror(errno));
	stream->size = head.size = status.st_size;
	keytext_write_check(key, KEY_PUBLIC, head.key);
	sealhead_write(&head, stream->line);
	stream->sodium->crypto_secretstream_xchacha20poly1305_keygen(drawn);
	if (stream->sodium->crypto_box_seal(stream->box, drawn, sizeof drawn,
					    key->bytes) != 0)
		return fault_set(why, FAULT_INPUT,
				 "to this public key nothing can be sealed");
	stream->sodium->crypto_secretstream_xchacha20poly1305_init_push(
		&stream->state, stream->stream_head, drawn);
	stream->sodium->sodium_memzero(drawn, sizeof drawn);
	return true;
}

static bool
read_back(const struct stream *stream, FILE *in, const struct safefile *to,
	  struct fault *why)
{
	struct sink sink = {NULL, fopen(to->temporary, "rb")};
	bool same;

	if (sink.same == NULL)
		return fault_set(why, FAULT_OUTPUT,
				 "what was written cannot be read: %s",
				 strerror(errno));
	rewind(in);
	same = run(stream, in, &sink) && getc(sink.same) == EOF;
	fclose(sink.same);
	return same || fault_set(why, FAULT_OUTPUT,
				 "what was read back is not what was written");
}

static bool
write_stream(const struct stream *stream, FILE *in, struct safefile *to,
	     struct fault *why)
{
	struct sink sink = {to->out, NULL};

	errno = 0;
	if (!run(stream, in, &sink))
		return fault_set(why, FAULT_OUTPUT,
				 "'%.300s' was not written: %s", to->path,
				 strerror(errno != 0 ? errno : EIO));
	return safefile_settle(to, why) && read_back(stream, in, to, why);
}

bool
sealing_seal(const char *from, struct safefile *to,
	     const struct sealing_label *label, const struct key *key,
	     struct fault *why)
{
	FILE *in = sealhead_open(from, why);
	struct stream stream;
	bool done;

	if (in == NULL)
		return false;
	done = begin(&stream, in, label, key, why) &&
	       write_stream(&stream, in, to, why);
	fclose(in);
	return done;
}

/* --- unsealing ------------------------------------------------------------ */

static bool
check_size(FILE *in, const char *path, long long size, struct fault *why)
{
	long long pieces = size == 0 ? 1 : (size + PIECE - 1) / PIECE;
	long long whole = SEALHEAD_SIZE + BOX_SIZE + STREAM_HEAD + size +
			  pieces * STREAM_MORE;
	struct stat status;

	if (fstat(fileno(in), &status) != 0 || status.st_size < whole)
		return sealhead_cut_short(path, why);
	return status.st_size == whole || sealhead_refuse(path,
							  "is longer than what "
							  "was "
							  "seale"
							  "d" SEALHEAD_ANOTHER,
							  why);
}

/* Opens the box, and begins the stream with the key in it. */
static bool
open_box(struct stream *stream, FILE *in, const char *path,
	 const struct key_pair *pair, struct fault *why)
{
	unsigned char drawn[STREAM_KEY];
	bool done;

	if (fread(stream->box, 1, BOX_SIZE, in) != BOX_SIZE ||
	    fread(stream->stream_head, 1, STREAM_HEAD, in) != STREAM_HEAD)
		return sealhead_cut_short(path, why);
	done = stream->sodium->crypto_box_seal_open(drawn, stream->box,
						    BOX_SIZE, pair->open.bytes,
						    pair->secret.bytes) == 0 &&
	       stream->sodium->crypto_secretstream_xchacha20poly1305_init_pull(
		       &stream->state, stream->stream_head, drawn) == 0;
	stream->sodium->sodium_memzero(drawn, sizeof drawn);
	return done || sealhead_altered(path, why);
}

static bool
take_piece(struct stream *stream, FILE *in, const char *path, size_t count,
	   bool last, unsigned char *plain, struct fault *why)
{
	unsigned char piece[PIECE + STREAM_MORE], tag = 0, wanted;

	wanted = last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL
		      : crypto_secretstream_xchacha20poly1305_TAG_MESSAGE;
	if (fread(piece, 1, count + STREAM_MORE, in) != count + STREAM_MORE)
		return sealhead_cut_short(path, why);
	if (stream->sodium->crypto_secretstream_xchacha20poly1305_pull(
		    &stream->state, plain, NULL, &tag, piece,
		    count + STREAM_MORE, (const unsigned char *)stream->line,
		    SEALHEAD_SIZE) != 0 ||
	    tag != wanted)
		return sealhead_altered(path, why);
	return true;
}

static bool
take_pieces(struct stream *stream, FILE *in, const char *path,
	    struct safefile *to, struct fault *why)
{
	unsigned char plain[PIECE];
	long long left = stream->size;
	bool last = false;

	while (!last) {
		size_t count = piece_of(left);

		left -= (long long)count;
		last = left == 0;
		if (!take_piece(stream, in, path, count, last, plain, why))
			return false;
		if (fwrite(plain, 1, count, to->out) != count)
			return fault_set(why, FAULT_OUTPUT,
					 "'%.300s' was not written: %s",
					 to->path, strerror(errno));
	}
	return fflush(to->out) == 0 ||
	       fault_set(why, FAULT_OUTPUT, "'%.300s' was not written: %s",
			 to->path, strerror(errno));
}

static bool
unseal(struct stream *stream, FILE *in, const char *path, struct safefile *to,
       const struct key_pair *pair, struct fault *why)
{
	char check[KEYTEXT_CHECK_SIZE];
	struct sealhead head;
	bool sealed;

	if (!sealhead_take(in, path, stream->line, &sealed, &head, why))
		return false;
	if (!sealed)
		return sealhead_refuse(path, "is no sealed copy", why);
	keytext_write_check(&pair->open, KEY_PUBLIC, check);
	if (strcmp(check, head.key) != 0)
		return fault_set(why, FAULT_INPUT,
				 "'%.300s' was sealed to another key: to the "
				 "one that ends in %s, and this one's ends in "
				 "%s",
				 path, head.key, check);
	stream->size = head.size;
	return check_size(in, path, head.size, why) &&
	       open_box(stream, in, path, pair, why) &&
	       take_pieces(stream, in, path, to, why);
}

bool
sealing_unseal(const char *from, struct safefile *to,
	       const struct key_pair *pair, struct fault *why)
{
	struct stream stream;
	bool done;
	FILE *in;

	stream.sodium = load(why);
	if (stream.sodium == NULL)
		return false;
	in = sealhead_open(from, why);
	if (in == NULL)
		return false;
	done = unseal(&stream, in, from, to, pair, why);
	fclose(in);
	return done;
}
