/* version.h: the program's version and its day. */
#ifndef SHOAL_DESK_VERSION_H
#define SHOAL_DESK_VERSION_H

#define SHOAL_VERSION "0.1.0"
#define SHOAL_RELEASED "2026-11-25"

#endif
