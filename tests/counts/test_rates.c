/* test_rates.c: shares, predictive values, sample sizes; against published
 * figures where there are any. */
#include "counts/rates.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])

/* Newcombe, Stat Med 1998;17:857-72, table I, method 3, as others quote it (the
 * table itself was not seen); the last two stand beside it in those. */
Test(rates, wilson_agrees_with_newcombes_printed_limits)
{
	static const struct {
		long long count, of;
		double low, high;
	} rows[] = {
		{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605},
		{0, 20, 0, 0.1611},	   {1, 29, 0.0061, 0.1718},
		{29, 29, 0.8830, 1},	   {0, 10, 0, 0.2775},
	};
	struct rates_interval interval;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		cr_assert(rates_wilson(rows[i].count, rows[i].of, rates_z_95,
				       &interval, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_leq(fabs(interval.low - rows[i].low), 0.00005001,
			      "row %zu: %.6f", i, interval.low);
		cr_expect_leq(fabs(interval.high - rows[i].high), 0.00005001,
			      "row %zu: %.6f", i, interval.high);
	}
}

static bool
is_near(double value, double expected, double relative)
{
	return fabs(value - expected) <= relative * fabs(expected);
}

/* clang-format off */
/* Computed with 50 digits: 95, 99 and 99.8 %. */
static const struct {
	long long count, of;
	double limit[3][2];
} wilson_rows[] = {
	{81, 263, {{0.25528851987827423, 0.36620957698280007},
		{0.24013690268760769, 0.38528250231822985},
		{0.22803574024200476, 0.40138942190936961}}},
	{15, 148, {{0.06238639953073628, 0.16048724172330804},
		{0.053644869613964852, 0.18326735011315253},
		{0.047383680506572313, 0.20364553090199023}}},
	{0, 20, {{0.0, 0.16112515805281939},
		{0.0, 0.24910540109875347},
		{0.0, 0.32317041462405513}}},
	{1, 29, {{0.0061132142927626605, 0.17175521879320288},
		{0.004061494196883811, 0.23825425313641303},
		{0.0030160013587169455, 0.29658645803642147}}},
	{0, 1, {{0.0, 0.79345068562276261},
		{0.0, 0.86902245671981416},
		{0.0, 0.90520909849867953}}},
	{1, 1, {{0.20654931437723739, 1.0},
		{0.13097754328018584, 1.0},
		{0.094790901501320469, 1.0}}},
	{0, 2, {{0.0, 0.65761977249334696},
		{0.0, 0.7683817082692724},
		{0.0, 0.82683286576216374}}},
	{1, 2, {{0.094531205734230713, 0.90546879426576929},
		{0.061713076778101787, 0.93828692322189821},
		{0.045348247071958454, 0.95465175292804155}}},
	{2, 2, {{0.34238022750665304, 1.0},
		{0.2316182917307276, 1.0},
		{0.17316713423783626, 1.0}}},
	{0, 3, {{0.0, 0.56149703175504553},
		{0.0, 0.68863184274525311},
		{0.0, 0.76094733141834208}}},
	{3, 3, {{0.43850296824495447, 1.0},
		{0.31136815725474689, 1.0},
		{0.23905266858165792, 1.0}}},
	{0, 5, {{0.0, 0.43448246478317482},
		{0.0, 0.57025832102700927},
		{0.0, 0.65634642224978549}}},
	{1, 5, {{0.036224108632430165, 0.62446537023747473},
		{0.023933662850888098, 0.71822132976531747},
		{0.017711912122975294, 0.776095941226896}}},
	{5, 5, {{0.56551753521682518, 1.0},
		{0.42974167897299073, 1.0},
		{0.34365357775021451, 1.0}}},
	{0, 10, {{0.0, 0.27753279986288925},
		{0.0, 0.39885409330490815},
		{0.0, 0.48847890045346229}}},
	{1, 10, {{0.017876213095072904, 0.4041500267952385},
		{0.011851503411032941, 0.50723177123289358},
		{0.0087891128245499298, 0.58199400753821991}}},
	{5, 10, {{0.23659309051256398, 0.76340690948743602},
		{0.18422551824723544, 0.81577448175276456},
		{0.15054367209425786, 0.84945632790574214}}},
	{9, 10, {{0.5958499732047615, 0.9821237869049271},
		{0.49276822876710642, 0.98814849658896706},
		{0.41800599246178009, 0.99121088717545007}}},
	{10, 10, {{0.72246720013711075, 1.0},
		{0.60114590669509185, 1.0},
		{0.51152109954653771, 1.0}}},
	{29, 29, {{0.88303020150025923, 1.0},
		{0.81380901212349599, 1.0},
		{0.75227883990892541, 1.0}}},
	{28, 29, {{0.82824478120679712, 0.99388678570723734},
		{0.76174574686358697, 0.99593850580311619},
		{0.70341354196357853, 0.99698399864128305}}},
	{20, 20, {{0.83887484194718061, 1.0},
		{0.75089459890124653, 1.0},
		{0.67682958537594487, 1.0}}},
	{133, 148, {{0.83951275827669196, 0.93761360046926372},
		{0.81673264988684747, 0.94635513038603515},
		{0.79635446909800977, 0.95261631949342769}}},
	{182, 263, {{0.63379042301719993, 0.74471148012172577},
		{0.61471749768177015, 0.75986309731239231},
		{0.59861057809063039, 0.77196425975799524}}},
	{7, 30, {{0.11792388144489496, 0.40928326158122172},
		{0.095266976611560156, 0.46799096910476562},
		{0.080144488874364012, 0.51529956086351982}}},
	{12, 30, {{0.24590628116801852, 0.57679639746677523},
		{0.20884051575883343, 0.62738121388478873},
		{0.18221014790109882, 0.66608137075060762}}},
	{23, 60, {{0.27088272374082023, 0.50982404175900074},
		{0.24109156237573082, 0.54880831420357129},
		{0.21848189162801702, 0.58022273151764876}}},
	{0, 100, {{0.0, 0.036993498206985685},
		{0.0, 0.062220687715822987},
		{0.0, 0.08717093727995564}}},
	{1, 100, {{0.0017674320641406479, 0.054486196178705323},
		{0.0011751454265122877, 0.07980112853499424},
		{0.00087306569729999726, 0.10455445283705653}}},
	{2, 100, {{0.0055019675501623481, 0.070011790728543909},
		{0.0039148772300976234, 0.095816982977092444},
		{0.003026171850683672, 0.12065792793807374}}},
	{5, 100, {{0.021543679154367971, 0.11175046923191915},
		{0.016848316042600657, 0.13915030290164003},
		{0.013865320725997363, 0.16458852282596271}}},
	{50, 100, {{0.40383153036599563, 0.59616846963400437},
		{0.37527962504483982, 0.62472037495516018},
		{0.35237637614531707, 0.64762362385468293}}},
	{98, 100, {{0.92998820927145609, 0.99449803244983765},
		{0.90418301702290756, 0.99608512276990238},
		{0.87934207206192626, 0.99697382814931633}}},
	{100, 100, {{0.96300650179301432, 1.0},
		{0.93777931228417701, 1.0},
		{0.91282906272004436, 1.0}}},
	{10, 1000, {{0.0054407544455292484, 0.018309468870314773},
		{0.004530055521673153, 0.021929286083665541},
		{0.0039051712076603576, 0.025364849391592528}}},
	{0, 1000, {{0.0, 0.0038267584855551241},
		{0.0, 0.0065911649034068308},
		{0.0, 0.0094592046931151896}}},
	{999, 1000, {{0.99435744140204206, 0.99982345362937392},
		{0.9915394337800183, 0.99988258364638168},
		{0.98864696268478978, 0.99991275103148126}}},
	{3, 12345, {{8.2649838405256428e-5, 0.00071430417979249429},
		{6.1384045726702569e-5, 0.00096154908877666129},
		{4.8775207343576399e-5, 0.0012098328593563287}}},
	{12, 98765, {{6.9507312086442525e-5, 0.00021237772786618217},
		{5.8703906929763209e-5, 0.00025145494214761942},
		{5.116594073338017e-5, 0.00028849175311371146}}},
	{1, 1000000, {{1.7652457674537147e-7, 5.664911804311443e-6},
		{1.1740547499963231e-7, 8.5174338347555962e-6},
		{8.7242584188844054e-8, 1.1462182830244019e-5}}},
	{500000, 1000000, {{0.49902001989000478, 0.50097998010999522},
		{0.49871208962079456, 0.50128791037920544},
		{0.49845489122443419, 0.50154510877556581}}},
	{0, 1000000, {{0.0, 3.8414440639449423e-6},
		{0.0, 6.6348525794603874e-6},
		{0.0, 9.5494445133218901e-6}}},
	{1000000, 1000000, {{0.99999615855593606, 1.0},
		{0.99999336514742054, 1.0},
		{0.99999045055548668, 1.0}}},
	{1, 2147483647, {{8.2200651535536042e-11, 2.6379405790648642e-9},
		{5.4671179583249165e-11, 3.9662658768667614e-9},
		{4.0625491106260641e-11, 5.3375461521836504e-9}}},
	{1073741823, 2147483647, {{0.49997885255306668, 0.50002114698127203},
		{0.49997220761681949, 0.50002779191751922},
		{0.49996665741770062, 0.5000333421166381}}},
	{2147483646, 2147483647, {{0.99999999736205942, 0.99999999991779935},
		{0.99999999603373412, 0.99999999994532882},
		{0.99999999466245385, 0.99999999995937451}}},
	{0, 4294967295, {{0.0, 8.9440932920032616e-10},
		{0.0, 1.5448072441658904e-9},
		{0.0, 2.2234245406170366e-9}}},
	{4294967295, 4294967295, {{0.99999999910559067, 1.0},
		{0.99999999845519276, 1.0},
		{0.99999999777657546, 1.0}}},
	{0, 1000000000000, {{0.0, 3.8414588206793692e-12},
		{0.0, 6.6348966009771933e-12},
		{0.0, 9.5495357059920497e-12}}},
	{123456789, 1000000000000, {{0.00012343501488698766, 0.00012347856695352265},
		{0.0001234281737577136, 0.00012348541087554476},
		{0.00012342245997846676, 0.00012349112756871104}}},
	{333333333333333, 1000000000000000, {{0.33333330411591562, 0.33333336255075166},
		{0.33333329493513796, 0.33333337173153025},
		{0.33333328726687124, 0.33333337939979794}}},
};
/* clang-format on */

/* Where nothing or everything was counted the limit is exact, and no negative
 * zero. */
Test(rates, wilson_keeps_its_digits_at_every_size_and_level)
{
	const double z[3] = {rates_z_95, rates_z_99, rates_z_998};
	struct rates_interval got;
	struct fault why;

	for (size_t i = 0; i < COUNT(wilson_rows); i++)
		for (int j = 0; j < 3; j++) {
			const double *limit = wilson_rows[i].limit[j];

			cr_assert(rates_wilson(wilson_rows[i].count,
					       wilson_rows[i].of, z[j], &got,
					       &why),
				  "row %zu: %s", i, why.sentence);
			cr_expect(is_near(got.low, limit[0], 1e-12),
				  "row %zu, level %d: low %.17g", i, j,
				  got.low);
			cr_expect(is_near(got.high, limit[1], 1e-12),
				  "row %zu, level %d: high %.17g", i, j,
				  got.high);
			cr_expect(!signbit(got.low) && got.high <= 1, "row %zu",
				  i);
		}
}

Test(rates, what_was_not_counted_has_no_share)
{
	static const struct {
		long long count, of;
		const char *sentence;
	} rows[] = {
		{0, 0,
		 "nobody was counted, so there is no share and no interval"},
		{1, 0,
		 "1 of 0 cannot be; allowed are counts from 0 to the number "
		 "of people"},
		{6, 5,
		 "6 of 5 cannot be; allowed are counts from 0 to the number "
		 "of people"},
		{-1, 5,
		 "-1 of 5 cannot be; allowed are counts from 0 to the "
		 "number of people"},
		{-2, -1,
		 "-2 of -1 cannot be; allowed are counts from 0 to the "
		 "number of people"},
	};
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rates_interval got = {-5, -5};

		cr_expect_not(rates_wilson(rows[i].count, rows[i].of,
					   rates_z_95, &got, &why),
			      "row %zu", i);
		cr_expect_str_eq(why.sentence, rows[i].sentence, "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect(got.low == -5 && got.high == -5, "row %zu: changed",
			  i);
	}
}

