// Package sheet makes a bay sheet of records: one page that a tech takes to the
// machine. [Make] turns records into what stands on the page, [Sheet.Write]
// writes the page.
//
// Both are pure. Which records apply to the machine, and that none of them is
// rejected, is settled before: a sheet shows what it is given.
//
// A figure stands as it is printed. What is converted is marked, an order and a
// picture stand there only where the record holds them, and nothing is added:
// no band, no default, no order of our own.
package sheet
