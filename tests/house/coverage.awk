# What gcov -t -b -c prints about one source, summed; see coverage.sh. Lines
# "room FILE REACHED LINES TAKEN BRANCHES" and "missed FILE LINE FUNCTION TEXT",
# separated by tabs.
/^ *-: *0:Source:/ {
	file = $0
	sub(/.*Source:/, "", file)
	mine = file == source
	next
}
!mine { next }
/^branch / {
	branches++
	if ($0 ~ /taken [1-9]/) taken++
	next
}
/^(call|unconditional|function)/ { next }
{
	text = $0
	sub(/^[^:]*:[^:]*:/, "", text)
	if (text ~ /^[a-z_0-9]+\(/) {
		name = text
		sub(/\(.*/, "", name)
	}
	split($0, part, ":")
	count = part[1]
	gsub(/ /, "", count)
	if (count == "-" || part[2] + 0 == 0) next
	lines++
	if (count !~ /^[#=]/) { reached++; next }
	sub(/^[ \t]*/, "", text)
	print "missed\t" source "\t" part[2] + 0 "\t" name "\t" text
}
END {
	print "room\t" source "\t" reached + 0 "\t" lines + 0 "\t" taken + 0 \
		"\t" branches + 0
}
