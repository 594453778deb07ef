/* Tests of keep/sealing, keep/sealhead and keep/keytext: sealed copies. */
#include "keep/sealing.h"

#include "folder.h"

#include <criterion/criterion.h>

static char folder[FOLDER_SIZE], plain[FOLDER_PATH], sealed[FOLDER_PATH],
	again[FOLDER_PATH];
static struct key_pair pair;
static struct fault why;
static const struct sealing_label label = {14, "ABCDEF", 123};

enum { MOST = 200000 };

static char bytes[MOST], other[MOST];

static void
begin(void)
{
	cr_assert(folder_make(folder));
	folder_path(folder, "plain", plain);
	folder_path(folder, "sealed", sealed);
	folder_path(folder, "again", again);
	cr_assert(sealing_make_pair(&pair, &why), "%s", why.sentence);
}

static void
end(void)
{
	folder_remove(folder);
}

TestSuite(sealing, .init = begin, .fini = end);

/* Of so many bytes that differ from one piece to the next. */
static void
seal(long size)
{
	struct safefile file;

	for (long i = 0; i < size; i++)
		bytes[i] = (char)(i * 7 + i / 251);
	cr_assert(folder_put(plain, bytes, (size_t)size));
	cr_assert(safefile_open(&file, sealed, &why));
	cr_assert(sealing_seal(plain, &file, &label, &pair.open, &why), "%s",
		  why.sentence);
	cr_assert(safefile_commit(&file, SAFEFILE_SYNCED, &why));
}

static bool
unseal(const struct key_pair *with)
{
	struct safefile file;
	bool done;

	cr_assert(safefile_open(&file, again, &why));
	done = sealing_unseal(sealed, &file, with, &why);
	if (done)
		cr_assert(safefile_commit(&file, SAFEFILE_SYNCED, &why));
	else
		safefile_drop(&file);
	return done;
}

Test(sealing, what_is_sealed_comes_back_as_it_was)
{
	static const long sizes[] = {0,	    1,	   100,	   65535,
				     65536, 65537, 131072, 150000};

	for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
		struct sealing_label read;
		bool is_sealed;

		seal(sizes[i]);
		cr_assert(unseal(&pair), "%ld: %s", sizes[i], why.sentence);
		cr_expect_eq(folder_get(again, other, MOST), sizes[i]);
		cr_expect(memcmp(bytes, other, (size_t)sizes[i]) == 0, "%ld",
			  sizes[i]);
		cr_assert(sealing_look(sealed, &is_sealed, &read, &why));
		cr_expect(is_sealed);
		cr_expect(read.station == 14 && read.entries == 123);
		cr_expect_str_eq(read.device, "ABCDEF");
	}
	/* Nothing of it can be read in the sealed file. */
	for (long i = 0; i + 8 < 600; i += 8) {
		long length = folder_get(sealed, other, MOST);

		for (long j = 0; j + 8 < length; j++)
			cr_assert(memcmp(bytes + i, other + j, 8) != 0);
	}
}

static void
expect_refused(const char *what, long at, const char *const *says)
{
	bool said = false;

	cr_expect(!unseal(&pair), "%s %ld was taken", what, at);
	cr_expect_eq(why.kind, FAULT_INPUT, "%s %ld", what, at);
	for (; *says != NULL; says++)
		said = said || strstr(why.sentence, *says) != NULL;
	cr_expect(said, "%s %ld: %s", what, at, why.sentence);
	cr_expect_eq(folder_count(folder), 2, "%s %ld left something", what,
		     at);
}

/* Every prefix, a bit flipped in every byte, and a byte more. */
Test(sealing, nothing_cut_or_altered_is_unsealed)
{
	static const char *const cut[] = {"cut short", "no sealed copy", NULL};
	static const char *const altered[] = {"was altered", "no sealed copy",
					      NULL};
	static const char *const longer[] = {"is longer", NULL};
	static char whole[2000];
	long length;

	seal(300);
	length = folder_get(sealed, whole, sizeof whole);
	cr_assert_eq(length, 128 + 80 + 24 + 300 + 17);
	for (long i = 0; i < length; i++) {
		cr_assert(folder_put(sealed, whole, (size_t)i));
		expect_refused("prefix", i, cut);
	}
	for (long i = 0; i < length; i++) {
		whole[i] ^= (char)(1 << i % 8);
		cr_assert(folder_put(sealed, whole, (size_t)length));
		expect_refused("byte", i, altered);
		whole[i] ^= (char)(1 << i % 8);
	}
	cr_assert(folder_put(sealed, whole, (size_t)length + 1));
	expect_refused("longer", length, longer);
}

