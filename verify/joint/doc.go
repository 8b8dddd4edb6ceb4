// Package joint holds the mechanics of a tightened screw: what preload a
// torque gives, what a screw bears, and the band of torques that go with a
// thread, a class, a head and a friction.
//
// The relations are pure functions of numbers; every argument and result says
// its unit in its name. [Facts] are what a record says of one fastener,
// [BandOf] is the band that they leave open. The less is known, the wider the
// band.
//
// What the package cannot tell: whether the joint needs the preload that it
// gets, how the parts yield under the head, and what friction a real screw
// meets. Ten screws tightened to one torque differ by 8 % in preload (one
// standard deviation, Shigley Table 8-14), so no band is a specification.
package joint
