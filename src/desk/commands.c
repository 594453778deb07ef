/* commands.c: the table of commands. */
#include "desk/commands.h"

#include "desk/run.h"
#include "desk/safekeeping.h"

/* clang-format off */
#define NUMBER_IS "NUMBER is the referral number, SSSS-NNNNN-CC.\n"

static const struct command rows[] = {
{
"start", "[OPTIONS]", "set up a station's folder on this laptop",
"Makes the folder with station.ini, policy.ini, an empty register and the "
"folders for slips and tallies. What is not given as an option is asked; "
"without a terminal --station, --programme and --site are needed. A station "
"that exists is refused. A policy.ini that is there already is kept if it "
"has no fault.",
{
	{"station", "0014", "the station's code, a different one per laptop"},
	{"programme", "NAME", "the programme"},
	{"site", "NAME", "where the camp is"},
	{"camp-phone", "TEXT", "the phone at the camp, for the clinic"},
	{"clinic", "NAME", "the eye clinic that people are sent to"},
	{"address", "TEXT", "where the clinic is"},
	{"days", "TEXT", "its days and hours"},
	{"door", "TEXT", "which door or desk"},
	{"cost", "TEXT", "what the visit costs"},
	{"phone", "TEXT", "the clinic's phone"},
},
0, 0, NEED_NOTHING, run_start
},
{
"screen", "[OPTIONS]", "screen people, one after another",
"In a window of at least 80 columns by 24 rows all about one person stands on "
"one screen, the right eye on the left, as you face the person. Number keys "
"choose, Enter goes on, arrows go to any answer, ? explains; the lowest row "
"lists the keys. The decision grows with the answers, and nobody is called well "
"before all is asked. When all is answered Enter saves. Esc opens the menu: "
"another grader, take back the last person, drop this one, finish.\n"
"\n"
"In other windows, and with --plain, one question a line; number keys for "
"choices; Enter takes what stands in brackets; < goes back, ? explains. A "
"summary with the decision and its reasons comes before anything is saved, and "
"any answer can be corrected there. < at the first question opens the menu.\n"
"\n"
"What is typed at a keyboard is put aside after each answer: after a power cut "
"the unfinished person is offered at the next start. Only who is saved counts.\n"
"\n"
"With --csv a typed paper sheet is entered: a header naming the columns, "
"all rows or none. Columns: number (paper serials), screened_on, site, "
"grader, name, contact, age_years, age_estimated, sex, depth_right, "
"depth_left, not_gradable_why_right, not_gradable_why_left, pressure_right, "
"pressure_left, findings, reply_consent. Needed are grader, depth_right, "
"depth_left, findings and reply_consent. Prints number, urgency and see_by "
"per row. A sheet of which half the rows are in the register already, value for "
"value, is refused.\n"
"\n"
"From the paper register of 'shoal forms' the columns are typed as printed "
"under its headings. Instead of findings it has complaints, risks, past_right, "
"past_left, signs_right and signs_left, with the numbers that are circled, "
"such as 13, or 0 for none.",
{
	{"date", "YYYY-MM-DD", "the day of screening, for a paper day"},
	{"site", "NAME", "the site of that day, if not the station's"},
	{"csv", "FILE", "enter a typed sheet; - is standard input"},
	{"again", NULL, "enter it though its people seem to be entered already"},
	{"plain", NULL, "one question a line, in any window"},
},
0, 0, NEED_POLICY | NEED_STATION | NEED_WORDING | NEED_BOOK_WRITE, run_screen
},
{
"assess", "--right DEPTH --left DEPTH [OPTIONS]",
"the decision for one person or many, saving nothing",
"Depths are 0 5 15 25 40 75 100 (per cent of the corneal thickness), x for "
"could not be graded, - for no eye. Findings are codes joined by commas, "
"those of an eye as right:CODE or left:CODE.\n"
"\n"
"With --csv rows are read with a header naming any of id, age_years, sex, "
"depth_right, depth_left, pressure_right, pressure_left, findings; the answer "
"is id,urgency,within_days,rescreen_months,rules,problem per row. A bad row "
"has its problem named, the others are answered, and the exit status is 3.\n"
"\n"
"For example:\n"
"  shoal assess --age 58 --sex F --right 15% --left 1/4 --pressure-right 19",
{
	{"age", "YEARS", "0 to 120; leave out when not known"},
	{"sex", "F|M|X", "recorded only"},
	{"right", "DEPTH", "right eye"},
	{"left", "DEPTH", "left eye"},
	{"pressure-right", "MMHG", "1 to 99; leave out when not measured"},
	{"pressure-left", "MMHG", "the same"},
	{"findings", "CODES", "see 'shoal help findings'"},
	{"explain", NULL, "every rule that held, and what could still hold"},
	{"csv", "[FILE]", "many people; standard input without a FILE"},
},
0, 0, NEED_POLICY, run_assess
},
{
"slip", "NUMBER [OPTIONS]", "print a person's slip again",
NUMBER_IS
"Text of 72 columns unless told otherwise. Everybody screened has a slip.",
{
	{"html", NULL, "one page for A5, to print from a browser"},
	{"narrow", NULL, "40 columns, for receipt printers"},
	{"language", "LL", "en, fr, es, sw, ar, or that of a wording-LL.ini in "
		"the station's folder; without it the station's own"},
	{"out", "FILE", "write there; - is standard output"},
},
1, 1, NEED_POLICY | NEED_STATION | NEED_WORDING | NEED_BOOK_READ, run_slip
},
{
"forms", "FOLDER [OPTIONS]", "forms to print, for days without the laptop",
"Writes pages to print from a browser, black on white, with the station's own "
"names and numbers: paper-register.html and paper-slips.html (numbered; print "
"the slips on both sides, turned on the short edge), tally-sheet.html, "
"reply-sheet.html for gonioscopy, training-sheet.html and grading-card.html for "
"the slit lamp. Print at true size, without fitting to the page.\n"
"\n"
"A pad is 20 people. Paper numbers begin at 90001 and are never given out by "
"the program; print each only once: go on with --from, as told at the end. "
"Numbers that the register holds already are refused.\n"
"\n"
"A paper day is typed in with 'shoal screen --csv' under the names printed in "
"the register; paper-register.csv holds their first line.",
{
	{"pads", "N", "so many pads (default 1)"},
	{"from", "SERIAL", "the first number of the first pad (default 90001)"},
	{"language", "LL", "as for 'shoal slip'"},
},
1, 1, NEED_POLICY | NEED_STATION | NEED_WORDING, run_forms
},
{
"list", "[OPTIONS]", "list who was screened",
"By number; void and corrected entries are marked, and those not referred whom "
"the policy chose by number to check the screening.\n"
"\n"
"With --waiting those who were sent to the clinic and have no reply yet, for "
"the phone calls: the longest overdue first. Enter what is learnt with 'shoal "
"reply'. The call sheet holds names: keep it locked away.",
{
	{"date", "YYYY-MM-DD", "only that day"},
	{"csv", NULL, "as CSV, without name and contact"},
	{"names", NULL, "with --csv: name and contact too"},
	{"waiting", NULL, "who has no reply from the clinic yet"},
	{"html", NULL, "with --waiting: a call sheet for A4, to print from a "
		"browser"},
	{"out", "FILE", "with --waiting: write there; - is standard output"},
},
0, 0, NEED_STATION | NEED_BOOK_READ, run_list
},
{
"correct", "NUMBER [OPTIONS]", "correct a person, who is decided again",
NUMBER_IS
"The old entry stays in the register beside the new one and the reason. "
"Judged by the policy that judged the person. Without --set the summary is "
"shown and any line can be corrected; < at the reason goes back to it. Fields "
"for --set are those of the sheet (see 'shoal help screen').\n"
"\n"
"Tells whether the answer has changed, and whether the slip in the person's "
"hand has to be replaced.",
{
	{"reason", "TEXT", "why; asked when not given"},
	{"set", "FIELD=VALUE", "a new value; may be given several times"},
},
1, 1, NEED_POLICY | NEED_STATION | NEED_WORDING | NEED_BOOK_WRITE, run_correct
},
{
"void", "NUMBER [OPTIONS]", "take back an entry made by mistake",
NUMBER_IS
"The entry is shown first; < at the reason keeps it. It is counted no more, "
"stays in the register with the reason, and its number is never given out "
"again. Its slip's files say then that they are not valid.",
{
	{"reason", "TEXT", "why; asked when not given"},
},
1, 1, NEED_POLICY | NEED_STATION | NEED_WORDING | NEED_BOOK_WRITE, run_void
},
{
"reply", "[NUMBER] [OPTIONS]", "record what the clinic writes back",
NUMBER_IS
"The questions follow the reply on the slip, quadrant by quadrant; = answers "
"as in the quadrant before, == so for the rest of the eye, Enter alone leaves a "
"question not recorded. The class of "
"the angle is derived by the limits in the policy's [gonioscopy] section and "
"shown with them; it is never typed. A reply that is there already is shown and "
"can be corrected; the old one stays in the register beside the new one and "
"the reason.\n"
"\n"
"With --csv a sheet of many is entered: a header naming the columns, all rows "
"or none. Needed are number, outcome and seen_on; 'shoal reply --fields' lists "
"all. Prints number, outcome and class per row.\n"
"\n"
"For example:\n"
"  shoal reply 0014-00001-98 --set pressure_left=17 --reason \"misread\"",
{
	{"set", "FIELD=VALUE", "an answer; may be given several times"},
	{"reason", "TEXT", "why a reply is corrected; asked when not given"},
	{"void", NULL, "take the reply back, entered by mistake"},
	{"csv", "FILE", "enter a typed sheet; - is standard input"},
	{"fields", NULL, "the fields and what each may be"},
},
0, 1, NEED_DAY, run_reply
},
{
"tally", "[OPTIONS]", "count a day, on screen and as a CSV file",
"Writes tally-SSSS-YYYY-MM-DD-rN.csv, without names. The revision rises "
"when the day's content differs from the last tally written.",
{
	{"date", "YYYY-MM-DD", "another day than today"},
	{"close", NULL, "the day is complete"},
	{"out", "FOLDER", "write there; - is standard output"},
},
0, 0, NEED_POLICY | NEED_STATION | NEED_BOOK_WRITE, run_tally
},
{
"yield", "[OPTIONS]", "what became of the people sent to the clinic",
"From the clinic's replies: how many of those referred came, were seen "
"elsewhere, did not come and why, or are unknown; how soon they came; and what "
"was found, by the rule that decided, the depth of the shallower eye, site "
"and grader, each rate with its 95 % interval, and with the bounds between "
"which it lies whatever became of the unknown. How well the screening finds "
"narrow angles is told only where people not referred were examined too, "
"chosen by the policy's [verify] every. No names; small numbers are for the "
"programme only.\n"
"\n"
"--send writes files without names for the programme, "
"yield-SSSS-YYYY-MM-rN.csv, each with a whole month of screening; the revision "
"N rises whenever anything in the month is different. A month all of whose "
"people were made void or moved since is sent as zeros.",
{
	{"from", "YYYY-MM-DD", "screened on that day or later"},
	{"to", "YYYY-MM-DD", "screened on that day or earlier"},
	{"per", "WHAT", "only by rule, grade, site or grader"},
	{"csv", NULL, "the numbers as CSV"},
	{"html", NULL, "a page with pictures, to print from a browser"},
	{"out", "FILE", "write there; - is standard output"},
	{"send", "[FOLDER]", "files for the programme there, or in tallies"},
},
0, 0, NEED_POLICY | NEED_STATION, run_yield
},
{
"collate", "[OPTIONS] PATH...", "one total of many tallies",
collate_details,
{
	{"by", "PERIOD", "day (the default), week (ISO 8601), month, year, all; "
		"of yields month, year, all (the default)"},
	{"per", "COLUMNS", "any of programme, site, station, sex, age_band, "
		"policy, joined by commas (default site); of yields urgency, "
		"rule, depth in place of sex, age_band"},
	{"ledger", "FILE", "what became of each file, as CSV"},
	{"report", "FILE.html", "a page with pictures, for A4 or any screen"},
	{"public", "N", "hide counts under N, 4 to 100; 5 and 10 are usual"},
	{"verify", "DIR", "recount a station's tallies from its register"},
	{"yields", NULL, "add up yields, what became of people, not tallies"},
},
1, COMMAND_ARGUMENTS_MOST, NEED_NOTHING, run_collate
},
{
"policy check", "FILE", "read a policy file and tell every fault",
"Each fault is told with file and line, what is wrong and what is allowed. "
"The exit status is 4 when the file is refused. Nothing is changed.\n"
"\n"
"Of a file without a fault it tells what is worth a look: whom the built-in "
"policy sends sooner, a rule that never decides by itself or never holds, a cut-off looser or tighter than the "
"guidelines', findings that can make the answer less urgent, findings that "
"alone change nothing, a missing approval.",
{{NULL, NULL, NULL}},
1, 1, NEED_NOTHING, run_policy_check
},
{
"policy show", "[OPTIONS]", "the rules in plain words, for the wall",
"A card of all rules of the policy in force, most urgent first, with its "
"fingerprint and who approved it. --policy FILE shows another file. With "
"--grid what the rules say at every depth for a few plain people, so that a "
"doctor can sign what she sees; with --html and --grid both are on the page.",
{
	{"html", NULL, "a page for A4, to print from a browser"},
	{"grid", NULL, "a table of depth by symptom or pressure"},
	{"fingerprint", "ABCDEF", "the text the register keeps of an earlier "
		"policy, as it was"},
	{"out", "FILE", "write there; - is standard output"},
},
0, 0, NEED_DAY, run_policy_show
},
{
"policy set", "KEY VALUE FILE [OPTIONS]", "change one value of a policy file",
"KEY is SECTION.KEY, for a rule its name and the key. The rest of the file "
"stays as it is, comments too. The new text is checked as 'policy check' "
"does; with any fault the file is left alone. Otherwise the change is shown "
"with the fingerprints before and after. The approval is emptied, since "
"nobody has approved the new rules yet, unless --approved-by says who did. A "
"key that the section does not have yet is added; none is taken out.\n"
"\n"
"For example:\n"
"  shoal policy set shallow.depth_at_or_below_percent 15 new.ini",
{
	{"approved-by", "NAME", "the eye doctor who approves the whole file "
		"as it then is, today"},
},
3, 3, NEED_DAY, run_policy_set
},
{
"policy try", "FILE [OPTIONS]",
"what another policy would say of the same people",
"Everybody in the register, or in a CSV file, is decided by the policy in "
"force and by FILE: each person whose answer changes with the rules that "
"decide, then the counts by urgency side by side. Void entries are left out. "
"People are judged by the policy in force today, also those whom an earlier "
"one judged. Nothing is saved; no name is printed.\n"
"\n"
"The CSV has the columns of 'shoal assess --csv' and needs no station.",
{
	{"csv", "FILE", "people from there; - is standard input"},
	{"per-clinic-day", "K", "people a clinic sees in a day: count its days"},
},
1, 1, NEED_POLICY, run_policy_try
},
{
"plan", "--people N --prevalence P [OPTIONS]",
"what a screening of so many people would bring",
"For each cut-off of a study: how many of N people are flagged, found, missed "
"and falsely alarmed, the predictive values, and bars to scale. P and the "
"other shares are per cent, such as 6.8. Give --preset, or --sensitivity and "
"--specificity. Presets: foster-occludable, foster-closure, foster-glaucoma, "
"cochrane-25; the source is printed with the answer. For planning only: "
"figures where you work differ.",
{
	{"people", "N", "how many are screened"},
	{"prevalence", "P", "per cent of them who have the condition"},
	{"preset", "NAME", "figures of a published study"},
	{"sensitivity", "S", "per cent of those with it who are flagged"},
	{"specificity", "S", "per cent of those without it who are not"},
	{"per-clinic-day", "K", "people a clinic sees in a day: count its days"},
	{"half-width", "W", "how many people to examine to measure both within "
		"W percentage points"},
	{"csv", NULL, "the numbers as CSV"},
	{"narrow", NULL, "40 columns, for receipt printers"},
},
0, 0, NEED_NOTHING, run_plan
},
{
"agree", "FILE.csv [OPTIONS] | --sheet", "how far graders agree with a reference",
"Reads eyes that were graded twice: columns case, grader, reference, and "
"perhaps grader_name and date. Depths are typed as for 'shoal assess'; x and - "
"are counted apart. A case counts once per grader and day. - is standard input. "
"Nothing is saved.\n"
"\n"
"Prints how many are equal or within one step, the direction of the error, how "
"many were missed and over-called at the policy's cut-offs, kappa with its "
"weights named, the table of all grades, the eyes to be looked at again, and "
"the same per grader and per month where those columns are there. A bad row is "
"named, the others are counted, and the exit status is 3.\n"
"\n"
"With --sheet a sheet for 40 eyes, to print from a browser and fill in by pen.",
{
	{"by-week", NULL, "over time by week instead of month"},
	{"html", NULL, "a page for A4, to print from a browser"},
	{"sheet", NULL, "the empty sheet for a training, as a page"},
	{"language", "LL", "of that sheet: en, fr, es, sw, ar (default en)"},
	{"out", "FILE", "write there; - is standard output"},
},
0, 1, NEED_DAY, run_agree
},
SAFEKEEPING_ROWS
{
"help", "[COMMAND | findings]", "say more about a command",
"Also prints the manual and the shell completion, made from the same table.",
{
	{"man", NULL, "the manual page, as troff source"},
	{"completion", NULL, "completion for bash"},
	{"summaries", NULL, "the commands, a line each"},
},
0, 2, NEED_NOTHING, run_help
},
};

static const struct command_option global[] = {
	{"book", "DIR", "the station's folder (default $SHOAL_BOOK, else "
		"$XDG_DATA_HOME/shoal, else ~/.local/share/shoal)"},
	{"policy", "FILE", "another policy file than DIR/policy.ini"},
	{"station", "FILE", "another station file than DIR/station.ini"},
	{"today", "YYYY-MM-DD", "the day, when the laptop's clock is wrong"},
	{"help", NULL, "what a command does"},
	{"version", NULL, "the program's version"},
};
/* clang-format on */

const struct command_table commands = {rows, sizeof rows / sizeof rows[0],
				       global,
				       sizeof global / sizeof global[0]};
