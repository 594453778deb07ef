#!/bin/bash
# Huge and endless inputs, under a limit of memory: refused with a sentence.
. "$SHOAL_TREE/tests/faults/lib.sh"
new_station
one_sheet 'Adira Moru' 25 | "$SHOAL" --today 2026-03-10 screen --csv - > answers
number=$(sed -n 2p answers | cut -d, -f1)
ask_register 'SELECT * FROM visit' > before
most_kib=200000
mib=$([ "${FAULTS_SHORT:-no}" = yes ] && echo 24 || echo 400)

sheet_header_only() { printf '%s\n' "$sheet_header"; }
zeros() { head -c ${mib}M /dev/zero; }
# Lines without an end, quotes without an end, rows without an end.
long_line() { printf "%s" "$1"; head -c ${mib}M /dev/zero | tr '\0' x; }
quotes() { printf '%s\n"' "$1"; head -c ${mib}M /dev/zero | tr '\0' '\n'; }
rows() { printf '%s\n' "$1"; yes "$2" | head -c ${mib}M; }

# takes STATUSES WORDS ARGUMENTS...: reads it from standard input.
takes() {
	statuses=$1; words=$2
	shift 2
	status=0
	(ulimit -v $most_kib; exec timeout 120 "$SHOAL" --today 2026-03-10 "$@") \
		> out 2> err || status=$?
	case " $statuses " in *" $status "*) ;; *)
		echo "status $status: $*"; head -c 300 err; return 1 ;; esac
	grep -qE "$words" err || { head -c 300 err; return 1; }
	[ "$(wc -c < err)" -lt 2000000 ]
}
large='too large|longer than|too long|at most|more than|zero|NUL|UTF-8|refused'

for input in zeros 'long_line id' 'quotes depth_right,depth_left' \
	'rows depth_right,depth_left 15,40'; do
	feed() {
		case $input in
		zeros) zeros ;;
		long_line*) long_line id ;;
		quotes*) quotes depth_right,depth_left ;;
		rows*) rows depth_right,depth_left 15,40 ;;
		esac
	}
	# Many good rows are answered, however many; all else is refused.
	answer='3'
	case $input in rows*) answer='0' ;; esac
	piped() { feed | takes "$@"; }
	if [ "$answer" = 3 ]; then
		count_wrong piped 3 "$large" assess --csv -
		count_wrong piped 3 "$large" policy try \
			"$SHOAL_BOOK/policy.ini" --csv -
	fi
	count_wrong piped 3 "$large|column" screen --csv -
	count_wrong piped 3 "$large|column" reply --csv -
	count_wrong piped 3 "$large|column|counted" agree -
	count_wrong piped 3 "$large|tall|counted" collate -
	count_wrong piped 4 "$large" policy check -
	count_wrong piped 4 "$large" --policy - assess --right 25 --left 25
	count_wrong piped 4 "$large" --station - list
done
many_people() { rows "$sheet_header" 'NT,,58,F,15,40,16,17,,yes' |
	takes 3 'more than|too large' screen --csv -; }
count_wrong many_people
prompts() { { printf 'NT\n'; zeros; echo; } | takes '0 3' 'too long|NUL|input ended' screen; }
count_wrong prompts
for device in /dev/zero /dev/full /dev/random .; do
	for line in "policy check $device" "--policy $device policy show" \
		"collate $device" "agree $device" "assess --csv $device" \
		"screen --csv $device" "reply --csv $device"; do
		count_wrong takes '0 3 4' \
			"no plain file|$large|directory|Is a|counted|cannot|column" \
			$line
	done
done
ask_register 'SELECT * FROM visit' | cmp - before && corrupted=0 || corrupted=1
figure "huge and endless inputs, $mib MiB in $((most_kib / 1000)) MB" \
	"$tried" 0 "$corrupted" "$wrong"
