//go:build !unix

package main

import "errors"

func makePipe(string) error { return errors.New("no named pipes on this system") }
