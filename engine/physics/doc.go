// Package physics works out what the gauges do not show: the air of the day, the
// pressure in the trunk, the power a propeller takes, what is left in battery and
// air bottle, how thick the oil is, how far the coolant is from boiling.
//
// There are two layers. The functions, such as [LoadPower] and [WaterBoils], take
// and return SI values, check that they are in range and know nothing of rigs. The
// table [All] describes each computed reading: what goes in and where it comes
// from, what comes out, by which formula, from which source, with which caution.
//
//	c, err := physics.Find("propeller_speed")
//	given, err := c.Read([]string{"engine_rpm=1800 rpm", "reduction=0.48"})
//	value, err := c.Work(given.Look)
//
// Something not given is not guessed: there is then no value but a
// [*MissingError]. Where a usual figure stands in, [Value] says so under Assumed.
//
// All of it is general: the handbook of the engine, propeller or set on the stand
// comes first.
package physics
