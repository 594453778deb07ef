/* version.h: the program's version, as --version prints it. */
#ifndef SHOAL_DESK_VERSION_H
#define SHOAL_DESK_VERSION_H

#define SHOAL_VERSION "0.1.0"

#endif
