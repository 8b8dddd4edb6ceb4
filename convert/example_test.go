package convert_test

import (
	"fmt"

	"snapgauge/convert"
)

// One figure in two units, as a manual prints it.
func Example() {
	torque := convert.Of(convert.Torque)
	first, _ := convert.Parse("71 in-lb", torque, convert.Point)
	second, _ := convert.Parse("8 Nm", torque, convert.Point)
	fmt.Println(first, "and", second, "agree:", convert.Agree(first, second).Outcome)

	slipped, _ := convert.Parse("71 ft-lb", torque, convert.Point)
	a := convert.Agree(slipped, second)
	fmt.Printf("%v and %v: %v, want %v\n", slipped, second, a.Outcome, a.Want)
	// Output:
	// 71 lbf·in and 8 N·m agree: rounded
	// 71 lbf·ft and 8 N·m: disagree, want 96 N·m
}

func ExampleParse() {
	for _, text := range []string{"9 +1/-0 N·m", "10 lb", "6 L"} {
		q, problem := convert.Parse(text, convert.Of(convert.Torque), convert.Point)
		if problem != nil {
			fmt.Println(problem)
			continue
		}
		fmt.Println(q)
	}
	// Output:
	// 9 +1/-0 N·m
	// "10 lb": "lb" is a weight or a force and no torque, its lever is cut off; write 10 lbf·ft or 10 lbf·in
	// "6 L": "L" is a volume; here a torque is wanted
}

func ExampleSettle() {
	var values []convert.Value
	for _, text := range []string{"6.2 L", "6.6 qt"} {
		q, problem := convert.Parse(text, convert.Of(convert.Volume), convert.Point)
		values = append(values, convert.Value{Text: text, Quantity: q, Problem: problem})
	}
	convert.Settle(values)
	fmt.Println(values[1].Quantity, values[1].Problem.Settled)
	// Output:
	// 6.6 US qt true
}

func ExampleQuantity_To() {
	q, _ := convert.Parse("8 to 10 N·m", convert.Of(convert.Torque), convert.Point)
	u, _ := convert.UnitBySymbol("lbf·in")
	nearest, _ := q.To(u, false)
	limits, _ := q.To(u, true)
	fmt.Println(nearest.Quantity)
	fmt.Println(limits.Quantity)
	// Output:
	// 71 to 89 lbf·in
	// 71 to 88 lbf·in
}
