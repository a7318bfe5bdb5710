// Package safety covers what can hurt someone: heat, cold, time, and the work itself.
// It computes, names its source, and defers to local codes and licensed practice. It
// never says that food is safe; it says what was compared with what.
//
// What is here, and where to start:
//
//   - the usual cautions for a step: [Cautions]
//   - limits of the codes: [Cook], [For], [Usual]; a food's class from its name: [ClassOf];
//     steps of a card that lack a limit: [Gaps]
//   - what a log of core temperatures has reached: [Against] by the letter of a limit,
//     [Lethality] and [Remaining] by the model behind it; [Cooled], [Holding]
//   - how long something takes to cool or to heat, whether the stages will be met, and
//     what would be quicker: [NewForecast]
//   - when a pot is reduced: [Reduction]; where water boils: [BoilingC]
//   - published working ranges: [Aside], [SyrupBoiling]
//   - the last day of use: [UseBy]
//
// Temperatures are in degrees Celsius, times in minutes, lengths in metres and masses
// in kilograms; the names say so. Every figure from outside has a [Source] with its
// [Status]: read, from memory, or computed here. Where there is no basis the answer is
// a reason and no number.
//
// The package imports larder, for the class of a food by its name, and pure parts of the
// standard library. It has no clock and no state, and runs on the phone.
package safety