/* Pieces of two files, or in another order, are no file. */
Test(sealing, pieces_do_not_change_places)
{
	static const char *const altered[] = {"was altered", NULL};
	static char first[MOST];
	const long head = 128 + 80 + 24, piece = 65536 + 17;
	long length;

	seal(150000);
	length = folder_get(sealed, first, MOST);
	seal(150000);
	cr_assert_eq(folder_get(sealed, other, MOST), length);
	memcpy(other + head, first + head, (size_t)piece);
	cr_assert(folder_put(sealed, other, (size_t)length));
	expect_refused("mixed", 0, altered);
	memcpy(other, first, (size_t)length);
	memcpy(other + head, first + head + piece, (size_t)piece);
	memcpy(other + head + piece, first + head, (size_t)piece);
	cr_assert(folder_put(sealed, other, (size_t)length));
	expect_refused("swapped", 0, altered);
}

Test(sealing, another_key_is_told_by_its_letters)
{
	struct key_pair wrong;
	char check[KEYTEXT_CHECK_SIZE];

	seal(300);
	cr_assert(sealing_make_pair(&wrong, &why));
	cr_expect(!unseal(&wrong));
	keytext_write_check(&pair.open, KEY_PUBLIC, check);
	cr_expect(strstr(why.sentence, "another key") != NULL);
	cr_expect(strstr(why.sentence, check) != NULL, "%s", why.sentence);
}

Test(sealing, a_key_is_read_as_it_was_written_and_never_mistyped)
{
	char text[KEYTEXT_SIZE], typed[2 * KEYTEXT_SIZE], secret[KEYTEXT_SIZE];
	struct key key;

	keytext_write(&pair.open, KEY_PUBLIC, text);
	cr_expect_eq(strlen(text), KEYTEXT_SIZE - 1);
	cr_assert(keytext_read(text, KEY_PUBLIC, &key, &why));
	cr_expect(memcmp(&key, &pair.open, sizeof key) == 0);
	for (size_t i = 0; i < strlen(text); i++)
		typed[i] = text[i] == '-' ? ' '
			   : text[i] >= 'a' && text[i] <= 'z'
				   ? (char)(text[i] - 32)
				   : text[i];
	typed[strlen(text)] = '\0';
	cr_expect(keytext_read(typed, KEY_PUBLIC, &key, &why), "%s", typed);
	for (size_t i = 0; i < strlen(text); i++) {
		if (text[i] == '-')
			continue;
		memcpy(typed, text, sizeof text);
		typed[i] = typed[i] == '0' ? '8' : typed[i] == 'A' ? 'B' : '0';
		if (strcmp(typed, text) == 0)
			typed[i] = '1';
		cr_expect(!keytext_read(typed, KEY_PUBLIC, &key, &why),
			  "%zu: %s", i, typed);
		typed[i] = '\0';
		cr_expect(!keytext_read(typed, KEY_PUBLIC, &key, &why),
			  "prefix %zu", i);
	}
	snprintf(typed, sizeof typed, "%sa", text);
	cr_expect(!keytext_read(typed, KEY_PUBLIC, &key, &why));
	/* The private key in the place of the public one, and what is said
	 * must not repeat it. */
	keytext_write(&pair.secret, KEY_PRIVATE, secret);
	cr_expect(!keytext_read(secret, KEY_PUBLIC, &key, &why));
	cr_expect(strstr(why.sentence, "mistyped or is of the other kind") !=
		  NULL);
	secret[8] = '\0';
	cr_expect(strstr(why.sentence, secret) == NULL);
}

Test(sealing, the_private_key_is_for_its_owner_and_never_written_over)
{
	struct key_pair read;

	cr_assert(keytext_write_private(plain, &pair.secret, &why));
	cr_expect_eq(folder_mode(plain), 0600);
	cr_assert(keytext_read_private(plain, &read.secret, &why));
	cr_assert(sealing_complete_pair(&read, &why));
	cr_expect(memcmp(&read, &pair, sizeof read) == 0);
	cr_expect(!keytext_write_private(plain, &pair.secret, &why));
	cr_expect(strstr(why.sentence, "never written over") != NULL);
	cr_expect(!keytext_read_file(plain, &read.open, &why));
	cr_expect(strstr(why.sentence, "private key") != NULL);
}
