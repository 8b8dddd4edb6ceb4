//go:build !linux

package main

// askPassword would have to keep what is typed from being shown.
func askPassword(streams, string) (string, error) { return "", errNoTerminal }
