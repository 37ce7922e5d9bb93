# Every closed-form figure of the JSON, computed apart from the program, in base R, from the log itself.
#
#   Rscript test/reference/figures.R [--doubtful DOUBTFUL.csv] LOG... > FIGURES.json
#
# The keys are those of the program's JSON; one entry for each log, by its base name. What depends on which readings
# are doubtful is given only where their lines are (columns log,line). No text cell of a log is printed.

# How each log is written. time, date, glucose, meal, meter, note: number of the column; where `date` is 0, `time` holds
# both. skip: lines above the first reading. changed: words of the notes of trial steps whose conditions were changed on
# purpose; such a step forms no repeat set and is left out once checked, unless it is low.
FORMS <- read.csv(text = "
pattern,sep,dec,skip,date,time,format,glucose,unit,meal,meter,note,kind,first,second,changed
^europe-mmol,;,',',1,1,2,%d.%m.%Y %H:%M,3,mmol/L,4,0,5,0,2025-12-01..2025-12-30,2025-11-01..2025-11-30,
^season-two-meters,',',.,1,1,2,%Y-%m-%d %H:%M,3,mg/dL,4,5,6,0,2026-04-16..2026-05-30,2026-03-02..2026-04-15,
^technique-morning,TAB,.,1,0,1,%Y-%m-%dT%H:%M:%S,2,mg/dL,0,3,4,0,,,not washed|left wet|squeezed
^two-months,',',.,1,1,2,%m/%d/%Y %I:%M %p,3,mg/dL,4,0,5,0,2026-05-01..2026-05-31,2026-04-01..2026-04-30,
^data-[0-9]+$,TAB,.,0,1,2,%m-%d-%Y %H:%M,4,mg/dL,0,0,0,3,,,
^[0-9]+_[01]_[0-9]+,',',.,1,0,1,%Y-%m-%d %H:%M:%S,3,mg/dL,0,0,0,0,,,
", colClasses = "character", quote = "'", strip.white = TRUE)

# Codes of glucose readings in the logs that tell the kind of each row (AIM-94).
GLUCOSE_KINDS <- c("48", as.character(57:64))

MOMENTS <- c("before-breakfast", "after-breakfast", "before-lunch", "after-lunch", "before-dinner", "after-dinner",
  "before-meal", "after-meal", "bedtime", "night")
MEALS <- c(
  "before breakfast" = "before-breakfast", "after breakfast" = "after-breakfast", "before lunch" = "before-lunch",
  "after lunch" = "after-lunch", "before dinner" = "before-dinner", "after dinner" = "after-dinner",
  "bedtime" = "bedtime", "night" = "night", "vor dem Frühstück" = "before-breakfast",
  "nach dem Frühstück" = "after-breakfast", "vor dem Mittagessen" = "before-lunch",
  "nach dem Mittagessen" = "after-lunch", "vor dem Abendessen" = "before-dinner",
  "nach dem Abendessen" = "after-dinner", "vor dem Schlafen" = "bedtime", "nachts" = "night")

MG_PER_MMOL <- 18.0156
Z <- 1.959964
LIMIT <- list(
  "54" = c(54, 3.0), "70" = c(70, 3.9), "80" = c(80, 4.4), "130" = c(130, 7.2), "180" = c(180, 10.0), "250" = c(250, 13.9))

# ---- the accepted readings -------------------------------------------------------------------------------------------

readings_of <- function(path, form) {
  n <- function(column) as.integer(form[[column]])
  sep <- if (form$sep == "TAB") "\t" else form$sep
  rows <- read.csv(path, sep = sep, header = FALSE, skip = n("skip"), colClasses = "character", fill = TRUE,
    blank.lines.skip = FALSE, fileEncoding = "UTF-8-BOM", na.strings = character(0), col.names = paste0("V", 1:8))
  cell <- function(column) if (n(column) == 0) rep("", nrow(rows)) else trimws(rows[[n(column)]])
  when <- trimws(paste(cell("date"), cell("time")))
  value <- sub(form$dec, ".", toupper(cell("glucose")), fixed = TRUE)
  # '0Hi' and '0Lo' are how some old meters wrote it.
  mark <- ifelse(grepl("^0?HI$", value), 1, ifelse(grepl("^0?LO$", value), -1, 0))
  number <- ifelse(grepl("^[0-9.]+$", value), suppressWarnings(as.numeric(value)), NA)
  mmol <- form$unit == "mmol/L"
  logged <- ifelse(mark == 1, if (mmol) 600 / MG_PER_MMOL else 600, ifelse(mark == -1, if (mmol) 20 / MG_PER_MMOL else 20, number))
  log <- data.frame(
    line = seq_len(nrow(rows)) + n("skip"),
    at = as.numeric(as.POSIXct(strptime(when, form$format, tz = "UTC"))),
    logged = logged, mark = mark, mmol = rep(mmol, nrow(rows)), mgdl = if (mmol) logged * MG_PER_MMOL else logged,
    meal = cell("meal"), meter = cell("meter"), note = cell("note"))
  kinds <- if (n("kind") == 0) TRUE else cell("kind") %in% GLUCOSE_KINDS
  log <- log[kinds & !is.na(log$at) & !is.na(log$logged) & !grepl("control solution", log$note), ]
  log <- log[log$mgdl >= 1 & log$mgdl <= 1000, ]
  seen <- paste(if (grepl("%S", form$format)) log$at else floor(log$at / 60), log$logged, log$mark, log$meter)
  log <- log[!duplicated(seen), ]
  log <- log[order(log$at, log$line), ]
  log$day <- floor(log$at / 86400)
  log$second <- log$at %% 86400
  log$changed <- if (form$changed == "") FALSE else grepl(form$changed, log$note)
  rownames(log) <- NULL
  log
}

bound <- function(log, name) LIMIT[[name]][1 + log$mmol]
below <- function(log, name) log$logged < bound(log, name) | (log$logged == bound(log, name) & log$mark == -1)
above <- function(log, name) log$logged > bound(log, name) | (log$logged == bound(log, name) & log$mark == 1)

# ---- figures ---------------------------------------------------------------------------------------------------------

q7 <- function(x, p) if (length(x) == 0) NULL else unname(quantile(x, p, type = 7))
mean_or_none <- function(x) if (length(x) == 0) NULL else mean(x)
sd_or_none <- function(x) if (length(x) < 2) NULL else sd(x)
percent <- function(held) if (length(held) == 0) NULL else 100 * mean(held)

# ---- how well figures are known: by days with readings ---------------------------------------------------------------

# The error of a figure from what each reading contributes to its deviation. k days; neighbouring days may resemble each
# other. apart: of days with regular gaps, such as weekends.
error_of <- function(contribution, day, apart = FALSE) {
  z <- tapply(contribution, day, sum)
  on <- as.numeric(names(z))
  z <- as.vector(z) - mean(z)
  k <- length(z)
  next_day <- match(on + 1, on)
  pairs <- which(!is.na(next_day))
  r <- if (length(pairs) < 3 || all(z == 0)) 0 else mean(z[pairs] * z[next_day[pairs]]) / mean(z^2)
  likeness <- min(0.8, max(0, r + (1 + 4 * r) / k))
  f <- if (apart) sum(likeness^abs(outer(on, on, `-`))) / k else (1 + likeness) / (1 - likeness)
  df <- max(3, k / f - 1)
  list(se = sqrt(k / (k - 1) * sum(z^2) * f), df = df, q = qt(0.975, df))
}

mean_error <- function(log) error_of((log$mgdl - mean(log$mgdl)) / nrow(log), log$day)
sd_error <- function(log) {
  s <- sd(log$mgdl)
  error_of(((log$mgdl - mean(log$mgdl))^2 - s^2) / (2 * s * (nrow(log) - 1)), log$day)
}
cv_error <- function(log) {
  m <- mean(log$mgdl)
  s <- sd(log$mgdl)
  n <- nrow(log)
  error_of(100 * s / m * (((log$mgdl - m)^2 - s^2) / (2 * s^2 * (n - 1)) - (log$mgdl - m) / (m * n)), log$day)
}

# Wilson's limits of a share as the roots of |p - x| = q sqrt(x (1 - x) / n).
wilson_limits <- function(p, n, q) {
  roots <- sort(Re(polyroot(c(p^2, -(2 * p + q^2 / n), 1 + q^2 / n))))
  c(if (p == 0) 0 else roots[1], if (p == 1) 1 else roots[2])
}
share_of <- function(held, day) {
  p <- mean(held)
  n <- length(held)
  error <- error_of((held - p) / n, day)
  unjudged <- all(held) || !any(held) || error$se < 1e-9
  c(list(p = p, n = n, unjudged = unjudged), if (unjudged) list(ne = n / 2, q = Z) else
    list(ne = min(n, p * (1 - p) / error$se^2), q = error$q))
}
share_limits <- function(held, day) {
  share <- share_of(held, day)
  100 * wilson_limits(share$p, share$ne, share$q)
}
share_difference <- function(a_held, a_day, b_held, b_day) {
  a <- share_of(a_held, a_day)
  b <- share_of(b_held, b_day)
  limits <- function(own, other) {
    if (own$unjudged && !other$unjudged) wilson_limits(own$p, own$n / max(2, other$n / other$ne), Z)
    else wilson_limits(own$p, own$ne, own$q)
  }
  la <- limits(a, b)
  lb <- limits(b, a)
  d <- a$p - b$p
  100 * c(d - sqrt((a$p - la[1])^2 + (lb[2] - b$p)^2), d + sqrt((la[2] - a$p)^2 + (b$p - lb[1])^2))
}

even <- function(value, error) value + c(-1, 1) * error$q * error$se
by_factor <- function(value, error) if (value == 0) c(0, 0) else value * exp(c(-1, 1) * error$q * error$se / value)
difference_limits <- function(difference, a, b) {
  df <- max(2, (a$se^2 + b$se^2)^2 / (a$se^4 / a$df + b$se^4 / b$df))
  difference + c(-1, 1) * qt(0.975, df) * sqrt(a$se^2 + b$se^2)
}
median_ends <- function(x, error) q7(x, pmin(1, pmax(0, 0.5 + c(-1, 1) * error$q * error$se)))
median_share <- function(x, day, apart = FALSE) {
  held <- ifelse(x < median(x), 1, ifelse(x == median(x), 0.5, 0))
  error_of((held - mean(held)) / length(held), day, apart)
}
median_error <- function(log) {
  share <- median_share(log$mgdl, log$day)
  list(se = diff(median_ends(log$mgdl, share)) / (2 * share$q), df = share$df)
}
# Of the mean of cells with fixed weights; the readings outside all cells contribute nothing.
weighted_error <- function(log, cell, weights) {
  contribution <- rep(0, nrow(log))
  for (name in names(weights)) {
    inside <- which(cell == name)
    contribution[inside] <- weights[[name]] * (log$mgdl[inside] - mean(log$mgdl[inside])) / length(inside)
  }
  error_of(contribution, log$day)
}

summary_of <- function(log) {
  g <- log$mgdl
  mean <- mean(g)
  # Nathan et al., Diabetes Care 2008;31:1473: A1C, lowest and highest average glucose.
  a1c <- 5:12
  lowest <- c(76, 100, 123, 147, 170, 193, 217, 240)
  highest <- c(120, 152, 185, 217, 249, 282, 314, 347)
  estimate <- (mean + 46.7) / 28.7
  blocks <- split(g, floor(log$second / 10800))
  blocks <- blocks[lengths(blocks) >= 5]
  f <- 1.509 * (log(g)^1.084 - 5.381)
  list(
    n = length(g), meanMgDl = mean, sdMgDl = sd_or_none(g), cvPercent = if (length(g) < 2) NULL else 100 * sd(g) / mean,
    medianMgDl = median(g), q1MgDl = q7(g, 0.25), q3MgDl = q7(g, 0.75), minMgDl = min(g), maxMgDl = max(g),
    belowRange = sum(log$mark == -1), aboveRange = sum(log$mark == 1),
    percentBelow54 = percent(below(log, "54")), percentBelow70 = percent(below(log, "70")),
    percentInTarget = percent(!below(log, "70") & !above(log, "180")),
    percentAbove180 = percent(above(log, "180")), percentAbove250 = percent(above(log, "250")),
    estimatedA1cPercent = estimate, estimatedA1cMmolMol = (estimate - 2.152) / 0.09148,
    estimatedA1cRangePercent = c(approx(highest, a1c, mean)$y, approx(lowest, a1c, mean)$y),
    balancedMeanMgDl = if (length(blocks) == 0) NULL else mean(sapply(blocks, base::mean)), balancedBlocks = length(blocks),
    lbgi = mean(ifelse(f < 0, 10 * f^2, 0)), hbgi = mean(ifelse(f > 0, 10 * f^2, 0)),
    ci95 = ci95_of(log), balancedMeanCi95MgDl = balanced_ci95(log))
}

ci95_of <- function(log) {
  if (length(unique(log$day)) < 8) return(NULL)
  m <- mean(log$mgdl)
  s <- sd(log$mgdl)
  mean_ci <- even(m, mean_error(log))
  list(
    meanMgDl = mean_ci, sdMgDl = by_factor(s, sd_error(log)), cvPercent = by_factor(100 * s / m, cv_error(log)),
    estimatedA1cPercent = (mean_ci + 46.7) / 28.7,
    percentBelow54 = share_limits(below(log, "54"), log$day), percentBelow70 = share_limits(below(log, "70"), log$day),
    percentInTarget = share_limits(!below(log, "70") & !above(log, "180"), log$day),
    percentAbove180 = share_limits(above(log, "180"), log$day), percentAbove250 = share_limits(above(log, "250"), log$day))
}

balanced_ci95 <- function(log) {
  block <- floor(log$second / 10800)
  used <- names(which(table(block) >= 5))
  if (length(unique(log$day)) < 8 || length(used) == 0) return(NULL)
  weights <- setNames(rep(1 / length(used), length(used)), used)
  value <- mean(sapply(used, function(name) mean(log$mgdl[block == name])))
  even(value, weighted_error(log, block, weights))
}

# From the latest 90 days: each limit of the table moved out by the error of the mean.
latest_a1c_of <- function(log) {
  late <- log[log$day > max(log$day) - 90, ]
  days <- length(unique(late$day))
  if (nrow(late) < 15 || days < 14 || mean(late$mark != 0) > 0.1) return(NULL)
  mean <- mean(late$mgdl)
  centre <- c(97, 126, 154, 183, 212, 240, 269, 298)
  out <- function(limit, sign) centre + sign * sqrt((limit - centre)^2 + (1.96 * mean_error(late)$se)^2)
  lowest <- out(c(76, 100, 123, 147, 170, 193, 217, 240), -1)
  highest <- out(c(120, 152, 185, 217, 249, 282, 314, 347), 1)
  percent <- (mean + 46.7) / 28.7
  list(from = format(as.Date(max(min(log$day), max(log$day) - 89), origin = "1970-01-01")),
    to = format(as.Date(max(log$day), origin = "1970-01-01")), n = nrow(late), daysWithReadings = days, meanMgDl = mean,
    percent = percent, mmolMol = (percent - 2.152) / 0.09148,
    rangePercent = c(approx(highest, 5:12, mean)$y, approx(lowest, 5:12, mean)$y))
}

# Of eight days or more.
median_ci95 <- function(x, day, apart = FALSE) if (length(unique(day)) < 8) NULL else
  median_ends(x, median_share(x, day, apart))
share_ci95 <- function(held, day) if (length(unique(day)) < 8) NULL else share_limits(held, day)

hours_of <- function(log) lapply(0:23, function(hour) {
  g <- log$mgdl[floor(log$second / 3600) == hour]
  list(hour = hour, n = length(g), p10 = q7(g, 0.1), q1 = q7(g, 0.25), median = q7(g, 0.5), q3 = q7(g, 0.75), p90 = q7(g, 0.9))
})

blocks_of <- function(log) lapply(seq(0, 21, 3), function(from) {
  block <- log[floor(log$second / 10800) == from / 3, ]
  g <- block$mgdl
  list(fromHour = from, toHour = from + 3, n = length(g), meanMgDl = mean_or_none(g), sdMgDl = sd_or_none(g),
    q1MgDl = q7(g, 0.25), medianMgDl = q7(g, 0.5), q3MgDl = q7(g, 0.75), percentBelow70 = percent(below(block, "70")),
    percentAbove180 = percent(above(block, "180")), medianCi95MgDl = median_ci95(g, block$day),
    percentBelow70Ci95 = share_ci95(below(block, "70"), block$day),
    percentAbove180Ci95 = share_ci95(above(block, "180"), block$day))
})

# The weighted curve as it is defined: Epanechnikov weights by whole minutes around the clock, as far as the nearest
# 2 sqrt(n) readings, 30 to 90 minutes; quantiles of type 7 by effective number.
curve_of <- function(log) lapply(seq(0, 1425, 15), function(minute) {
  apart <- abs(floor(log$second / 60) - minute)
  apart <- pmin(apart, 1440 - apart)
  k <- floor(2 * sqrt(length(apart)) + 0.5)
  kth <- if (k > length(apart)) Inf else sort(apart)[k]
  width <- min(90, max(30, kth))
  weight <- pmax(0, 1 - (apart / width)^2)
  n <- if (sum(weight) == 0) 0 else sum(weight)^2 / sum(weight^2)
  quantile_at <- function(p) {
    if (n < 5 - 1e-9) return(NULL)
    order <- order(log$mgdl)
    upper <- cumsum(weight[order]) / sum(weight)
    lower <- c(0, upper[-length(upper)])
    from <- (n - 1) * p / n
    sum(log$mgdl[order] * pmax(0, pmin(upper, from + 1 / n) - pmax(lower, from))) * n
  }
  list(minute = minute, effectiveN = n, p10 = quantile_at(0.1), q1 = quantile_at(0.25), median = quantile_at(0.5),
    q3 = quantile_at(0.75), p90 = quantile_at(0.9))
})

moment_text <- function(at, seconds) format(as.POSIXct(at, origin = "1970-01-01", tz = "UTC"),
  if (seconds) "%Y-%m-%dT%H:%M:%S" else "%Y-%m-%dT%H:%M", tz = "UTC")

lows_of <- function(log, days, doubtful, seconds) {
  low <- below(log, "70")
  # A low begins an episode where the reading before it is none, or lies more than an hour back.
  begins <- low & (c(TRUE, !low[-length(low)]) | c(TRUE, diff(log$at) > 3600))
  episodes <- lapply(split(which(low), cumsum(begins)[low]), function(members) {
    episode <- list(from = moment_text(log$at[members[1]], seconds), to = moment_text(log$at[members[length(members)]], seconds),
      lowestMgDl = min(log$mgdl[members]), readings = length(members))
    if (!is.null(doubtful)) episode$doubtful <- sum(log$line[members] %in% doubtful)
    episode
  })
  list(readingsBelow70 = sum(low), readingsBelow54 = sum(below(log, "54")),
    nightsTested = length(unique(log$day[log$second < 6 * 3600])), nights = days,
    nightsTestedByHour = as.list(sapply(0:5, function(hour) length(unique(log$day[floor(log$second / 3600) == hour])))),
    daysWithLows = length(unique(log$day[low])), episodes = unname(episodes))
}

by_meal_of <- function(log) {
  moment <- unname(MEALS[log$meal])
  meets <- function(rows, name) {
    held <- log[rows, ]
    if (startsWith(name, "before-")) !below(held, "80") & !above(held, "130")
    else held$logged < bound(held, "180") & !below(held, "70")
  }
  moments <- lapply(MOMENTS[MOMENTS %in% moment], function(name) {
    rows <- which(moment == name)
    g <- log$mgdl[rows]
    told <- list(moment = name, n = length(g), medianMgDl = median(g), q1MgDl = q7(g, 0.25), q3MgDl = q7(g, 0.75),
      medianCi95MgDl = median_ci95(g, log$day[rows]),
      minMgDl = min(g), maxMgDl = max(g), readingsBelow70 = sum(below(log[rows, ], "70")))
    if (grepl("^(before|after)-", name)) told$withinGoal <- sum(meets(rows, name))
    told
  })
  rises <- lapply(c("breakfast", "lunch", "dinner"), function(meal) {
    before <- which(moment == paste0("before-", meal) & log$mark == 0)
    risen <- c()
    days <- c()
    for (after in which(moment == paste0("after-", meal) & log$mark == 0)) {
      minutes <- (log$at[after] - log$at[before]) / 60
      at_hand <- before[minutes >= 60 & minutes <= 150]
      if (length(at_hand) == 0) next
      used <- max(at_hand)
      risen <- c(risen, log$mgdl[after] - log$mgdl[used])
      days <- c(days, log$day[after])
      before <- before[before > used]
    }
    if (length(risen) == 0) NULL
    else list(meal = meal, n = length(risen), medianMgDl = median(risen), q1MgDl = q7(risen, 0.25), q3MgDl = q7(risen, 0.75),
      medianCi95MgDl = median_ci95(risen, days))
  })
  list(tagged = sum(!is.na(moment)), n = nrow(log), moments = moments, rises = Filter(Negate(is.null), rises))
}

theil_sen <- function(x, y) {
  pair <- combn(length(x), 2)
  slopes <- sort((y[pair[2, ]] - y[pair[1, ]]) / (x[pair[2, ]] - x[pair[1, ]]))
  term <- function(n) sum(n * (n - 1) * (2 * n + 5))
  reach <- Z * sqrt((term(length(x)) - term(table(x)) - term(table(y))) / 18)
  n <- length(slopes)
  half_up <- function(value) floor(value + 0.5)
  list(slope = median(slopes), ci95 = slopes[c(max(1, half_up((n - reach) / 2)), min(n, half_up((n + reach) / 2) + 1))])
}

week_of <- function(log) {
  weekend <- (log$day + 3) %% 7 >= 5 # 1 January 1970 was a Thursday.
  kind <- function(of) list(n = nrow(of), medianMgDl = if (nrow(of) == 0) NULL else median(of$mgdl),
    medianCi95MgDl = median_ci95(of$mgdl, of$day, apart = TRUE))
  week <- list(weekdays = kind(log[!weekend, ]), weekend = kind(log[weekend, ]),
    daysWithEnough = sum(table(log$day) >= 3),
    hoursNeverTested = as.list(setdiff(0:23, floor(log$second / 3600))))
  bin <- floor((log$day - min(log$day)) / 7)
  days <- tapply(log$day, bin, function(day) length(unique(day)))
  medians <- tapply(log$mgdl, bin, median)[days >= 3]
  if (length(medians) >= 6) {
    trend <- theil_sen(as.numeric(names(medians)), as.vector(medians))
    week$trendMgDlPerWeek <- trend$slope
    week$trendCi95 <- trend$ci95
  }
  week
}

# ---- repeats ---------------------------------------------------------------------------------------------------------

sets_of <- function(log) {
  rows <- which(!log$changed)
  set <- cumsum(c(TRUE, diff(log$at[rows]) > 600))
  unname(Filter(function(members) length(members) > 1, split(rows, set)))
}

agrees <- function(log, members) {
  s <- function(g) 0.15 * max(g, 100) / 1.96
  all(combn(members, 2, function(pair) {
    g <- log$mgdl[pair]
    minutes <- abs(diff(log$at[pair])) / 60
    abs(diff(g)) <= 1.96 * sqrt(s(g[1])^2 + s(g[2])^2) + 2 * minutes + 1e-9
  }))
}

technique_of <- function(log, doubtful, seconds) {
  sets <- sets_of(log)
  described <- lapply(sets, function(members) {
    g <- log$mgdl[members]
    agree <- agrees(log, members)
    set <- list(from = moment_text(log$at[members[1]], seconds), to = moment_text(log$at[members[length(members)]], seconds),
      members = lapply(members, function(i) list(line = log$line[i], at = moment_text(log$at[i], seconds), mgDl = log$mgdl[i])),
      meanMgDl = mean(g), spreadPercent = 100 * (max(g) - min(g)) / mean(g), agree = agree,
      holdsLow = any(below(log[members, ], "70")))
    if (!is.null(doubtful)) {
      sound <- !(log$line[members] %in% doubtful)
      set$consensusMgDl <- if (any(sound) && (agree || any(!sound))) mean(g[sound]) else median(g)
    }
    set
  })
  used <- Filter(function(members) agrees(log, members) && length(unique(log$meter[members])) == 1 &&
    all(log$mark[members] == 0), sets)
  repeatability <- list(sets = length(used), readings = sum(lengths(used)))
  if (length(used) > 0) {
    pooled <- function(of) sqrt(sum(sapply(used, function(m) sum((of[m] - mean(of[m]))^2))) / sum(lengths(used) - 1))
    df <- sum(lengths(used) - 1)
    cv <- pooled(100 * log(log$mgdl))
    repeatability <- c(repeatability, list(withinSdMgDl = pooled(log$mgdl), withinCvPercent = cv,
      withinCvCi95 = cv * sqrt(df / qchisq(c(0.975, 0.025), df))))
  }
  list(repeatSets = described, repeatability = repeatability)
}

# Doubtful readings that are no lows go; of a set without a low the rest is one reading at its mean.
checked_of <- function(log, doubtful) {
  stay <- !(log$line %in% doubtful | log$changed) | below(log, "70")
  for (members in sets_of(log)) {
    if (any(below(log[members, ], "70"))) next
    rest <- members[stay[members]]
    if (length(rest) < 2) next
    stay[rest[-1]] <- FALSE
    log$logged[rest[1]] <- round(mean(log$logged[rest]), 9)
    log$mgdl[rest[1]] <- log$logged[rest[1]] * if (log$mmol[rest[1]]) MG_PER_MMOL else 1
    log$mark[rest[1]] <- if (all(log$mark[rest] == log$mark[rest[1]])) log$mark[rest[1]] else 0
  }
  log[stay, ]
}

# ---- two periods -----------------------------------------------------------------------------------------------------

within <- function(log, span) {
  ends <- as.numeric(as.Date(strsplit(span, "..", fixed = TRUE)[[1]]))
  log[log$day >= ends[1] & log$day <= ends[2], ]
}

comparison_of <- function(first, second) {
  a <- summary_of(first)
  b <- summary_of(second)
  measures <- lapply(c("meanMgDl", "medianMgDl", "sdMgDl", "cvPercent", "percentBelow54", "percentBelow70", "percentInTarget",
    "percentAbove180", "percentAbove250"), function(name)
    list(measure = name, first = a[[name]], second = b[[name]], difference = a[[name]] - b[[name]]))
  if (length(unique(first$day)) >= 8 && length(unique(second$day)) >= 8) {
    shares <- list(
      percentBelow54 = function(log) below(log, "54"), percentBelow70 = function(log) below(log, "70"),
      percentInTarget = function(log) !below(log, "70") & !above(log, "180"),
      percentAbove180 = function(log) above(log, "180"), percentAbove250 = function(log) above(log, "250"))
    errors <- list(meanMgDl = mean_error, medianMgDl = median_error, sdMgDl = sd_error, cvPercent = cv_error)
    measures <- lapply(measures, function(one) {
      name <- one$measure
      ci95 <- if (name %in% names(errors)) difference_limits(one$difference, errors[[name]](first), errors[[name]](second))
        else share_difference(shares[[name]](first), first$day, shares[[name]](second), second$day)
      c(one, list(ci95 = ci95, verdict = verdict_of(ci95)))
    })
  }
  block <- function(log) floor(log$second / 10800)
  used <- cells_of_both(block(first), block(second))
  blocks <- lapply(used, function(name) {
    means <- c(mean(first$mgdl[block(first) == name]), mean(second$mgdl[block(second) == name]))
    inside <- list(first[block(first) == name, ], second[block(second) == name, ])
    errors <- lapply(inside, mean_error)
    df <- max(2, (errors[[1]]$se^2 + errors[[2]]$se^2)^2 / (errors[[1]]$se^4 / errors[[1]]$df + errors[[2]]$se^4 / errors[[2]]$df))
    p <- if (all(sapply(inside, function(log) length(unique(log$day))) >= 8))
      2 * pt(-abs(diff(means)) / sqrt(errors[[1]]$se^2 + errors[[2]]$se^2), df)
    list(p = p, fromHour = 3 * as.numeric(name), firstN = sum(block(first) == name), secondN = sum(block(second) == name),
      firstMeanMgDl = means[1], secondMeanMgDl = means[2], differenceMgDl = means[1] - means[2])
  })
  told <- list(measures = measures, blocks = blocks)
  if (length(used) >= 4) {
    told$sameTimesOfDay <- standardised(first, second, block(first), block(second), used)
    weight <- table(c(block(first), block(second)))[used]
    moved <- sapply(used, function(name) {
      a <- first[block(first) == name, ]
      b <- second[block(second) == name, ]
      after <- function(log) mean(grepl("^after", MEALS[log$meal])[!is.na(MEALS[log$meal])])
      isTRUE(abs(after(a) - after(b)) > 0.15) || abs(median(a$second) - median(b$second)) > 1800
    })
    if (sum(weight[moved]) / sum(weight) >= 0.5) {
      told$sameTimesOfDay$verdict <- "unclear"
      told$sameTimesOfDay$verdictReason <- "mix-moved"
    }
  }
  tagged <- function(log) mean(!is.na(MEALS[log$meal]))
  if (tagged(first) >= 0.6 && tagged(second) >= 0.6) {
    moment <- function(log) ifelse(grepl("^before", MEALS[log$meal]), "before", ifelse(grepl("^after", MEALS[log$meal]), "after", "other"))
    cell <- function(log) paste(block(log), moment(log))
    used <- cells_of_both(cell(first), cell(second))
    if (length(used) >= 4) told$sameMeals <- standardised(first, second, cell(first), cell(second), used)
  }
  told
}

verdict_of <- function(ci95) if (ci95[1] > 0) "higher" else if (ci95[2] < 0) "lower" else "unclear"

# Cells with five readings in both periods.
cells_of_both <- function(a, b) {
  counts <- table(c(a, b), rep(1:2, c(length(a), length(b))))
  rownames(counts)[counts[, 1] >= 5 & counts[, 2] >= 5]
}

standardised <- function(first, second, a, b, used) {
  weights <- table(c(a, b))[used]
  weights <- setNames(as.vector(weights) / sum(weights), used)
  mean_at <- function(log, cell) sum(sapply(used, function(name) weights[[name]] * mean(log$mgdl[cell == name])))
  told <- list(first = mean_at(first, a), second = mean_at(second, b))
  told$difference <- told$first - told$second
  if (length(unique(first$day)) >= 8 && length(unique(second$day)) >= 8) {
    told$ci95 <- difference_limits(told$difference, weighted_error(first, a, weights), weighted_error(second, b, weights))
    told$verdict <- verdict_of(told$ci95)
  }
  told
}

# ---- the whole -------------------------------------------------------------------------------------------------------

figures_of <- function(path, doubtful_lines) {
  name <- basename(path)
  form <- FORMS[sapply(FORMS$pattern, grepl, x = name), ]
  if (nrow(form) != 1) stop("no form is known for ", name)
  log <- readings_of(path, form)
  seconds <- grepl("%S", form$format)
  doubtful <- if (is.null(doubtful_lines)) NULL else doubtful_lines$line[doubtful_lines$log == name]
  days <- max(log$day) - min(log$day) + 1
  period <- list(from = format(as.Date(min(log$day), origin = "1970-01-01")), to = format(as.Date(max(log$day), origin = "1970-01-01")),
    days = days, daysWithReadings = length(unique(log$day)), readingsPerDay = nrow(log) / days, asLogged = summary_of(log))
  if (!is.null(doubtful)) {
    checked <- summary_of(checked_of(log, doubtful))
    lows <- c("percentBelow54", "percentBelow70")
    checked[lows] <- period$asLogged[lows]
    checked$ci95[lows] <- period$asLogged$ci95[lows]
    period$checked <- checked
  }
  period$latestA1c <- latest_a1c_of(log)
  period$timeOfDay <- list(hours = hours_of(log), blocks = blocks_of(log), curve = curve_of(log))
  if (form$meal != "0") period$byMeal <- by_meal_of(log)
  period$week <- week_of(log)
  period$lows <- lows_of(log, days, doubtful, seconds)
  told <- list(
    readings = list(n = nrow(log), firstAt = moment_text(log$at[1], seconds), lastAt = moment_text(log$at[nrow(log)], seconds)),
    periods = list(period),
    technique = technique_of(log, doubtful, seconds))
  if (form$first != "") {
    told$compared <- list(first = form$first, second = form$second)
    told$comparison <- comparison_of(within(log, form$first), within(log, form$second))
  }
  told
}

# Numbers with 17 digits; NULL and NA are null; a named list is an object, any other an array.
json <- function(value) {
  if (is.null(value)) return("null")
  if (is.list(value)) {
    parts <- vapply(value, json, "")
    if (is.null(names(value))) return(paste0("[", paste(parts, collapse = ","), "]"))
    return(paste0("{", paste0('"', names(value), '":', parts, collapse = ","), "}"))
  }
  texts <- if (is.logical(value) && !anyNA(value)) tolower(as.character(value))
    else if (is.character(value)) paste0('"', value, '"')
    else ifelse(is.na(value), "null", sprintf("%.17g", value))
  if (length(texts) == 1) texts else paste0("[", paste(texts, collapse = ","), "]")
}

arguments <- commandArgs(trailingOnly = TRUE)
doubtful_lines <- NULL
if (length(arguments) > 0 && arguments[1] == "--doubtful") {
  doubtful_lines <- read.csv(arguments[2], colClasses = c("character", "integer"))
  arguments <- arguments[-(1:2)]
}
logs <- vapply(arguments, function(path) paste0('"', basename(path), '":', json(figures_of(path, doubtful_lines))), "")
cat("{", paste(logs, collapse = ",\n"), "}\n", sep = "")
