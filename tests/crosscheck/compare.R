# compare.R: random inputs to the program's arithmetic and to R's.
#   Rscript compare.R FIGURES SEED
# Wilson by prop.test(), kappa by vcd's Kappa(), attendance by survival's
# survfit() (log-log); where R has no function at hand, by the definition
# itself, and standard errors by numerical differentiation.
suppressMessages(library(survival))
suppressMessages(library(vcd))
given <- commandArgs(trailingOnly = TRUE)
set.seed(as.integer(given[2]))
z <- qnorm(0.975)
cases <- list()
add <- function(...) cases[[length(cases) + 1]] <<- list(...)

# --- the cases, each with what R says (NA: not compared) --------------------

for (i in 1:200) {
	n <- sample(c(1:40, 1e4, 1e6), 1)
	x <- sample(0:n, 1)
	is <- suppressWarnings(prop.test(x, n, correct = FALSE))$conf.int
	add("wilson", c(x, n), as.vector(is))
}

kappa_of <- function(cells, weights) {
	k <- suppressWarnings(switch(weights,
		none = Kappa(cells)$Unweighted,
		linear = Kappa(cells, weights = "Equal-Spacing")$Weighted,
		quadratic = Kappa(cells, weights = "Fleiss-Cohen")$Weighted))
	# Of a difference of nearly equal numbers R takes the root: where there is
	# no error it says 2e-8 or NaN.
	if (is.nan(k["ASE"]) || k["ASE"] < 1e-6) k["ASE"] <- 0
	unname(c(k["value"], k["ASE"]))
}
for (i in 1:200) {
	k <- sample(2:7, 1)
	mean <- outer(1:k, 1:k, function(a, b) 30 * exp(-abs(a - b)))
	cells <- matrix(rpois(k * k, mean * runif(1, 0.02, 1)), k)
	if (sum(rowSums(cells) > 0) < 2 || sum(colSums(cells) > 0) < 2) next
	add("kappa", c(k, t(cells)), c(kappa_of(cells, "none"),
		kappa_of(cells, "linear"), kappa_of(cells, "quadratic")))
}

for (i in 1:100) {
	x <- sample(1:200, 4)
	with <- x[1] + x[3]; without <- x[2] + x[4]
	ratio <- function(a, b) {
		r <- (a / with) / (b / without)
		se <- sqrt(1 / a - 1 / with + 1 / b - 1 / without)
		c(r, exp(log(r) + c(-1, 1) * z * se))
	}
	add("ratios", x, c(ratio(x[1], x[2]), ratio(x[3], x[4])))
}

# Begg and Greenes; the variance is that of three independent shares: flagged,
# ill among the flagged examined, ill among the cleared examined.
corrected <- function(t) c(
	t[1] * t[2] / (t[1] * t[2] + (1 - t[1]) * t[3]),
	(1 - t[1]) * (1 - t[3]) /
		((1 - t[1]) * (1 - t[3]) + t[1] * (1 - t[2])))
for (i in 1:100) {
	x <- c(sample(1:300, 2), sample(0:300, 1), sample(1:50, 1),
		sample(1:300, 1), sample(0:900, 1))
	n1 <- sum(x[1:3]); n0 <- sum(x[4:6]); v1 <- sum(x[1:2]); v0 <- sum(x[4:5])
	t <- c(n1 / (n1 + n0), x[1] / v1, x[4] / v0)
	variance <- t * (1 - t) / c(n1 + n0, v1, v0)
	slope <- sapply(1:3, function(j) {
		h <- 1e-6 * t[j]
		up <- down <- t; up[j] <- up[j] + h; down[j] <- down[j] - h
		(corrected(up) - corrected(down)) / (2 * h)
	})
	error <- sqrt(slope^2 %*% variance)
	is <- corrected(t)
	add("sample", x, c(is[1], error[1], is[2], error[2]))
}

for (i in 1:100) {
	k <- sample(2:7, 1)
	ill <- rpois(k, rev(1:k) * 2); well <- rpois(k, 1:k * 3)
	if (sum(ill) < 2 || sum(well) < 2) next
	a <- rep(1:k, ill); b <- rep(1:k, well)
	psi <- outer(a, b, function(x, y) (x < y) + (x == y) / 2)
	error <- sqrt(var(rowMeans(psi)) / length(a) +
		var(colMeans(psi)) / length(b))
	if (error < 1e-9) next
	add("area", c(k, ill, well), c(mean(psi), error))
}

# The textbook's median: the first day at which no more than half are left.
first <- function(fit, curve) {
	day <- fit$time[!is.na(curve) & curve <= 0.5 + 1e-9]
	if (length(day) == 0) -1 else day[1]
}
for (i in 1:200) {
	n <- sample(2:120, 1)
	day <- pmin(floor(rexp(n, 1 / sample(c(5, 30, 200), 1))), 1096)
	came <- rbinom(n, 1, runif(1, 0.1, 0.95))
	by <- sample(0:max(day), 1)
	fit <- survfit(Surv(day, came) ~ 1, conf.type = "log-log")
	at <- summary(fit, times = by, extend = TRUE)
	low <- ifelse(fit$surv < 1 & fit$surv > 0, fit$lower, NA)
	high <- ifelse(fit$surv < 1 & fit$surv > 0, fit$upper, NA)
	inside <- at$surv > 0 && at$surv < 1
	add("attended", c(by, n, rbind(day, came)),
		c(1 - at$surv, if (at$surv > 0) at$std.err else 0,
		if (inside) 1 - c(at$upper, at$lower) else c(NA, NA),
		first(fit, fit$surv), first(fit, low), first(fit, high)))
}

# --- the comparison ----------------------------------------------------------

lines <- sapply(cases, function(one) paste(one[[1]],
	paste(format(one[[2]], scientific = FALSE, trim = TRUE), collapse = " ")))
answers <- system2(given[1], input = lines, stdout = TRUE)
stopifnot(length(answers) == length(cases))
worst <- list(); bad <- 0
for (i in seq_along(cases)) {
	got <- strsplit(trimws(answers[i]), " ")[[1]]
	got <- suppressWarnings(as.numeric(got))
	is <- cases[[i]][[3]]; word <- cases[[i]][[1]]
	off <- if (length(got) != length(is)) Inf else max(0, ifelse(
		is.na(is), ifelse(is.na(got), 0, Inf),
		ifelse(is.na(got), Inf, abs(got - is) / pmax(1, abs(is)))))
	worst[[word]] <- max(worst[[word]], off)
	limit <- if (word == "sample") 1e-8 else 1e-11
	if (off > limit) {
		bad <- bad + 1
		cat("DIFFERS:", lines[i], "\n  got", answers[i], "\n  R  ",
			format(is, digits = 15), "\n")
	}
}
for (word in names(worst))
	cat(sprintf("%-9s %4d cases, largest difference %.1e\n", word,
		sum(sapply(cases, function(one) one[[1]] == word)),
		worst[[word]]))
cat(length(cases) - bad, "passed,", bad, "failed\n")
quit(status = bad > 0)
