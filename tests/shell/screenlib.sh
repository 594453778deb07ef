# A terminal to type into and to look at. Sourced after lib.sh.
terminal=shoal$$
tmux() { command tmux -u -L "$terminal" "$@"; }
close_terminal() { tmux kill-server 2> /dev/null || true; }
trap close_terminal EXIT

# How many rows that have left the window are looked at too.
behind=0

# open_terminal [COLUMNS ROWS [TERM]]: a shell in a window of that size.
open_terminal() {
	env LC_ALL=C.UTF-8 tmux -u -L "$terminal" -f /dev/null new-session -d \
		-x "${1:-80}" -y "${2:-24}" \
		"env LC_ALL=C SHOAL_BOOK='$SHOAL_BOOK' ${3:+TERM=$3} bash --norc -i"
	tmux set-option -g status off > /dev/null
}

# Keys by name, anything else letter by letter.
press() { tmux send-keys "$@"; }
type_text() { tmux send-keys -l -- "$1"; }
type_line() { tmux send-keys -l -- "$1" ';' send-keys Enter; }
picture() { tmux capture-pane -p -S "-$behind"; }

# stands WORDS: whether they are on the screen now, whatever room is between.
stands() {
	local shown
	shown=$(picture)
	while [[ $shown == *'  '* ]]; do shown=${shown//  / }; done
	[[ $shown == *"$1"* ]]
}

# wait_for WORDS: until they are there.
wait_for() {
	for _ in $(seq 300); do
		! stands "$1" || return 0
		sleep 0.05
	done
	picture
	fail "the terminal never showed: $1"
}
shows() { stands "$1" || { picture; fail "not shown: $1"; }; }
lacks() { ! stands "$1" || { picture; fail "shown: $1"; }; }

# in_shell COMMAND: until it is done; what is shown stands neither in the line
# that is typed nor behind an earlier command.
done_before=0
in_shell() {
	done_before=$((done_before + 1))
	type_line "$1; clear; echo done \$((40 + $done_before))"
	wait_for "done $((40 + done_before))"
}

# In that terminal: the program, its number in the file pid, up to the form.
screen_command="sh -c 'echo \$\$ > pid; exec $SHOAL --today 2026-03-10 screen \"\$@\"' sh"
begin() {
	type_line "clear; $screen_command $*"
	wait_for 'Your initials'
	type_line NT
	wait_for 'Esc menu'
}
# Once before: the state of the terminal.
settle() { in_shell 'stty -a > before'; }
# ended WORDS: the shell is back, and the terminal as it was.
ended() {
	wait_for "$1"
	in_shell 'stty -a > after'
	cmp before after || fail 'the terminal was left in another state'
}
entries() { ask_register 'SELECT count(*) FROM visit'; }
