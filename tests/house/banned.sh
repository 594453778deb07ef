#!/bin/sh
# Refuse calls that fail silently, overflow, or hang on the user's locale.
set -u
calls='atoi|atol|atoll|atof|strtok|sprintf|vsprintf|strcpy|strcat|gets'
calls="$calls|scanf|sscanf|fscanf|vscanf|vsscanf|vfscanf|localtime|strftime"
# The number getters of iniparser take "25%" for 25 and "abc" for 0.
calls="$calls|iniparser_get(int|longint|int64|uint64|double|boolean)"

found=$(grep -nE -e "(^|[^A-Za-z0-9_])($calls)[[:space:]]*\(" \
	-e 'setlocale[[:space:]]*\([[:space:]]*LC_ALL' src/*/*.c src/*/*.h)
case $? in
0) printf 'Banned calls:\n%s\n' "$found"; exit 1 ;;
1) exit 0 ;;
*) exit 1 ;;
esac
