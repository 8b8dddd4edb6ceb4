// Package release reads releases: vetted, sealed sets of records that the
// program makes (snapgauge release) for other tools.
//
// [Open] opens one, a folder or a .zip; [Release.Verify] says whether it is as it
// was made and, with a key, by whom; [Release.LookUp] gives the one record of an
// item that applies to a machine, or says which fact is missing to decide. A
// release may come from anywhere, so nothing in it is believed before it is
// looked at: links, paths that lead out of it, doubled or compressed entries and
// sizes beyond the limits are refused.
//
// [Normal] is the normal form of a record: each figure with its text as printed,
// its digits, the code of its unit (UCUM), its ends in the SI unit and what
// would round to it.
//
// Figures are only as good as their source. The maker's current service
// information, local codes and a licensed practitioner's judgement come first.
package release
