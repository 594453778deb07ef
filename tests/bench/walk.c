/* walk.c: the least that anything must do that reads a folder of files. */
#include <fcntl.h>
#include <fts.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

/*
 * usage: walk FOLDER
 *
 * Walks the folder without following links, opens each file, reads it to its
 * end and adds up its bytes. Prints files and bytes.
 */
enum { BUFFER = 1 << 20 };

static long long
read_file(const char *path)
{
	static char buffer[BUFFER];
	int file = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
	long long bytes = 0;
	ssize_t got;

	if (file < 0)
		return -1;
	while ((got = read(file, buffer, sizeof buffer)) > 0)
		bytes += got;
	close(file);
	return got < 0 ? -1 : bytes;
}

int
main(int argc, char *argv[])
{
	long long files = 0, bytes = 0;
	FTSENT *entry;
	FTS *walk;

	if (argc != 2)
		return 2;
	walk = fts_open((char *[]){argv[1], NULL}, FTS_PHYSICAL | FTS_NOSTAT,
			NULL);
	if (walk == NULL)
		return 1;
	while ((entry = fts_read(walk)) != NULL) {
		long long size;

		if (entry->fts_info != FTS_F && entry->fts_info != FTS_NSOK)
			continue;
		size = read_file(entry->fts_accpath);
		if (size < 0)
			return 1;
		files++;
		bytes += size;
	}
	fts_close(walk);
	printf("%lld files, %lld bytes\n", files, bytes);
	return 0;
}
