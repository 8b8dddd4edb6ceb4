//go:build !race

package main

// raced tells that the race detector, which takes memory of its own, is on.
const raced = false
