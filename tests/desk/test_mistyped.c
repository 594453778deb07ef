/* test_mistyped.c: a number of the register that somebody types. */
#include "desk/mistyped.h"

#include "scene.h"

static const struct {
	const char *typed, *meant;
	bool one_slip;
} slips[] = {
	{"00140000198", "00140000198", false}, /* no slip at all */
	{"00140000197", "00140000198", true},  /* one digit */
	{"90140000198", "00140000198", true},
	{"00140000189", "00140000198", true}, /* neighbours swapped */
	{"00410000198", "00140000198", true},
	{"00140000981", "00140000198", false}, /* three moved round */
	{"00140000918", "00140000198", true},
	{"00140001098", "00140000198", true},
	{"00140100098", "00140000198", false}, /* further apart */
	{"01040000198", "00140000198", true},
	{"04100000198", "00140000198", true},
	{"01400000198", "00140000198", false}, /* all moved by one */
	{"00143210198", "00141230198", true},  /* over one between */
	{"00143220198", "00141230198", false}, /* and that one changed */
	{"00145500198", "00147700198", true},  /* twins */
	{"00145600198", "00147700198", false},
	{"00145700198", "00147500198", true},
	{"00145050198", "00147070198", false}, /* apart */
	{"0014000019", "00140000198", false},  /* another length */
	{"001400001988", "00140000198", false},
	{"", "00140000198", false},
};

Test(mistyped, one_slip_is_known)
{
	for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
		cr_expect_eq(mistyped_by_one_slip(slips[i].typed,
						  slips[i].meant),
			     slips[i].one_slip, "row %zu", i);
		cr_expect_eq(mistyped_by_one_slip(slips[i].meant,
						  slips[i].typed),
			     slips[i].one_slip, "row %zu turned round", i);
	}
}

static const struct {
	const char *typed;
	int serial;	  /* 0 = refused */
	const char *said; /* of the refusal */
} numbers[] = {
	{"0014-00001-98", 1, NULL},
	{"001400003 92", 3, NULL},
	{"0014-00003-29", 0, "did you mean 0014-00003-92?"},
	{"0014-00030-92", 0, "did you mean 0014-00003-92?"},
	{"0014-00300-92", 0, "did you mean 0014-00003-92?"},
	{"0014-03000-92", 0, "read the number again"},
	{"0041-00003-92", 0, "did you mean 0014-00003-92?"},
	/* Swapped from the first, one digit from the fourth. */
	{"0014-00001-89", 0, "read the number again"},
	/* A number that was never given out is not meant. */
	{"0014-00009-47", 0, "read the number again"},
	{"0015-00001-22", 0, "was given out by station 0015"},
	{"14-3", 0, "it has eleven digits"},
	{"0014-00003-922", 0, "it has eleven digits"},
	{"Adira Moru", 0, "it has eleven digits"},
	{"0014-00003-9\xff", 0, "it has eleven digits"},
	{"", 0, "it has eleven digits"},
	/* In order, whether or not the register has it: that is asked next. */
	{"0014-00009-74", 9, NULL},
};

Test(mistyped, what_is_meant_is_asked_where_one_number_fits)
{
	struct scene scene;

	scene_open(&scene);
	scene_begin(&scene, false);
	cr_assert_eq(scene_play(&scene, "\n\n58\n1\n\n\n\n\n\n\n100\n100\n16\n"
					"17\n1\n\n"),
		     DIALOG_SAVE);
	for (int i = 0; i < 5; i++) {
		struct visit visit = scene.form.visit;
		struct fault why;

		cr_assert(register_save(&scene.desk->book, &visit, "", &why),
			  "%s", why.sentence);
	}
	for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
		struct fault why = {FAULT_NONE, ""};
		struct refnum number = {0, 0};
		bool taken = mistyped_read(scene.desk, numbers[i].typed,
					   &number, &why);

		cr_expect_eq(taken, numbers[i].serial > 0, "row %zu: %s", i,
			     why.sentence);
		cr_expect_eq(taken ? number.serial : 0, numbers[i].serial,
			     "row %zu", i);
		if (!taken && numbers[i].said != NULL)
			cr_expect(why.kind == FAULT_INPUT &&
					  strstr(why.sentence,
						 numbers[i].said) != NULL,
				  "row %zu: %s", i, why.sentence);
	}
	scene_close(&scene);
}
