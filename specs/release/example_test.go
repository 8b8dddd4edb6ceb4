package release_test

import (
	"errors"
	"fmt"
	"log"
	"os"

	"snapgauge/specs/release"
)

// Open a release, see that it is the one that was vetted, and look up the screws
// of a cover for the machine in hand.
func Example() {
	key, err := os.ReadFile("testdata/shop.pub") // of whoever is trusted, kept elsewhere
	if err != nil {
		log.Fatal(err)
	}
	r, err := release.Open("testdata/wrackline-40.zip")
	if err != nil {
		log.Fatal(err)
	}
	defer r.Close()
	if err := r.Verify(string(key)); err != nil || r.Draft() {
		log.Fatal(err, r.Draft())
	}
	record, err := r.LookUp("wrackline-40", "control-cover-screws", "variant=A", "gear=1250")
	if err != nil {
		log.Fatal(err)
	}
	torque, _ := record.Figure("/tighten/0/to")
	v := torque.Values[0]
	fmt.Printf("%s: %s (%.3f to %.3f %s), %s %s\n", record.Where, v.Text, *v.RoundingLow, *v.RoundingHigh, v.SI, record.Source.Title, record.Source.At)

	// Output:
	// control block cover to gearcase: 71 lbf·in (7.965 to 8.078 N·m), Wrackline 40 workshop manual page 4-12
}

// A fact that decides and is not told is asked for.
func ExampleRelease_LookUp() {
	r, err := release.Open("testdata/wrackline-40.zip")
	if err != nil {
		log.Fatal(err)
	}
	defer r.Close()
	_, err = r.LookUp("wrackline-40", "control-cover-screws", "variant=A")
	var missing *release.MissingFactError
	if errors.As(err, &missing) {
		fmt.Println("which is the", missing.Fact, "number?")
	}
	// Output:
	// which is the gear number?
}
