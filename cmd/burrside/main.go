// Command burrside tells whether a shop can make the flat part of a drawing.
package main

func main() {}
