// Package safety is a watch on what can hurt someone: heat, cold, time, and the
// work itself. It computes, names its source, and defers to local codes and
// licensed practice. It never says that food is safe; it says what was compared
// with what.
//
// What lives here, and where to enter:
//
//   - the usual cautions for a step: [Cautions]
//   - limits of the codes: [Cook], [For], [Usual]; a food's class from its name: [ClassOf];
//     steps of a card that lack a limit: [Gaps]
//   - what a log of core temperatures has reached: [Against] by the letter of a limit,
//     [Lethality] and [Remaining] by the model behind it; [Cooled], [Reheated], [Holding]
//   - how long something takes to cool or to heat, whether the stages will be met, and
//     what would be quicker: [NewForecast]
//   - when a pot is reduced: [Reduction]; where water boils: [BoilingC]
//   - published working ranges, as an aside: [Aside], [SyrupBoiling], [KeepBloom], [EqualSalt]
//   - the last day of use: [UseBy]
//
// Temperatures are degrees Celsius, times minutes, lengths metres and masses
// kilograms; the names say so. Every number that comes from outside carries a
// [Source] with its [Status]: what was read, what is recalled from memory, what
// was worked out here. Where there is no basis there is no number but a reason.
//
// The package imports nothing but pure parts of the standard library, holds no
// clock and no state, and compiles for the phone.
package safety
