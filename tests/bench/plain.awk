# SPDX-License-Identifier: MIT
# The plain way to do what the benchmark's book asks for, to compare figures and time with: one awk program, no places, no
# messages, nothing checked. Run as: mawk -f plain.awk instruments.csv certificates.csv samples.csv readings.csv
# Prints sample,verdict,minutes,pre_n,pre,pre_sd,post_n,post,post_sd,drift,flow,volume,reference volume.

function day_number(y, m, d) {  # days since some day long ago, Gregorian
  if (m <= 2) { y--; m += 12 }
  return 365 * y + int(y / 4) - int(y / 100) + int(y / 400) + int((153 * (m - 3) + 2) / 5) + d
}
function day_of(text) {
  if (!(text in known_day)) known_day[text] = day_number(substr(text, 1, 4) + 0, substr(text, 6, 2) + 0, substr(text, 9, 2) + 0)
  return known_day[text]
}
function minute_of(stamp) { return day_of(substr(stamp, 1, 10)) * 1440 + substr(stamp, 12, 2) * 60 + substr(stamp, 15, 2) }

# The newest certificate of a calibrator on a day: its number, counted from 1.
function in_force(calibrator, day,   i) {
  for (i = certificates[calibrator]; i > 0; i--) if (calibrated[calibrator, i] <= day) return i
  return 0
}
function error_at(calibrator, i, shown,   p, share) {
  if (shown <= at[calibrator, i, 1]) return error[calibrator, i, 1]
  for (p = 2; p <= points[calibrator, i]; p++) {
    if (shown > at[calibrator, i, p]) continue
    share = (shown - at[calibrator, i, p - 1]) / (at[calibrator, i, p] - at[calibrator, i, p - 1])
    return error[calibrator, i, p - 1] + (error[calibrator, i, p] - error[calibrator, i, p - 1]) * share
  }
  return error[calibrator, i, p - 1]
}

BEGIN { FS = ","; OFS = ","; OFMT = CONVFMT = "%.15g"; table = 0 }
FNR == 1 { table++; next }
table == 1 { if ($2 == "calibrator") { principle[$1] = $3; scale[$1] = $5 / ($4 + 273.15); interval[$1] = $6 } }
table == 2 {
  if ($1 != last_certificate) { last_certificate = $1; calibrated[$2, ++certificates[$2]] = day_of($3) }
  i = certificates[$2]
  p = ++points[$2, i]
  at[$2, i, p] = $6
  error[$2, i, p] = ($6 - $5) / $5
}
table == 3 {
  name[++count] = $1
  nominal[$1] = $4
  minutes[$1] = minute_of($6) - minute_of($5)
  to_reference[$1] = $8 / 101.325 * (298.15 / ($7 + 273.15))
}
table == 4 {
  day = day_of(substr($1, 1, 10))
  i = in_force($4, day)
  if (day > calibrated[$4, i] + interval[$4]) overdue[$3] = 1
  flow = $5 / (1 + error_at($4, i, $5 + 0))
  kind = principle[$4]
  if (kind == "rotameter") flow *= sqrt(scale[$4] / $7 * ($6 + 273.15))
  else if (kind == "mass") flow *= scale[$4] / $7 * ($6 + 273.15)
  key = $2 == "pre" ? $3 : $3 "+"
  if (!(key in n)) first[key] = flow
  n[key]++
  away = flow - first[key]
  sum[key] += away
  squares[key] += away * away
}
function mean(key) { return first[key] + sum[key] / n[key] }
function spread(key,   v) {
  v = (squares[key] - sum[key] * sum[key] / n[key]) / (n[key] - 1)
  return v > 0 ? sqrt(v) : 0
}
# A figure within a relative 1e-9 of its limit is on it.
function beyond(figure, limit) { return figure > limit * (1 + 1e-9) }
END {
  for (k = 1; k <= count; k++) {
    s = name[k]; q = s "+"
    a = n[s] + 0; b = n[q] + 0
    m1 = m2 = s1 = s2 = drift = flow = volume = reference = ""
    if (a) m1 = mean(s)
    if (b) m2 = mean(q)
    if (a > 1) s1 = spread(s)
    if (b > 1) s2 = spread(q)
    verdict = "valid"
    if (a > 1 && beyond(s1 / m1, 0.02) || b > 1 && beyond(s2 / m2, 0.02)) verdict = "qualified"
    if (a && b) {
      drift = 100 * (m2 - m1) / m1
      flow = (m1 + m2) / 2
      volume = flow * minutes[s]
      reference = volume * to_reference[s]
      away = flow / nominal[s] - 1
      if (beyond(drift < 0 ? -drift : drift, 5) || beyond(away < 0 ? -away : away, 0.05)) verdict = "void"
    }
    if (a < 3 || b < 3 || s in overdue) verdict = "void"
    print s, verdict, minutes[s], a, m1, s1, b, m2, s2, drift, flow, volume, reference
  }
}
