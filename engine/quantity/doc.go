// Package quantity reads and writes numbers that have a dimension and a unit.
//
// A reading is told as people write it, "8.5 psi", "0.58 bar", "185 degF",
// "1300 rpm", and kept as a [Quantity]: the value in SI, its [Dimension] and the
// [Unit] it was told in. One unit may serve several dimensions: psi is used
// for gauge pressure, absolute pressure, a pressure difference and boost, degC
// for a temperature and for a difference of two. What is wanted decides, so
// the main door is [ParseAs], which is told the dimension; [Parse] takes the
// usual one of the unit.
//
// Besides single figures people tell a change ("2400 -> 1950 rpm",
// [ParseChange]), a range ("150-175 rpm", [ParseRange]) and a bound ("<1 mm",
// [ParseBound]). Whatever cannot be read comes back as an [*Error], which says
// what is wrong, what would be right and the nearest name.
//
// The SI units used: Pa, K, turns per second (Hz), V, A, C (A s), m3, s, m, m3/s,
// ohm, rad, kg, J, W, kg/m3, m/s, m2/s, N m; shares and counts are plain numbers.
package quantity
