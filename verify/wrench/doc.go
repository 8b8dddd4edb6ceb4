// Package wrench chooses, of the torque wrenches that a shop lists at the head of
// a spec file, those that a torque can be set on, and says what to set.
//
// [Choose] takes a step of a record and gives the settings, the best first, and
// for each other wrench why it will not do. A wrench will do when
//
//   - the setting lies in the part of its scale that is to be used: what the shop
//     says its certificate holds for (usable), else from a fifth of its greatest
//     torque on. ISO 6789:2003 tests at 20, 60 and 100 %; the edition of 2017
//     tests from the lowest mark, and who has such a certificate says so;
//   - what it may be off by its class (ISO 6789) stays within the tolerance that
//     the source gives; a tenth is left for rounding. Where the source gives none,
//     nothing is asked;
//   - a step of its scale comes near enough: within the source's tolerance, or,
//     where there is none, within what the printed digits leave open or what the
//     wrench may be off, whichever is more.
//
// A running torque is added where the record says that the torque does not include
// it; an adapter in line with the wrench lowers the setting (see
// [snapgauge/verify/joint.AdapterSetting]).
//
// What it does not know: whether the wrench reaches the screw, whether its drive
// fits, and whether its calibration has run out, for it knows no day.
package wrench