/* Foster et al., Br J Ophthalmol 2000;84:186-92, table 3 (sensitivity and
 * specificity) and table 4 (predictive values at the prevalence found), in
 * per cent: occludable angle 6.8, closure 3.5, closure glaucoma 0.8. The table
 * is worked out there from figures that are not rounded. */
Test(rates, predictive_values_agree_with_all_thirty_of_fosters_table)
{
	static const struct {
		double prevalence, sensitivity, specificity, ppv, npv;
	} rows[] = {
		{6.8, 17.8, 99.6, 76.4, 94.3}, {6.8, 60.5, 96.1, 53.1, 97.1},
		{6.8, 83.7, 85.7, 29.9, 98.6}, {6.8, 99.2, 65.5, 17.3, 99.9},
		{6.8, 100, 40.3, 10.8, 100},   {3.5, 29.3, 99.2, 57.0, 97.5},
		{3.5, 70.7, 93.7, 28.9, 98.9}, {3.5, 84.5, 82.4, 14.8, 99.3},
		{3.5, 100, 62.4, 8.8, 100},    {3.5, 100, 38.3, 5.5, 100},
		{0.8, 52.2, 98.9, 27.7, 99.6}, {0.8, 91.3, 92.6, 9.0, 99.9},
		{0.8, 91.3, 81.1, 3.7, 99.9},  {0.8, 100, 61.1, 2.0, 100},
		{0.8, 100, 37.5, 1.3, 100},
	};
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rates_test test = {rows[i].sensitivity / 100,
					  rows[i].specificity / 100};
		double ppv, npv;

		cr_assert(rates_ppv(&test, rows[i].prevalence / 100, &ppv,
				    &why),
			  "row %zu: %s", i, why.sentence);
		cr_assert(rates_npv(&test, rows[i].prevalence / 100, &npv,
				    &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_leq(fabs(100 * ppv - rows[i].ppv), 0.1,
			      "row %zu: PPV %.3f", i, 100 * ppv);
		cr_expect_leq(fabs(100 * npv - rows[i].npv), 0.1,
			      "row %zu: NPV %.3f", i, 100 * npv);
	}
}

/* clang-format off */
/* Bayes' theorem, computed with R; the first rows have the sensitivity and
 * specificity of the liver scan in Altman and Bland, BMJ 1994;308:1552
 * (reference from memory). */
static const double bayes_rows[][5] = {
	{0.895348837209302, 0.627906976744186, 0.01, 0.023728813559322, 0.998319327731093},
	{0.895348837209302, 0.627906976744186, 0.02, 0.0468085106382979, 0.996610169491525},
	{0.895348837209302, 0.627906976744186, 0.05, 0.112408759124088, 0.991304347826087},
	{0.895348837209302, 0.627906976744186, 0.1, 0.210958904109589, 0.981818181818182},
	{0.895348837209302, 0.627906976744186, 0.25, 0.445086705202312, 0.947368421052632},
	{0.895348837209302, 0.627906976744186, 0.5, 0.706422018348624, 0.857142857142857},
	{0.895348837209302, 0.627906976744186, 0.75, 0.878326996197719, 0.666666666666667},
	{0.9, 0.9, 0.01, 0.0833333333333334, 0.998878923766816},
	{0.9, 0.9, 0.02, 0.155172413793104, 0.997737556561086},
	{0.9, 0.9, 0.05, 0.321428571428572, 0.994186046511628},
	{0.9, 0.9, 0.1, 0.5, 0.98780487804878},
	{0.9, 0.9, 0.25, 0.75, 0.964285714285714},
	{0.9, 0.9, 0.5, 0.9, 0.9},
	{0.9, 0.9, 0.75, 0.964285714285714, 0.75},
};
/* clang-format on */

Test(rates, predictive_values_agree_with_other_computations)
{
	struct fault why;

	for (size_t i = 0; i < COUNT(bayes_rows); i++) {
		const double *row = bayes_rows[i];
		struct rates_test test = {row[0], row[1]};
		double ppv, npv;

		cr_assert(rates_ppv(&test, row[2], &ppv, &why), "row %zu", i);
		cr_assert(rates_npv(&test, row[2], &npv, &why), "row %zu", i);
		cr_expect(is_near(ppv, row[3], 1e-12), "row %zu: %.15g", i,
			  ppv);
		cr_expect(is_near(npv, row[4], 1e-12), "row %zu: %.15g", i,
			  npv);
	}
}

/* Per 1000 people. Rows 0 to 3: worked out from the pooled sensitivity 0.83
 * and specificity 0.88 of Jindal et al., Cochrane Database Syst Rev
 * 2020;5:CD012947. Rows 4 to 8: from Foster 2000, table 3, at 6.8 %, printed as
 * whole people but for those missed below one. */
Test(rates, expected_numbers_agree_with_the_published_accuracy)
{
	static const struct {
		double prevalence, sensitivity, specificity;
		double found, missed, false_alarms, ppv, npv, within;
	} rows[] = {
		{1, 83, 88, 8.3, 1.7, 118.8, 6.5, 99.8, 0.0501},
		{2, 83, 88, 16.6, 3.4, 117.6, 12.4, 99.6, 0.0501},
		{5, 83, 88, 41.5, 8.5, 114.0, 26.7, 99.0, 0.0501},
		{10, 83, 88, 83, 17, 108, 43.5, 97.9, 0.0501},
		{6.8, 17.8, 99.6, 12, 56, 4, 76.4, 94.3, 0.5},
		{6.8, 60.5, 96.1, 41, 27, 36, 53.1, 97.1, 0.5},
		{6.8, 83.7, 85.7, 57, 11, 133, 29.9, 98.6, 0.5},
		{6.8, 99.2, 65.5, 67.5, 0.5, 321.5, 17.3, 99.9, 0.1},
		{6.8, 100, 40.3, 68, 0, 556, 10.8, 100, 0.5},
	};
	static const double flagged[] = {16, 77, 190, 389, 624};
	struct rates_expected got;
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rates_test test = {rows[i].sensitivity / 100,
					  rows[i].specificity / 100};
		double ppv, npv;

		cr_assert(rates_expect(&test, rows[i].prevalence / 100, 1000,
				       &got, &why) &&
				  rates_ppv(&test, rows[i].prevalence / 100,
					    &ppv, &why) &&
				  rates_npv(&test, rows[i].prevalence / 100,
					    &npv, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect_leq(fabs(got.found - rows[i].found), rows[i].within,
			      "row %zu: found %.3f", i, got.found);
		cr_expect_leq(fabs(got.missed - rows[i].missed), rows[i].within,
			      "row %zu: missed %.3f", i, got.missed);
		cr_expect_leq(fabs(got.false_alarms - rows[i].false_alarms),
			      rows[i].within, "row %zu: false alarms %.3f", i,
			      got.false_alarms);
		cr_expect_leq(fabs(100 * ppv - rows[i].ppv), 0.1, "row %zu", i);
		cr_expect_leq(fabs(100 * npv - rows[i].npv), 0.1, "row %zu", i);
		cr_expect(!signbit(got.missed), "row %zu", i);
		if (i >= 4)
			cr_expect_leq(fabs(got.flagged - flagged[i - 4]), 0.5,
				      "row %zu: flagged %.3f", i, got.flagged);
	}
}

/* clang-format off */
/* Buderer, Acad Emerg Med 1996;3:895-900, the formula, computed with R and the
 * half-width in place of W: sensitivity, specificity, prevalence, half-width;
 * diseased and healthy before and after rounding up; people for each. */
static const double buderer_rows[][10] = {
	{0.9, 0.85, 0.2, 0.1, 34.5731293862, 48.9785999639, 35, 49, 173, 62},
	{0.9, 0.9, 0.1, 0.05, 138.292517545, 138.292517545, 139, 139, 1383, 154},
	{0.9, 0.9, 0.1, 0.1, 34.5731293862, 34.5731293862, 35, 35, 346, 39},
	{0.8, 0.9, 0.05, 0.05, 245.853364524, 138.292517545, 246, 139, 4918, 146},
	{0.95, 0.8, 0.02, 0.05, 72.9877175932, 245.853364524, 73, 246, 3650, 251},
	{0.95, 0.95, 0.05, 0.05, 72.9877175932, 72.9877175932, 73, 73, 1460, 77},
	{0.85, 0.85, 0.25, 0.05, 195.914399855, 195.914399855, 196, 196, 784, 262},
	{0.5, 0.5, 0.5, 0.1, 96.0364705174, 96.0364705174, 97, 97, 193, 193},
};
/* clang-format on */

Test(rates, sample_sizes_agree_with_the_published_formula)
{
	struct rates_sample got;
	struct fault why;

	for (size_t i = 0; i < COUNT(buderer_rows); i++) {
		const double *row = buderer_rows[i];
		struct rates_test test = {row[0], row[1]};

		cr_assert(rates_sample_size(&test, row[2], row[3], rates_z_95,
					    &got, &why),
			  "row %zu: %s", i, why.sentence);
		cr_expect(is_near(got.diseased_exact, row[4], 1e-11),
			  "row %zu: %.12g", i, got.diseased_exact);
		cr_expect(is_near(got.healthy_exact, row[5], 1e-11),
			  "row %zu: %.12g", i, got.healthy_exact);
		cr_expect_eq(got.diseased, row[6], "row %zu", i);
		cr_expect_eq(got.healthy, row[7], "row %zu", i);
		cr_expect_eq(got.people_for_sensitivity, row[8],
			     "row %zu: %.0f", i, got.people_for_sensitivity);
		cr_expect_eq(got.people_for_specificity, row[9],
			     "row %zu: %.0f", i, got.people_for_specificity);
		cr_expect_eq(got.people, fmax(row[8], row[9]), "row %zu", i);
	}
}

enum asked { ASK_PPV, ASK_NPV, ASK_EXPECTED, ASK_SAMPLE };

static bool
ask(enum asked asked, const struct rates_test *test, const double *with,
    struct fault *why)
{
	struct rates_expected expected;
	struct rates_sample sample;
	double value;

	switch (asked) {
	case ASK_PPV:
		return rates_ppv(test, with[0], &value, why);
	case ASK_NPV:
		return rates_npv(test, with[0], &value, why);
	case ASK_EXPECTED:
		return rates_expect(test, with[0], with[1], &expected, why);
	default:
		return rates_sample_size(test, with[0], with[1], rates_z_95,
					 &sample, why);
	}
}

Test(rates, what_cannot_be_estimated_is_said_in_a_sentence)
{
	static const struct {
		enum asked asked;
		double sensitivity, specificity, with[2];
		const char *sentence; /* how it begins */
	} rows[] = {
		{ASK_PPV, 0, 1, {0.1, 0}, "a test that flags nobody"},
		{ASK_NPV, 1, 0, {0.1, 0}, "a test that flags everybody"},
		{ASK_PPV, 0.9, 0.9, {0, 0}, "the prevalence must be above 0"},
		{ASK_NPV, 0.9, 0.9, {0, 0}, "the prevalence must be above 0"},
		{ASK_NPV, 0.9, 0.9, {1, 0}, "the prevalence must be above 0"},
		{ASK_PPV, 0.9, 0.9, {NAN, 0}, "the prevalence must be above 0"},
		{ASK_PPV, NAN, 0.9, {0.1, 0}, "a sensitivity or specificity"},
		{ASK_PPV, 0.9, 1.1, {0.1, 0}, "a sensitivity or specificity"},
		{ASK_NPV, -0.1, 0.9, {0.1, 0}, "a sensitivity or specificity"},
		{ASK_EXPECTED, 0.9, 0.9, {0.1, 0}, "without people"},
		{ASK_EXPECTED, 0.9, 0.9, {0.1, INFINITY}, "without people"},
		{ASK_EXPECTED, 0.9, 0.9, {0, 10}, "the prevalence must be"},
		{ASK_SAMPLE, 1, 0.9, {0.1, 0.05}, "at a sensitivity of 0 or"},
		{ASK_SAMPLE, 0, 0.9, {0.1, 0.05}, "at a sensitivity of 0 or"},
		{ASK_SAMPLE, 0.9, 1, {0.1, 0.05}, "at a specificity of 0 or"},
		{ASK_SAMPLE, 0.9, 0.9, {0.1, 0}, "the half-width must be"},
		{ASK_SAMPLE, 0.9, 0.9, {0.1, 0.51}, "the half-width must be"},
		{ASK_SAMPLE, 0.9, 0.9, {0.1, NAN}, "the half-width must be"},
		{ASK_SAMPLE, 0.9, 0.9, {1, 0.05}, "the prevalence must be"},
	};
	struct fault why;

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct rates_test test = {rows[i].sensitivity,
					  rows[i].specificity};

		cr_expect_not(ask(rows[i].asked, &test, rows[i].with, &why),
			      "row %zu", i);
		cr_expect_eq(why.kind, FAULT_INPUT, "row %zu", i);
		cr_expect_eq(strncmp(why.sentence, rows[i].sentence,
				     strlen(rows[i].sentence)),
			     0, "row %zu: %s", i, why.sentence);
	}
}

Test(rates, a_clinic_day_begun_is_a_day)
{
	static const struct {
		double people;
		long per_day, days;
	} rows[] = {
		{0, 20, 0},	 {0.3, 20, 1},	  {20, 20, 1},
		{20.1, 20, 2},	 {389.4, 20, 20}, {0.1 * 3 * 100, 30, 1},
		{1000, 1, 1000},
	};

	for (size_t i = 0; i < COUNT(rows); i++)
		cr_expect_eq(rates_days(rows[i].people, rows[i].per_day),
			     rows[i].days, "row %zu", i);
}
