/* safekeeping.h: rows of the table of commands: copies, keys, mending. */
#ifndef SHOAL_DESK_SAFEKEEPING_H
#define SHOAL_DESK_SAFEKEEPING_H

/* Used once, in commands.c, which includes what is named here. */
/* clang-format off */
#define SAFEKEEPING_ROWS \
{ \
"backup", "FILE [OPTIONS]", "copy the register to a stick, and read it back", \
"FILE is a file on a stick or another disk, or a folder there, in which the " \
"copy is named backup-SSSS-YYYY-MM-DD.db. Others may go on saving meanwhile. " \
"The copy is written beside, synced, read back from the stick, compared with " \
"the register value by value, and only then put in its place; then it is said " \
"that the stick may be pulled out. Before that it may not.\n" \
"\n" \
"A file that is there is replaced only when it is an older copy of the same " \
"register, which has nothing that this one has not. The copy holds names: " \
"keep it as safe as the laptop, or seal it.\n" \
"\n" \
"With --to-key it is sealed to the programme's public key, named .sealed in a " \
"folder: no password is needed at the camp, and who finds the stick can read " \
"nothing. 'shoal key' makes the pair of keys.", \
{ \
	{"to-key", NULL, "seal it to the key under [backup] in station.ini"}, \
	{"key", "FILE", "seal it to the public key in FILE"}, \
}, \
1, 1, NEED_STATION | NEED_BOOK_READ, run_backup \
}, \
{ \
"restore", "FILE [OPTIONS]", "bring the register back from a copy", \
"On another laptop set up the station first, with 'shoal start' and the same " \
"code, and bring its policy.ini. The copy is checked before anything is changed. " \
"The register that stands in the folder is kept aside, never removed; when it " \
"has entries that the copy does not have, or cannot be read, that is said, and " \
"nothing is done until the word is typed.\n" \
"\n" \
"A copy may be older than the last slip given out. So numbers go on where surely " \
"nobody has one: after the last, or, where that is not known, from the next " \
"thousand. And 'shoal collate' tells the restored register from the one before " \
"and names every day that both report.", \
{ \
	{"key", "FILE", "the private key, for a sealed copy"}, \
	{"yes", NULL, "do not ask"}, \
}, \
1, 1, NEED_STATION, run_restore \
}, \
{ \
"key", "FILE [OPTIONS]", "make the pair of keys for sealed copies", \
"To be done once, in the programme's office. Writes the private key to FILE and " \
"prints the public one, as the line for [backup] in station.ini of every " \
"laptop. Seven letters at its end make that a mistyped key is refused. Whoever " \
"has FILE can read every sealed copy; without it nobody can: keep a second one " \
"in another safe place.", \
{ \
	{"show", NULL, "print the public key that belongs to FILE"}, \
}, \
1, 1, NEED_NOTHING, run_key \
}, \
{ \
"mend", "", "save what can be read of a damaged register", \
"For a register that is said to be damaged; a sound one is left alone. Try the " \
"last backup copy first, with 'shoal restore', if little was entered since. The " \
"damaged file is kept aside, and every entry that is still whole goes into a new " \
"register: as it was, or not at all. It tells how many people were saved, how " \
"many entries are lost, and which numbers have a slip but no entry. Numbers go on " \
"from the next hundred, so that none is given out twice.", \
{{NULL, NULL, NULL}}, \
0, 0, NEED_STATION, run_mend \
}, \
{ \
"purge", "--before DATE [OPTIONS]", "remove the names of camps that are over", \
"Of everybody screened before DATE name, contact, written reasons, free texts of " \
"the replies and the slips are removed for good, and overwritten on the disk. " \
"Numbers, days, ages, grades, decisions and the clinic's answers stay: tallies " \
"and yields count the same before and after. It says what it will do and what " \
"other files may hold names, and does nothing until the word is typed.\n" \
"\n" \
"Who was sent to the clinic and has no reply yet keeps the name, since nobody " \
"could call them otherwise. Copies made before still hold the names. Flash memory " \
"may keep old bytes for a while: only an encrypted disk helps against that.", \
{ \
	{"before", "DATE", "the first day that keeps its names"}, \
	{"waiting-too", NULL, "also of those who have no reply yet"}, \
	{"yes", NULL, "do not ask"}, \
}, \
0, 0, NEED_STATION, run_purge \
},
/* clang-format on */

#endif
