# The figures of a folder's list that a person looks at first, computed apart from the program, in base R, each log read
# with its own lines of code: how the samples are written stands here, not taken from figures.R or the program.
#
#   Rscript test/reference/overview.R FOLDER TODAY > OVERVIEW.csv
#
# TODAY: the day of making, as 2026-05-30. One line for each sample in the folder.

arguments <- commandArgs(trailingOnly = TRUE)
folder <- arguments[1]
today <- as.Date(arguments[2])
MG_PER_MMOL <- 18.0156

# Columns at (date and time), value (as logged) and note.
read_sample <- list(
  "europe-mmol.csv" = function(path) {
    t <- read.csv2(path, fileEncoding = "UTF-8-BOM", colClasses = "character", col.names = c("d", "t", "v", "meal", "note"))
    data.frame(at = as.POSIXct(paste(t$d, t$t), format = "%d.%m.%Y %H:%M", tz = "UTC"), value = sub(",", ".", t$v), note = t$note,
      meter = "", mmol = TRUE)
  },
  "season-two-meters.csv" = function(path) {
    t <- read.csv(path, fileEncoding = "UTF-8-BOM", colClasses = "character")
    data.frame(at = as.POSIXct(paste(t[[1]], t[[2]]), format = "%Y-%m-%d %H:%M", tz = "UTC"), value = t[[3]], note = t$Note,
      meter = t$Meter, mmol = FALSE)
  },
  "technique-morning.csv" = function(path) {
    t <- read.delim(path, fileEncoding = "UTF-8-BOM", colClasses = "character", quote = "\"")
    data.frame(at = as.POSIXct(t[[1]], format = "%Y-%m-%dT%H:%M:%S", tz = "UTC"), value = t[[2]], note = t[[4]], meter = t[[3]],
      mmol = FALSE)
  },
  "two-months.csv" = function(path) {
    t <- read.csv(path, fileEncoding = "UTF-8-BOM", colClasses = "character")
    data.frame(at = as.POSIXct(paste(t[[1]], t[[2]]), format = "%m/%d/%Y %I:%M %p", tz = "UTC"), value = t[[3]], note = t[[5]],
      meter = "", mmol = FALSE)
  })

figures_of <- function(name) {
  log <- read_sample[[name]](file.path(folder, name))
  text <- toupper(trimws(log$value))
  # LO and HI: beyond the meter's limits of 20 and 600 mg/dL, where they stand in the figures.
  mgdl <- suppressWarnings(as.numeric(text)) * ifelse(log$mmol, MG_PER_MMOL, 1)
  mgdl[text == "LO"] <- 20
  mgdl[text == "HI"] <- 600
  log$mgdl <- mgdl
  counts <- !is.na(log$mgdl) & !is.na(log$at) & !grepl("control solution", log$note, ignore.case = TRUE)
  log <- log[counts, ]
  log <- log[!duplicated(log[c("at", "value", "meter")]), ]
  log <- log[order(log$at), ]
  number <- suppressWarnings(as.numeric(log$value))
  lo <- toupper(log$value) == "LO"
  hi <- toupper(log$value) == "HI"
  # Held against the limit in the unit of the log.
  below <- function(mg, mmol) lo | (!is.na(number) & number < ifelse(log$mmol, mmol, mg))
  very_high <- hi | (!is.na(number) & number > ifelse(log$mmol, 13.9, 250))
  # A low that follows a low within an hour, no other reading between them, belongs to the same episode.
  low <- below(70, 3.9)
  episodes <- 0
  for (i in which(low)) {
    goes_on <- i > 1 && low[i - 1] && as.numeric(difftime(log$at[i], log$at[i - 1], units = "mins")) <= 60
    if (!goes_on) episodes <- episodes + 1
  }
  data.frame(log = name, readings = nrow(log), low_episodes = episodes, readings_below_70 = sum(low),
    readings_below_54 = sum(below(54, 3.0)), percent_above_250 = 100 * sum(very_high) / nrow(log),
    mean_mg_dl = sum(log$mgdl) / nrow(log),
    cv_percent = 100 * sqrt(sum((log$mgdl - mean(log$mgdl))^2) / (nrow(log) - 1)) / mean(log$mgdl),
    days_since_last = as.integer(today - as.Date(max(log$at))))
}

rows <- do.call(rbind, lapply(names(read_sample), figures_of))
rows[] <- lapply(rows, function(column) if (is.numeric(column)) sprintf("%.17g", column) else column)
write.csv(rows, stdout(), row.names = FALSE, quote = FALSE)
